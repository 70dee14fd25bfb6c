#include "core/drive.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

constexpr double mm_per_km = 1e6;
constexpr double minutes_per_hour = 60;

double distance_at(const Motor& motor, double axle_z, double position) {
    const SlotPoint at = slot_point(motor, position);
    return std::hypot(at.x, at.z - axle_z);
}

/// The larger Lewis stress of the two gears; the force acts on the pinion's working pitch circle.
double tooth_stress(const Setup& setup, const Drive& drive) {
    const double force = setup.motor.torque / drive.pinion_radius();
    const double face = setup.gears.face_width;
    return std::max(lewis_stress(force, face, setup.gears.module, drive.pinion.teeth),
                    lewis_stress(force, face, setup.gears.module, drive.spur.teeth));
}

}  // namespace

MotorShape motor_shape(const Motor& motor) {
    MotorShape shape{};
    shape.scale = motor.can_diameter / 35.8;
    shape.boss = std::max(5 * shape.scale, motor.shaft_diameter / 2 + 0.8);
    shape.screws = 12.5 * shape.scale;
    shape.boss_slot = shape.boss + 0.25;
    shape.screw_slot = 1.55 * shape.scale + 0.1;
    return shape;
}

SlotPoint slot_point(const Motor& motor, double position) {
    return {motor.slot_x + position * std::cos(motor.slot_angle),
            motor.slot_z + position * std::sin(motor.slot_angle)};
}

SlotPlace place_on_slot(const Motor& motor, double axle_z, double distance) {
    // |start - axle + p·direction|² = distance² is p² + 2 half p + rest = 0.
    const double x = motor.slot_x;
    const double z = motor.slot_z - axle_z;
    const double half = x * std::cos(motor.slot_angle) + z * std::sin(motor.slot_angle);
    const double rest = x * x + z * z - distance * distance;
    const double square = half * half - rest;
    const double root = std::sqrt(std::max(0.0, square));
    const auto at = [&](double wanted) {
        SlotPlace place{};
        place.wanted = wanted;
        place.position = std::clamp(wanted, 0.0, motor.slot_length);
        place.reached = square >= 0 && place.position == wanted;
        place.distance = distance_at(motor, axle_z, place.position);
        return place;
    };
    // The slot's line meets the distance twice. The larger root leads away from the axle; the other
    // one counts where the slot holds it, or comes nearer to it.
    const SlotPlace away = at(-half + root), towards = at(-half - root);
    if (away.reached != towards.reached) return away.reached ? away : towards;
    const auto miss = [&](const SlotPlace& place) { return std::abs(place.distance - distance); };
    return miss(towards) < miss(away) - 1e-9 ? towards : away;
}

Gear pinion_of(const Gears& g) {
    return standard_gear(g.pinion, g.module, g.pressure_angle, g.dedendum, g.pinion_thinning);
}

Gear spur_of(const Gears& g) {
    return standard_gear(g.spur, g.module, g.pressure_angle, g.dedendum, g.spur_thinning);
}

Drive drive_of(const Setup& setup, const Stack& stack, const Stance& stance) {
    const Gears& g = setup.gears;
    Drive drive{};
    drive.pinion = pinion_of(g);
    drive.spur = spur_of(g);
    drive.gear_u = stack.right.thrust + g.spur_offset;
    drive.axle_z = stance.axle_z(-drive.gear_u);

    const double wanted = distance_for_backlash(drive.pinion, drive.spur, g.backlash);
    drive.slot = place_on_slot(setup.motor, drive.axle_z, wanted);
    drive.mesh = pair_at(drive.pinion, drive.spur, drive.slot.distance);
    drive.motor_at = setup.motor.clamped_at.value_or(drive.slot.position);
    drive.unset =
        pair_at(drive.pinion, drive.spur, distance_at(setup.motor, drive.axle_z, drive.motor_at));

    drive.mesh_tilt = std::abs(stance.pod_tilt);
    // The tilt lies in the vertical plane; only its part along the line of centres opens the mesh.
    const SlotPoint motor = slot_point(setup.motor, drive.slot.position);
    const double along_centres = std::abs(motor.z - drive.axle_z) / drive.mesh.distance;
    drive.backlash_across = 2 * std::tan(drive.mesh.pressure_angle) * std::tan(drive.mesh_tilt) *
                            g.face_width * along_centres;

    // One axle turns both wheels: the mean tyre. A sagging tread still lays down its whole length.
    const double diameter = (setup.left.tyre.diameter + setup.right.tyre.diameter) / 2;
    drive.final_drive = static_cast<double>(g.spur) / g.pinion;
    drive.rollout = pi * diameter * g.pinion / g.spur;
    drive.speed = drive.rollout * setup.motor.speed * minutes_per_hour / mm_per_km;
    drive.tooth_stress = tooth_stress(setup, drive);
    return drive;
}

}  // namespace podwright
