#pragma once

#include <optional>

#include "core/setup.hpp"
#include "gap/clearance.hpp"

namespace podwright {

/// Bounds on the room that a pair of gears leaves, whatever else is built with it: the larger the
/// centre distance, the farther is the motor from the axle; the larger the spur, the nearer the
/// ground. Where they are negative every build with those gears comes too close.
class GearRoom {
public:
    /// Knows nothing; without a meter, too.
    GearRoom() = default;
    /// Measures one sample, to see that what is bounded is there.
    GearRoom(const Setup& today, Meter* meter);

    /// Margin of axle and motor, at most; `lean` is the axle's angle in the pod, rad, not negative.
    double motor(double centre_distance, double lean) const;
    /// Margin of the spur over the ground, at most; `worn_radius` is the larger rolling radius of
    /// both tyres when they are worn, `spur` its outside diameter.
    double ground(double spur, double worn_radius) const;

private:
    std::optional<double> motor_;   ///< can's radius, axle's radius and need
    std::optional<double> ground_;  ///< need
    double way_to_can_ = 0;         ///< from the gears, mm
};

/// Rolling radius of a tyre that is worn down.
double worn_radius(const Tyre& tyre);

}  // namespace podwright
