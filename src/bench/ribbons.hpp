#pragma once

#include "bench/canvas.hpp"
#include "bench/felt_axle.hpp"

namespace podwright {

/// What the axle feels as ribbons along it, each with its largest value: the bending moment above
/// the axle, the torque below it. Says by how much the shape is enlarged.
void draw_ribbons(Canvas& canvas, const Assembly& assembly, const FeltAxle& axle);

}  // namespace podwright
