#include "shape/dimension.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

constexpr double apart = 8;  // between dimension lines, and from the parts, mm

/// What the dimensions are placed by.
struct Plan {
    const Setup& setup;
    const Stack& stack;
    glm::dvec3 origin, left;  ///< axle's axis at the mid-plane, unit vector along it
    double around;            ///< farthest that a wheel or the spur stands from the axle
    std::vector<Dimension> out;

    /// Point of the axle's axis at `u` on `side`.
    glm::dvec3 at(Side side, double u) const {
        return origin + left * (side == Side::left ? u : -u);
    }
    /// Above the axle or behind it, on the line numbered `level` from 1.
    std::vector<glm::dvec3> beside(int level) const {
        const double off = around + apart * level;
        return {{0, 0, off}, {-off, 0, 0}};
    }

    void add(std::string name, std::string label, double value, const glm::dvec3& from,
             const glm::dvec3& to, std::vector<glm::dvec3> offsets) {
        if (std::abs(value) < 1e-12) return;
        out.push_back({std::move(name), std::move(label), value, from, to, std::move(offsets)});
    }
};

void add_side(Plan& plan, Side side, const std::string& at) {
    const SideStack& s = plan.stack.side(side);
    const AxleSide& parts = plan.setup.side(side);
    plan.add(at + "shims", at == "left." ? "left shims" : "right shims", s.shims,
             plan.at(side, s.bearing), plan.at(side, s.bearing + s.shims), plan.beside(1));
    plan.add(at + "reach", at == "left." ? "left reach" : "right reach", parts.reach,
             plan.at(side, s.thrust), plan.at(side, s.mounting), plan.beside(1));
    plan.add(at + "inset", at == "left." ? "left inset" : "right inset", parts.inset,
             plan.at(side, s.mounting), plan.at(side, s.wheel), plan.beside(2));
}

void add_widths(Plan& plan) {
    const Stack& s = plan.stack;
    const glm::dvec3 left_face = plan.at(Side::left, s.left.outer);
    const glm::dvec3 right_face = plan.at(Side::right, s.right.outer);
    plan.add("width.track", "track", s.track, plan.at(Side::right, s.right.wheel),
             plan.at(Side::left, s.left.wheel), plan.beside(3));
    plan.add("width.left", "left tyre face", s.left.outer, plan.origin, left_face, plan.beside(4));
    plan.add("width.right", "right tyre face", s.right.outer, right_face, plan.origin,
             plan.beside(4));
    plan.add("width.overall", "overall width", s.overall_width, right_face, left_face,
             plan.beside(5));
}

void add_ride(Plan& plan, const Stance& stance) {
    // Straight down from the underside, beside the pod's rear or front edge.
    const Motor& motor = plan.setup.motor;
    const double rear = plan.setup.pod.bore_diameter / 2 + 11 + apart;
    const double front =
        slot_point(motor, motor.slot_length).x + motor.can_diameter / 2 + 3 * apart;
    for (const Side side : both_sides) {
        const bool is_left = side == Side::left;
        const double ride = stance.side(side).ride, seat = plan.setup.side(side).seat;
        const glm::dvec3 from(0, is_left ? seat : -seat, 0);
        plan.add(is_left ? "ride.left" : "ride.right",
                 is_left ? "left ride height" : "right ride height", ride, from,
                 from - glm::dvec3(0, 0, ride), {{-rear, 0, 0}, {front, 0, 0}});
    }
}

void add_mesh(Plan& plan, const Drive& drive) {
    const SlotPoint motor = slot_point(plan.setup.motor, drive.motor_at);
    const glm::dvec3 axle(0, -drive.gear_u, drive.axle_z);
    const glm::dvec3 shaft(motor.x, -drive.gear_u, motor.z);
    glm::dvec3 square(-(shaft.z - axle.z), 0, shaft.x - axle.x);  // to the centre line, upward
    if (square.z < 0) square = -square;
    square = glm::normalize(square);
    const double near = std::max(diameters(drive.spur).outside, plan.setup.motor.can_diameter) / 2;
    // What is drawn is where the motor is clamped, which may not be where the mesh would be set.
    const bool is_set = std::abs(drive.unset.distance - drive.mesh.distance) < 1e-6;
    plan.add(is_set ? "mesh.working_distance" : "mesh.distance_unset",
             is_set ? "centre distance" : "centre distance, not set again", drive.unset.distance,
             axle, shaft, {square * (near + apart / 2)});
}

}  // namespace

std::vector<Dimension> dimensions(const Setup& setup, const Stack& stack, const Stance& stance,
                                  const Drive& drive) {
    Plan plan{setup,
              stack,
              {0, 0, stance.axle_in_pod},
              {0, std::cos(stance.pod_tilt), std::sin(stance.pod_tilt)},
              0,
              {}};
    plan.around = std::max({setup.left.tyre.diameter, setup.right.tyre.diameter,
                            diameters(drive.spur).outside}) /
                  2;
    const double gap = stack.left.bearing + stack.left.shims;
    plan.add("float.nominal", "float", stack.axial_float, plan.at(Side::left, gap),
             plan.at(Side::left, gap + stack.axial_float), plan.beside(2));
    add_side(plan, Side::left, "left.");
    add_side(plan, Side::right, "right.");
    add_widths(plan);
    add_ride(plan, stance);
    add_mesh(plan, drive);
    return std::move(plan.out);
}

}  // namespace podwright
