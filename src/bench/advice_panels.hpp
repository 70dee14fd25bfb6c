#pragma once

#include "bench/advice_widgets.hpp"

// The pages beside the car's own: each draws into the current ImGui window, offers what can stand
// on the model as a ghost, and takes what is chosen.
namespace podwright {

/// The best builds from the parts box; or what is in the way.
void choose_page(WindowFrame& frame, Advisor& advisor);

/// The plan of the day, run by run.
void day_page(WindowFrame& frame, Advisor& advisor);

/// The event's rules with their margins; predicted beside measured, and the mistakes that would
/// explain it.
void checks_page(WindowFrame& frame, Advisor& advisor, double aspect);

/// What one more of each adjuster does to a reading.
void effects_page(WindowFrame& frame, Advisor& advisor);

/// The table of all of them, over the bench, while it is asked for.
void effects_sheet(WindowFrame& frame, Advisor& advisor);

/// What follows from what differs between the ghost and the present.
void cause_lines(WindowFrame& frame);

}  // namespace podwright
