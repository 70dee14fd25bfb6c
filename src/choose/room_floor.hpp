#pragma once

#include <optional>

#include "choose/build.hpp"
#include "gap/clearance.hpp"

namespace podwright {

/// What a goal on clearances costs at least with so many shims, whatever else is built: shims push
/// hub and carrier away from bearing and holder, so the room there is a matter of the shims and of
/// how far the axle leans in the pod.
class RoomFloor {
public:
    /// Measures a few samples. Costs nothing anywhere if `today` has no such goal.
    RoomFloor(const Setup& today, const Lists& lists, Meter* meter);

    /// Points (millionths, >= 0) that a build with these shims loses at least; `lean` is the axle's
    /// angle in the pod, rad, not negative.
    std::int64_t points(const ShimPair& pair, double lean) const;
    /// points() with this lean is less than without by no more than this.
    std::int64_t credit(double lean) const;

private:
    /// What is known of one side.
    struct SideRoom {
        int sum = 0;        ///< the least that its shims can be together, micrometres
        double thrust = 0;  ///< margin of hub or carrier there
        double shim = 0;    ///< margin of the thinnest shim alone; more are no farther away
    };
    class Sampler;
    double most(const SideRoom& side, int sum) const;

    std::vector<Goal> goals_;  ///< on clearances
    std::optional<SideRoom> left_, right_;
};

}  // namespace podwright
