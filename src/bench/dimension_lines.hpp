#pragma once

#include <span>
#include <vector>

#include "bench/canvas.hpp"
#include "bench/views.hpp"
#include "core/text.hpp"
#include "evaluate/evaluate.hpp"
#include "shape/dimension.hpp"

namespace podwright {

/// The dimensions of the assembly that belong on a named view.
std::vector<Dimension> dimensions_on(const NamedView& view, const Setup& setup,
                                     const Evaluation& evaluation);

/// Points along the dimension lines, and at their ends, in pixels: what should not be hidden.
std::vector<ImVec2> dimension_points(const Canvas& canvas, std::span<const Dimension> dimensions);

/// Draws the dimensions that can be read at this size and whose words find room, the first the most
/// important, in the manner of ISO 129-1: extension lines that start a little off the feature and
/// run past the dimension line, filled arrowheads of 30 degrees (outside when the line is short),
/// the number upright on a plate, with the sign of its status.
void draw_dimensions(Canvas& canvas, std::span<const Dimension> dimensions,
                     const Evaluation& evaluation, LengthUnit shown);

}  // namespace podwright
