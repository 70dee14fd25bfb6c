#include "core/stance.hpp"

#include <cmath>

namespace podwright {

namespace {

SideStance alone(const Setup& setup, const AxleSide& side) {
    SideStance s{};
    s.bore = setup.pod.bore_height + holder_offset(side);
    s.sag = side.tyre.stiffness > 0 ? side.tyre.load / side.tyre.stiffness : 0;
    s.rolling = side.tyre.diameter / 2 - s.sag;
    return s;
}

}  // namespace

double holder_offset(const AxleSide& side) {
    return side.holder_way == Way::up ? side.holder_step : -side.holder_step;
}

Stance stance_of(const Setup& setup, const Stack& stack) {
    Stance stance{};
    stance.left = alone(setup, setup.left);
    stance.right = alone(setup, setup.right);

    const double slope = (stance.left.rolling - stance.right.rolling) / stack.track;
    const auto axle_height = [&](double y) {
        return stance.right.rolling + slope * (y + stack.right.wheel);
    };
    stance.left.axle_height = axle_height(setup.left.seat);
    stance.right.axle_height = axle_height(-setup.right.seat);
    stance.left.ride = stance.left.axle_height - stance.left.bore;
    stance.right.ride = stance.right.axle_height - stance.right.bore;

    const double seats = setup.left.seat + setup.right.seat;
    stance.ride = (stance.left.ride + stance.right.ride) / 2;
    stance.roll = std::atan((stance.left.ride - stance.right.ride) / seats);
    stance.rake = std::atan((stance.ride - setup.car.front_ride) / setup.car.wheelbase);
    stance.axle_height = axle_height(0);
    stance.axle_tilt = std::atan(slope);
    stance.pod_tilt = std::atan((stance.left.bore - stance.right.bore) / seats);
    stance.axle_in_pod =
        stance.right.bore + (stance.left.bore - stance.right.bore) * setup.right.seat / seats;
    return stance;
}

double Stance::axle_z(double y) const { return axle_in_pod + y * std::tan(pod_tilt); }

double Stance::ride_at(double x, double y) const {
    const double at_mid_plane = axle_height - axle_in_pod;
    return at_mid_plane + y * std::tan(roll) - x * std::tan(rake);
}

}  // namespace podwright
