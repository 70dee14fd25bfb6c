#pragma once

#include "core/setup.hpp"
#include "gap/clearance.hpp"

namespace podwright {

/// By how much stacks differ, mm.
struct StackRange {
    double wheel = 0;        ///< places of a wheel along the axle
    double axial_float = 0;  ///< floats
    double track = 0;        ///< tracks
    double least_track = 0;
};

/// Margin of either wheel over the ground, at most, in every build that has the wheels and tyres of
/// `sample` on the same sides and whose stack is in `range`, as that of `sample` is, whatever its
/// axle, holders and gears: those tilt the pod, but not the axle over the ground.
double most_wheel_room(const Setup& sample, Meter& meter, const StackRange& range);

}  // namespace podwright
