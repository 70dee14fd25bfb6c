#include "shape/assembly.hpp"

#include <cmath>

#include "shape/builders.hpp"

namespace podwright {

namespace {

/// Axes, ground and ratio: what the parts are placed by.
void set_frames(Assembly& out, const Setup& setup, const Stance& stance, const Drive& drive) {
    out.axle_point = {0, 0, stance.axle_in_pod};
    out.axle_direction = {0, std::cos(stance.pod_tilt), std::sin(stance.pod_tilt)};
    const SlotPoint motor = slot_point(setup.motor, drive.motor_at);
    out.motor_point = {motor.x, -drive.gear_u, motor.z};
    const double below = stance.ride_at(0, 0);
    out.ground_point = {0, 0, -below};
    out.ground_normal =
        glm::normalize(glm::dvec3(stance.ride_at(1, 0) - below, stance.ride_at(0, 1) - below, 1));
}

}  // namespace

Assembly assemble(const Setup& setup, const Stack& stack, const Stance& stance,
                  const Drive& drive) {
    Assembly out;
    out.axial_float = stack.axial_float;
    out.gear_ratio = drive.final_drive;
    set_frames(out, setup, stance, drive);
    out.parts.reserve(22 + setup.left.shims.size() + setup.right.shims.size());

    Build build{setup, stack, stance, drive, proportions(setup), out, {}, {}, {}};
    for (auto* order : {&build.left, &build.right, &build.motor}) order->reserve(20);
    add_axle(build);
    add_pod(build);
    for (const Side side : both_sides) {
        add_holder(build, side);
        add_bearing(build, side);
        add_shims(build, side);
        if (side == Side::left) {
            add_blade(build);
            add_hub(build);
        } else {
            add_spur(build);
            add_carrier(build);
        }
        add_wheel(build, side);
    }
    add_motor(build);
    add_pinion(build);
    put_own_parts(build);
    spread_parts(build);
    return out;
}

}  // namespace podwright
