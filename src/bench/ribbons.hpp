#pragma once

#include "bench/bent_axle.hpp"
#include "bench/canvas.hpp"
#include "core/shaft_study.hpp"

// What the axle feels, shown on the model: bent as the load bends it, many times as much, with its
// moment and torque as ribbons along it.
namespace podwright {

/// The axle under one load case, made ready to be shown.
struct FeltAxle {
    LoadCase which{};
    ShaftCurves curves;
    double bend_factor = 1;   ///< by which deflections are shown enlarged: 1, 2 or 5 times 10^n
    double twist_factor = 1;  ///< the same of the twist
};

FeltAxle felt_axle(const Setup& setup, const Stack& stack, const Drive& drive,
                   const ShaftStudy& study, LoadCase which);

/// Deflected and wound up at this share (0..1) of the load.
BentShape bent_shape(const FeltAxle& axle, double share);

/// The ribbons on the canvas, each with its largest value: the bending moment stands where the axle
/// is pressed, the torque below it. Says by how much the shape is enlarged.
void draw_ribbons(Canvas& canvas, const Assembly& assembly, const FeltAxle& axle);

}  // namespace podwright
