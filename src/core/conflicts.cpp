#include "core/conflicts.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/drive.hpp"
#include "core/gears.hpp"
#include "core/iso286.hpp"
#include "core/other_axle.hpp"
#include "core/stack.hpp"
#include "core/text.hpp"

namespace podwright {

namespace {

/// `smaller` must be at least `margin` less than `larger`.
struct Order {
    std::string key;  ///< of the value that is blamed
    double smaller;
    double larger;
    double margin;
    std::string text;  ///< "the bearing's bore must be smaller than its outside"
    const char* unit = "mm";
};

/// What an axle must be in these bearings. `table`: "axle", `it`: "the axle".
void add_axle(const Axle& a, const Bearing& b, const std::string& table, const std::string& it,
              std::vector<Order>& out) {
    out.push_back(
        {table + ".diameter", a.diameter, b.bore, 0, it + " must fit the bearing's bore"});
    out.push_back({table + ".diameter", b.bore - 0.2, a.diameter, 0,
                   it + " would be loose in the bearing's bore (at most 0.2 mm smaller)"});
    out.push_back(
        {table + ".waist", a.waist, a.diameter, 0, it + "'s waist must not be thicker than " + it});
    out.push_back({table + ".bore", a.bore, a.waist, 0.4,
                   it + "'s bore must leave a wall of 0.2 mm at the waist"});
}

void add_bearing_and_axle(const Setup& s, std::vector<Order>& out) {
    const Bearing& b = s.bearing;
    const double wall = (b.outside - b.bore) / 2;
    out.push_back({"bearing.bore", b.bore, b.outside, 1.0,
                   "the bearing's bore must be at least 1 mm smaller than its outside"});
    out.push_back({"bearing.ball_diameter", 1.25 * b.ball_diameter, wall, 0,
                   "the balls must fit between the bearing's bore and outside (1.25 x ball)"});
    out.push_back({"bearing.ball_diameter", b.ball_diameter, b.width, 0.6,
                   "the bearing must be at least 0.6 mm wider than its balls"});
    out.push_back({"bearing.balls", 1.02 * b.ball_diameter,
                   (b.bore + b.outside) / 2 * std::sin(pi / b.balls), 0,
                   "so many balls of this size do not fit on their circle"});
    out.push_back({"bearing.outside", b.outside, b.flange_diameter, 0.1,
                   "the bearing's flange must be larger than its outside"});
    out.push_back({"bearing.flange_width", b.flange_width, b.width, 0.3,
                   "the bearing's flange must be thinner than the bearing"});
    add_axle(s.axle, b, "axle", "the axle", out);
    if (const auto other = other_axle_of(s))
        add_axle(*other, b, "other_axle", "the other axle", out);
}

void add_pod_and_motor(const Setup& s, std::vector<Order>& out) {
    const Pod& p = s.pod;
    const Motor& m = s.motor;
    out.push_back({"pod.bore_height", p.floor_thickness + p.bore_diameter / 2, p.bore_height, 1.5,
                   "the holders' bores must lie above the pod's floor"});
    out.push_back({"motor.can_length", m.can_length, 2 * p.plate_inner, 1,
                   "the motor must fit between the pod plates"});
    out.push_back({"motor.can_length", 0.4 * m.can_diameter, m.can_length, 0,
                   "the motor must be longer than 0.4 of its diameter"});
    out.push_back({"motor.shaft_diameter", m.shaft_diameter, 0.25 * m.can_diameter, 0,
                   "the motor's shaft must be thinner than a quarter of its can"});
}

/// Distance of the origin from the segment that starts at (x, z) and runs along (cx, cz).
double distance_from_segment(double x, double z, double cx, double cz, double length) {
    const double along = std::clamp(-(x * cx + z * cz), 0.0, length);
    return std::hypot(x + along * cx, z + along * cz);
}

/// The right plate carries a slot for the motor's boss and one for each of its two screws; they
/// must leave material around the holder's bore and above the floor.
void add_slots(const Setup& s, std::vector<Order>& out) {
    const Motor& m = s.motor;
    const MotorShape shape = motor_shape(m);
    if (m.clamped_at)
        out.push_back({"motor.clamped_at", *m.clamped_at, m.slot_length, 0,
                       "the motor is clamped within its slot (slot_length)"});
    const double cx = std::cos(m.slot_angle);
    const double cz = std::sin(m.slot_angle);
    for (double aside : {0.0, shape.screws, -shape.screws}) {
        const double half_width = aside == 0 ? shape.boss_slot : shape.screw_slot;
        const double x = m.slot_x - aside * cz;
        const double z = m.slot_z + aside * cx;
        const double from_bore =
            distance_from_segment(x, z - s.pod.bore_height, cx, cz, m.slot_length);
        out.push_back({"motor.slot_x", s.pod.bore_diameter / 2 + half_width, from_bore, 1,
                       "the motor's slots must leave 1 mm of plate around the holder's bore"});
        out.push_back({"motor.slot_z", s.pod.floor_thickness + half_width,
                       std::min(z, z + m.slot_length * cz), 1,
                       "the motor's slots must lie at least 1 mm above the pod's floor"});
    }
}

void add_side(const Setup& s, Side which, std::vector<Order>& out) {
    const AxleSide& side = s.side(which);
    const Bearing& b = s.bearing;
    const std::string at = which == Side::left ? "left." : "right.";
    out.push_back({at + "seat", s.pod.plate_inner + s.pod.plate_thickness, side.seat, 0.3,
                   "the seat must lie at least 0.3 mm outboard of the pod plate (plate_inner + "
                   "plate_thickness)"});
    out.push_back({at + "standout", side.standout, b.width, 0,
                   "the inner ring cannot stand out farther than the bearing is wide"});
    out.push_back({at + "standout", b.flange_width - b.width / 2 + 0.45 * b.ball_diameter,
                   side.standout, 0.05, "the inner ring must reach over the balls"});
    out.push_back({at + "holder_step", b.outside + 2 * side.holder_step, s.pod.bore_diameter, 1,
                   "the holder is too small for this bearing and step (outside + 2 x step + 1)"});
    out.push_back({at + "holder_step", b.flange_diameter + 2 * side.holder_step,
                   s.pod.bore_diameter + 3, 0,
                   "the holder's lip is too small for this flange and step"});
    out.push_back({at + "hub_diameter", s.axle.diameter, side.hub_diameter, 3,
                   "the hub must be at least 3 mm larger than the axle"});
    out.push_back({at + "rim_diameter", side.hub_diameter, side.rim_diameter, 13,
                   "the rim must be at least 13 mm larger than the hub"});
    out.push_back({at + "tyre_diameter", side.rim_diameter, side.tyre.diameter, 3,
                   "the tyre must be at least 3 mm larger than the rim"});
    out.push_back({at + "tyre_worn", side.rim_diameter, side.tyre.worn_diameter, 0,
                   "a worn tyre is still larger than the rim"});
    out.push_back({at + "inset", std::abs(side.inset), side.tyre.width / 2, 4,
                   "the wheel's web must lie inside the wheel (inset within half its width - 4)"});
    if (side.tyre.stiffness > 0)
        out.push_back({at + "tyre_stiffness", side.tyre.load / side.tyre.stiffness,
                       (side.tyre.diameter - side.rim_diameter) / 2, 0.2,
                       "the tyre would sag down to the rim"});
}

void add_windows(const Setup& s, std::vector<Order>& out) {
    out.push_back({"temperature.cold", s.temperature.cold, s.temperature.hot, 0,
                   "the coldest of the day must not be warmer than the hottest", "degC"});
    out.push_back({"float.low", s.axial_float.low, s.axial_float.high, 0,
                   "the least float must not be more than the most"});
    out.push_back({"gears.backlash_low", s.gears.backlash_low, s.gears.backlash_high, 0,
                   "the least backlash must not be more than the most"});
    out.push_back({"event.ride_low", s.event.ride_low, s.event.ride_high, 0,
                   "the least ride height must not be more than the most"});
    if (s.event.rollout_high > 0)
        out.push_back({"event.rollout_low", s.event.rollout_low, s.event.rollout_high, 0,
                       "the least rollout must not be more than the most"});
}

void add_gears(const Setup& s, std::vector<Order>& out) {
    const Gears& g = s.gears;
    const Gear pinion = pinion_of(g), spur = spur_of(g);
    const GearDiameters p = diameters(pinion);
    const GearDiameters q = diameters(spur);
    out.push_back({"gears.pinion", s.motor.shaft_diameter, p.root, 1,
                   "the pinion's root must be at least 1 mm larger than the motor's shaft"});
    out.push_back({"gears.spur", s.right.hub_diameter, q.root, 12,
                   "the spur is too small for the gear carrier (hub_diameter + 12)"});
    out.push_back({"gears.pinion_thinning", g.pinion_thinning, g.module, 0.6 * g.module,
                   "the pinion's teeth would be too thin (at most 0.4 of the module)"});
    out.push_back({"gears.spur_thinning", g.spur_thinning, g.module, 0.6 * g.module,
                   "the spur's teeth would be too thin (at most 0.4 of the module)"});
    out.push_back({"gears.pressure_angle", 0, tooth_thickness(pinion, p.outside), 0.02 * g.module,
                   "the pinion's teeth would be pointed; use a smaller pressure angle or more "
                   "teeth"});
    const double outer_edge = g.spur_offset + g.face_width / 2;
    out.push_back({"gears.spur_offset", g.face_width / 2, g.spur_offset, 0,
                   "the spur must lie outboard of the carrier's thrust face (face_width / 2)"});
    out.push_back({"gears.spur_offset", 2.8, outer_edge, 0,
                   "the carrier needs 2.8 mm up to the outer edge of the spur"});
    out.push_back({"right.reach", outer_edge, s.right.reach, 5,
                   "the carrier must reach at least 5 mm past the spur"});
    const double thrust = s.right.seat + s.right.standout;  // without shims, the least there can be
    out.push_back({"gears.spur_offset", s.pod.plate_inner + s.pod.plate_thickness,
                   thrust + g.spur_offset - g.face_width / 2, 1.5,
                   "the pinion must stand 1.5 mm outboard of the pod plate"});
}

/// A shoulder-set axle may bind, but not by so much that nothing could be put together.
void add_shoulder(const Setup& s, std::vector<Order>& out) {
    if (s.axial_float.set_by != FloatBy::shoulder) return;
    Setup by_blade = s;
    by_blade.axial_float.set_by = FloatBy::blade;
    by_blade.axial_float.blade = 0;
    const double loop = stack_of(by_blade).thrust_faces;
    out.push_back({"float.shoulder", loop - 1, s.axial_float.shoulder, 0,
                   "the thrust faces are too close for bearings and shims (1 mm short at most)"});
    out.push_back({"float.shoulder", s.axial_float.shoulder, loop + 10, 0,
                   "the thrust faces are too far apart for bearings and shims (10 mm at most)"});
}

/// A fit that is not one, or that its size has no tolerances for.
std::optional<Conflict> find_fit_conflict(const Setup& s) {
    const auto check = [](const char* key, const std::string& text,
                          double nominal) -> std::optional<Conflict> {
        if (text.empty() || find_fit(text, nominal)) return {};
        return Conflict{key,
                        "\"" + text + "\" is not a fit that is known at " + fixed(nominal, 2) +
                            " mm; write hole and shaft such as H7/g6 (holes F G H JS, shafts f "
                            "g h js k m n p, grades 5 to 9, up to 30 mm)"};
    };
    if (auto conflict = check("fits.axle", s.fits.axle, s.bearing.bore)) return conflict;
    return check("fits.holder", s.fits.holder, s.bearing.outside);
}

}  // namespace

std::optional<Conflict> find_conflict(const Setup& setup) {
    std::vector<Order> orders;
    orders.reserve(64);
    add_bearing_and_axle(setup, orders);
    add_pod_and_motor(setup, orders);
    add_slots(setup, orders);
    for (Side side : both_sides) add_side(setup, side, orders);
    add_windows(setup, orders);
    add_gears(setup, orders);
    add_shoulder(setup, orders);
    for (const Order& o : orders)
        if (!(o.smaller + o.margin <= o.larger + 1e-9))
            return Conflict{o.key, o.text + ": here " + fixed(o.smaller, 2) + " against " +
                                       with_unit(fixed(o.larger, 2), o.unit)};
    return find_fit_conflict(setup);
}

}  // namespace podwright
