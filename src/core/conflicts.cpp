#include "core/conflicts.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/gears.hpp"
#include "core/text.hpp"

namespace podwright {

namespace {

/// `smaller` must be at least `margin` less than `larger`.
struct Order {
    std::string key;  ///< of the value that is blamed
    double smaller;
    double larger;
    double margin;
    const char* text;  ///< "the bearing's bore must be smaller than its outside"
};

void add_bearing_and_axle(const Setup& s, std::vector<Order>& out) {
    const Bearing& b = s.bearing;
    const Axle& a = s.axle;
    const double wall = (b.outside - b.bore) / 2;
    out.push_back({"bearing.bore", b.bore, b.outside, 1.0,
                   "the bearing's bore must be at least 1 mm smaller than its outside"});
    out.push_back({"bearing.ball_diameter", b.ball_diameter, wall, 0.2,
                   "the balls must fit between the bearing's bore and outside"});
    out.push_back({"bearing.balls", b.balls * b.ball_diameter, pi * (b.bore + b.outside) / 2, 0,
                   "so many balls of this size do not fit on their circle"});
    out.push_back({"bearing.outside", b.outside, b.flange_diameter, 0.1,
                   "the bearing's flange must be larger than its outside"});
    out.push_back({"bearing.flange_width", b.flange_width, b.width, 0.1,
                   "the bearing's flange must be thinner than the bearing"});
    out.push_back({"axle.diameter", a.diameter, b.bore, 0, "the axle must fit the bearing's bore"});
    out.push_back({"axle.waist", a.waist, b.outside, 0.5,
                   "the axle's waist must be smaller than the bearing's outside"});
    out.push_back({"axle.bore", a.bore, std::min(a.diameter, a.waist), 0.4,
                   "the axle's bore must leave a wall of 0.2 mm"});
}

void add_pod(const Setup& s, std::vector<Order>& out) {
    const Pod& p = s.pod;
    out.push_back({"pod.bore_height", p.floor_thickness + p.bore_diameter / 2, p.bore_height, 0.5,
                   "the holder's bore must lie above the pod's floor"});
    out.push_back({"motor.can_length", s.motor.can_length, 2 * p.plate_inner, 1,
                   "the motor must fit between the pod plates"});
    out.push_back({"motor.shaft_diameter", s.motor.shaft_diameter, s.motor.can_diameter, 5,
                   "the motor's shaft must be thinner than its can"});
}

void add_side(const Setup& s, Side which, std::vector<Order>& out) {
    const AxleSide& side = s.side(which);
    const std::string at = which == Side::left ? "left." : "right.";
    const double largest_bearing = std::max(s.bearing.outside, s.bearing.flange_diameter);
    out.push_back({at + "seat", s.pod.plate_inner + s.pod.plate_thickness, side.seat, 0,
                   "the seat must not lie inside the pod plate (plate_inner + plate_thickness)"});
    out.push_back({at + "standout", side.standout, s.bearing.width, 0,
                   "the inner ring cannot stand out farther than the bearing is wide"});
    out.push_back({at + "holder_step", largest_bearing + 2 * side.holder_step,
                   s.pod.bore_diameter, 1,
                   "the holder is too small for this bearing and step (bearing + 2 x step + 1 mm)"});
    out.push_back({at + "hub_diameter", s.axle.diameter, side.hub_diameter, 2,
                   "the hub must be at least 2 mm larger than the axle"});
    out.push_back({at + "rim_diameter", side.hub_diameter, side.rim_diameter, 10,
                   "the rim must be at least 10 mm larger than the hub"});
    out.push_back({at + "tyre_diameter", side.rim_diameter, side.tyre.diameter, 1,
                   "the tyre must be at least 1 mm larger than the rim"});
    out.push_back({at + "tyre_worn", side.rim_diameter, side.tyre.worn_diameter, 0.5,
                   "a worn tyre is still larger than the rim"});
    out.push_back({at + "inset", std::abs(side.inset), side.tyre.width / 2, 4,
                   "the wheel's web must lie inside the wheel (inset within half its width - 4 mm)"});
    if (side.tyre.stiffness > 0)
        out.push_back({at + "tyre_stiffness", side.tyre.load / side.tyre.stiffness,
                       (side.tyre.diameter - side.rim_diameter) / 2, 0.2,
                       "the tyre would sag down to the rim"});
}

void add_windows(const Setup& s, std::vector<Order>& out) {
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
    const Gear pinion =
        standard_gear(g.pinion, g.module, g.pressure_angle, g.dedendum, g.pinion_thinning);
    const Gear spur = standard_gear(g.spur, g.module, g.pressure_angle, g.dedendum, g.spur_thinning);
    const GearDiameters p = diameters(pinion);
    const GearDiameters q = diameters(spur);
    out.push_back({"gears.pinion", s.motor.shaft_diameter, p.root, 0.5,
                   "the pinion is too small for the motor's shaft"});
    out.push_back({"gears.spur", s.right.hub_diameter, q.root, 9,
                   "the spur is too small for the gear carrier (hub_diameter + 9 mm)"});
    out.push_back({"gears.pinion_thinning", g.pinion_thinning, g.module, 0.6 * g.module,
                   "the pinion's teeth would be too thin (at most 0.4 of the module)"});
    out.push_back({"gears.spur_thinning", g.spur_thinning, g.module, 0.6 * g.module,
                   "the spur's teeth would be too thin (at most 0.4 of the module)"});
    out.push_back({"gears.pressure_angle", 0, tooth_thickness(pinion, p.outside), 0.02 * g.module,
                   "the pinion's teeth would be pointed; use a smaller pressure angle or more "
                   "teeth"});
    out.push_back({"gears.spur_offset", g.face_width / 2, g.spur_offset, 0,
                   "the spur must lie outboard of the carrier's thrust face (face_width / 2)"});
    out.push_back({"right.reach", g.spur_offset + g.face_width / 2, s.right.reach, 3,
                   "the carrier must reach at least 3 mm past the spur"});
    const double slot_start = std::hypot(s.motor.slot_x, s.motor.slot_z - s.pod.bore_height);
    out.push_back({"motor.slot_x", 5, slot_start, 0,
                   "the slot must start at least 5 mm from the bearing bores"});
}

}  // namespace

std::optional<Conflict> find_conflict(const Setup& setup) {
    std::vector<Order> orders;
    orders.reserve(48);
    add_bearing_and_axle(setup, orders);
    add_pod(setup, orders);
    for (Side side : both_sides) add_side(setup, side, orders);
    add_windows(setup, orders);
    add_gears(setup, orders);
    for (const Order& o : orders)
        if (!(o.smaller + o.margin <= o.larger + 1e-9))
            return Conflict{o.key, std::string(o.text) + ": here " + fixed(o.smaller, 2) +
                                       " against " + fixed(o.larger, 2)};
    return {};
}

}  // namespace podwright
