#pragma once

#include "bench/bent_axle.hpp"
#include "core/shaft_study.hpp"

namespace podwright {

/// The axle under one load case, made ready to be shown many times as bent as it is.
struct FeltAxle {
    LoadCase which{};
    ShaftCurves curves;
    double bend_factor = 1;   ///< by which deflections are shown enlarged: 1, 2 or 5 times 10^n
    double twist_factor = 1;  ///< the same of the twist
};

FeltAxle felt_axle(const Setup& setup, const Stack& stack, const Drive& drive,
                   const ShaftStudy& study, LoadCase which);

/// A straight line chalked along the treads, as it winds up with the wheels: pod axes.
struct ChalkLine {
    std::vector<glm::dvec3> wound;     ///< across one tread, as it is shown
    std::vector<glm::dvec3> straight;  ///< the same without twist
};
/// Across the tread from y = `from` to `to`, at `radius`, on the side of the axle that faces `eye`.
/// The tread turns as one with the hub at `hub`.
ChalkLine chalk_line(const Assembly& assembly, const BentShape& shape, double hub, double from,
                     double to, double radius, const glm::dvec3& eye);

/// Deflected and wound up at this share (0..1) of the load.
BentShape bent_shape(const FeltAxle& axle, double share);

}  // namespace podwright
