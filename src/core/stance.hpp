#pragma once

#include "core/setup.hpp"
#include "core/stack.hpp"

// How the car stands on its tyres.
namespace podwright {

struct SideStance {
    double bore;         ///< z: axle in the pod at the seat, above the underside
    double sag;          ///< of the tyre under its load
    double rolling;      ///< r = D/2 - sag
    double axle_height;  ///< axle above ground at the seat
    double ride;         ///< H = axle height - z, at the seat
};

struct Stance {
    SideStance left, right;
    double ride;         ///< mean of both seats, mm
    double roll;         ///< rad, positive: left side up (ISO 8855)
    double rake;         ///< rad, positive: nose down (ISO 8855 pitch)
    double axle_height;  ///< above ground at the mid-plane
    double axle_tilt;    ///< of the axle against the ground, rad, positive: left end up
    double pod_tilt;     ///< of the axle against the pod, rad, positive: left end up
    double axle_in_pod;  ///< z of the axle at the mid-plane

    const SideStance& side(Side s) const { return s == Side::left ? left : right; }
    /// z of the axle in the pod at `y` (to the left).
    double axle_z(double y) const;
    /// Ground to pod underside at (x forward, y left).
    double ride_at(double x, double y) const;
};

/// The holder's step with its sign: positive is up, which raises the axle in the pod and lowers the
/// car.
double holder_offset(const AxleSide& side);

Stance stance_of(const Setup& setup, const Stack& stack);

}  // namespace podwright
