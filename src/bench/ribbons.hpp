#pragma once

#include "bench/canvas.hpp"
#include "bench/felt_axle.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

/// What the axle feels as ribbons along it, each with its largest value: the bending moment above
/// the axle, the torque below it, with this share (0..1) of the load on. Says by how much the shape
/// is enlarged.
void draw_ribbons(Canvas& canvas, const Assembly& assembly, const FeltAxle& axle, double share);

/// A chalk line across each tread, straight as it was and wound up as the load turns it, with the
/// true angle beside it; nothing where nothing is wound up.
void draw_windup(Canvas& canvas, const Evaluation& evaluation, const FeltAxle& axle, double share);

}  // namespace podwright
