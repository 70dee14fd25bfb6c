#include <algorithm>
#include <cmath>

#include "shape/builders.hpp"
#include "shape/loops.hpp"
#include "shape/spur_proportions.hpp"

// Spur and pinion, turned so that they mesh.
namespace podwright {

namespace {

/// From the axle to the motor, as an angle from forward towards up: y to z of the right side's
/// frames.
double line_of_centres(const Build& build) {
    const glm::dvec3& motor = build.out.motor_point;
    return std::atan2(motor.z - build.drive.axle_z, motor.x);
}

/// Web of the spur: bolt holes, and round holes to make it light where there is room.
Extruded spur_web(const Build& build, const SpurProportions& p) {
    const double hub = build.setup.right.hub_diameter / 2;
    Extruded web{circle({0, 0}, p.rim_inside), {}, p.web_high - p.web_low};
    web.holes.reserve(20);
    web.holes.push_back(circle_hole({0, 0}, hub));
    const double inner = p.flange + 0.4, outer = p.rim_inside - 0.5;
    const double middle = (inner + outer) / 2, radius = std::min((outer - inner) / 2, middle * 0.2);
    if (radius < 0.7) return web;
    const int count = std::clamp(static_cast<int>(2 * pi * middle / (2.9 * radius)), 6, 16);
    for (int i = 0; i < count; ++i) {
        const double angle = 2 * pi * i / count;
        web.holes.push_back(
            circle_hole({middle * std::cos(angle), middle * std::sin(angle)}, radius));
    }
    return web;
}

}  // namespace

SpurProportions spur_proportions(const Build& build) {
    const Gears& gears = build.setup.gears;
    const double hub = build.setup.right.hub_diameter / 2;
    const double reach = build.setup.right.reach;
    SpurProportions p{};
    p.rim_inside = diameters(build.drive.spur).root / 2 - std::min(1.2, 2.2 * gears.module);
    p.flange = std::min(hub + 3.8, p.rim_inside - 0.6);
    p.bolt_circle = (hub + p.flange) / 2 + 0.1;
    p.screw_scale = std::min(0.5, (p.flange - hub - 0.5) / 5.5);
    p.web_high = gears.spur_offset + gears.face_width / 2;
    p.web_low = p.web_high - std::min({2.0, gears.face_width, std::max(0.3, p.web_high - 0.7)});
    p.flange_high = p.web_high + std::min(2.0, 0.35 * (reach - p.web_high));
    return p;
}

void add_spur(Build& build) {
    const Gears& gears = build.setup.gears;
    const SpurProportions p = spur_proportions(build);
    const Gear& gear = build.drive.spur;
    // A tooth stands on +z, a quarter turn from y; half a pitch on, a gap takes its place.
    const double angle = line_of_centres(build) - pi / 2 - pi / gear.teeth;
    Part& part =
        add_part(build, "spur", "spur " + std::to_string(gear.teeth) + " teeth", Moves::axle,
                 axle_frame(build, Side::right, build.drive.gear_u) * turn_about_x(angle));
    part.bodies.reserve(6);
    const Look look = look_of(build.setup.materials.spur, Look::aluminium, Look::white_plastic);
    part.bodies.push_back(
        {ToothedRing{gear, gears.face_width, 2 * p.rim_inside}, glm::dmat4(1.0), look});
    const double to_thrust = -gears.spur_offset;
    part.bodies.push_back({spur_web(build, p), shift(p.web_low + to_thrust), look});
    for (int i = 0; i < 4 && p.screw_scale > 0.05; ++i) {
        const double at = pi / 4 + pi / 2 * i;
        // Heads on the inboard face, shanks into the carrier's flange.
        glm::dmat4 place = shift(p.web_low + to_thrust, p.bolt_circle * std::cos(at),
                                 p.bolt_circle * std::sin(at));
        place[0] = -place[0];
        place[1] = -place[1];
        part.bodies.push_back({Imported{"cap_screw"}, place * scaled(p.screw_scale),
                               Look::dark_steel, Detail::screw});
    }
    const double thrust = build.stack.right.thrust;
    build.right.push_back({build.out.parts.size() - 1,
                           std::min(build.drive.gear_u - gears.face_width / 2,
                                    thrust + p.web_low - 3 * p.screw_scale),
                           thrust + p.web_high});
}

void add_pinion(Build& build) {
    const Gear& gear = build.drive.pinion;
    const double shaft = build.setup.motor.shaft_diameter;
    const double face = build.sizes.pinion_face, u = build.drive.gear_u;
    // A tooth points back at the axle.
    const double angle = line_of_centres(build) + pi / 2;
    const glm::dvec3& motor = build.out.motor_point;
    Part& part =
        add_part(build, "pinion", "pinion " + std::to_string(gear.teeth) + " teeth", Moves::motor,
                 pod_frame(Side::right, u, motor.x, motor.z) * turn_about_x(angle));
    part.bodies.reserve(3);
    const Look look = look_of(build.setup.materials.pinion, Look::aluminium, Look::white_plastic);
    part.bodies.push_back({ToothedRing{gear, face, shaft}, glm::dmat4(1.0), look});

    // The collar with its set screw faces the plate: outboard there is the tyre.
    const double room = u - face / 2 - build.sizes.plate_outer - 1;
    const double length = std::min(4.0, room);
    const double radius = std::min(diameters(gear).root / 2 - 0.2, shaft / 2 + 2.6);
    double low = u - face / 2;
    if (length > 1.2 && radius > shaft / 2 + 0.3) {
        low -= length;
        const double c = std::min(0.3, (radius - shaft / 2) / 3);
        part.bodies.push_back({Revolved{straight({{-face / 2 - length, shaft / 2},
                                                  {-face / 2, shaft / 2},
                                                  {-face / 2, radius},
                                                  {-face / 2 - length + c, radius},
                                                  {-face / 2 - length, radius - c}})},
                               glm::dmat4(1.0), look});
        const double scale =
            std::min({0.67, 0.7 * length / 3, (radius - shaft / 2 - 0.1) / 3 * 1.5});
        part.bodies.push_back({Imported{"set_screw"},
                               radial_frame(-(face + length) / 2, radius, pi / 3) * scaled(scale),
                               Look::dark_steel, Detail::screw});
    }
    build.motor.push_back({build.out.parts.size() - 1, low, u + face / 2});
}

}  // namespace podwright
