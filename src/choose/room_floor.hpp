#pragma once

#include <optional>

#include "choose/build.hpp"
#include "gap/clearance.hpp"

namespace podwright {

/// What is known of clearances from the shims alone, whatever else is built: shims push hub and
/// carrier away from bearing and holder, so the room there is a matter of the shims and of how far
/// the axle leans in the pod.
class RoomFloor {
public:
    /// Measures a few samples; more of them if `today` has a goal on clearances. Knows nothing
    /// without a meter.
    RoomFloor(const Setup& today, const Lists& lists, Meter* meter);

    /// Whether hub or carrier come too close to their bearings with these shims.
    bool forbids(const ShimPair& pair, double lean) const;

    /// Points (millionths, >= 0) that a build with these shims loses at least by goals on
    /// clearances; `lean` is the axle's
    /// angle in the pod, rad, not negative.
    std::int64_t points(const ShimPair& pair, double lean) const;
    /// points() with this lean is less than without by no more than this.
    std::int64_t credit(double lean) const;

private:
    /// What is known of one side.
    struct SideRoom {
        int sum = 0;         ///< the least that its shims can be together, micrometres
        double thrust = 0;   ///< margin of hub or carrier there
        double shim = 1e3;   ///< of the thinnest shim alone; more are no farther
        bool exact = false;  ///< round parts, and every level build with those shims measures
                             ///< the same there
    };
    class Sampler;
    static double most(const SideRoom& side, int sum);

    std::vector<Goal> goals_;                         ///< on clearances
    std::optional<SideRoom> left_, right_;            ///< for the goals
    std::optional<SideRoom> left_bare_, right_bare_;  ///< of hub and carrier to their bearings
};

}  // namespace podwright
