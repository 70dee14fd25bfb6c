#pragma once

#include <optional>
#include <string>

#include "bench/canvas.hpp"
#include "bench/model.hpp"

// A load case shown on the model: the axle bent and wound up, with its ribbons.
namespace podwright {

/// Calculates the shown case anew, for the evaluation that the model has now.
void follow_load_case(Model& model);

/// Shows what the axle feels in that case, eased in; nothing takes it away.
void show_load_case(Model& model, std::optional<LoadCase> which, double now);
/// The next case, or none after the last.
void next_load_case(Model& model, double now);

/// Puts this share (0..1) of the shown case's load on.
void put_load(Model& model, double share);

/// What is drawn over the model for the shown case: ribbons, and what the wheels wind up by.
void draw_load(Canvas& canvas, const Model& model);

/// The share of the load `seconds` after its play button was pressed: let go and put on again,
/// twice; all of it at the end and after it.
double played_load(double seconds);

/// "launch", "corner-left": the case as the command line names it.
std::string_view key(LoadCase which);

}  // namespace podwright
