#pragma once

#include "bench/file_dialog.hpp"
#include "bench/widgets.hpp"

// The panels at the edges of the bench. Each draws into the current ImGui window and changes the
// model as it is used.
namespace podwright {

/// The adjusters, in the groups Left, Right, Gears, Tyres, Axle, Event, Car.
void adjuster_panel(WindowFrame& frame);

/// Findings, the worst first, each with its fix.
void finding_panel(WindowFrame& frame, const Stage& stage, double aspect);

/// The pairs with the least room, the tightest first; choosing one turns the camera to its gap.
void room_panel(WindowFrame& frame, const Stage& stage, double aspect);

/// The names of the pages at the right, side by side; chooses one. Shows the worst finding's sign
/// where the findings are not in sight.
void page_tabs(WindowFrame& frame);

/// What the axle feels: load cases to be shown on the model, what they mean, another axle beside
/// it, and how its lengths scatter.
void feel_panel(WindowFrame& frame);

/// The adjuster of that parameter, on its own.
void adjuster_row(WindowFrame& frame, std::string_view key);

/// What differs between the ghost and the present; nothing without a ghost.
void ghost_panel(WindowFrame& frame);

/// All readings with their limits; what changed while an adjuster is dragged.
void reading_panel(WindowFrame& frame);

/// The line at the top: title, file, undo, unit, light or dark.
void top_bar(WindowFrame& frame, FileDialog& files);

/// The line at the foot: views, float, envelope, exploded view, cutaway.
void view_bar(WindowFrame& frame, double aspect);

/// The strip beside the bench: switches of what is shown on the model.
void tool_strip(WindowFrame& frame);

/// The sheet of keys and mouse, and what to do first.
void help_sheet(WindowFrame& frame);

}  // namespace podwright
