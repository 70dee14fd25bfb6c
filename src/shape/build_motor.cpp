#include <algorithm>
#include <cmath>

#include "shape/builders.hpp"
#include "shape/loops.hpp"

namespace podwright {

void add_motor(Build& build) {
    const Motor& motor = build.setup.motor;
    const Proportions& p = build.sizes;
    const double k = p.motor.scale, can = motor.can_diameter / 2, shaft = motor.shaft_diameter / 2;
    const double plate = build.setup.pod.plate_thickness, inner = build.setup.pod.plate_inner;
    const double bell = std::min(9 * k, 0.5 * motor.can_length);
    const double tip = build.drive.gear_u - inner + p.pinion_face / 2 + 0.5;
    const glm::dvec3& at = build.out.motor_point;

    Part& part =
        add_part(build, "motor", "motor", Moves::pod, pod_frame(Side::right, inner, at.x, at.z));
    part.bodies.reserve(6);
    const double back = -motor.can_length + bell, c = 0.8 * k;
    part.bodies.push_back(
        {Revolved{straight({{back, 0}, {0, 0}, {0, can - c}, {-c, can}, {back, can}})},
         glm::dmat4(1.0), Look::bright_steel});
    // Nominal end bell: 35.8 mm outside, 9 mm long, its open face at x = 0 and its back towards -x.
    part.bodies.push_back(
        {Imported{"end_bell"}, shift(back) * scaled(bell / 9), Look::black_plastic});
    part.bodies.push_back({Revolved{rectangle({0, 0}, {plate + 0.4, p.motor.boss - 0.05})},
                           glm::dmat4(1.0), Look::bright_steel});
    part.bodies.push_back(
        {Revolved{straight({{0, 0}, {tip, 0}, {tip, shaft - 0.2}, {tip - 0.2, shaft}, {0, shaft}})},
         glm::dmat4(1.0), Look::bright_steel});
    // Mounting screws square to the slot, heads on the plate.
    for (const double side : {1.0, -1.0}) {
        const double angle = motor.slot_angle + side * pi / 2;
        part.bodies.push_back(
            {Imported{"cap_screw"},
             shift(plate, p.motor.screws * std::cos(angle), p.motor.screws * std::sin(angle)) *
                 scaled(k),
             Look::dark_steel, Detail::screw});
    }
    build.motor.push_back({build.out.parts.size() - 1, inner - motor.can_length, inner + tip});
}

}  // namespace podwright
