#include "core/other_axle.hpp"
#include "core/parameter_table.hpp"

namespace podwright {

namespace {

void add_side(Table& t, Side side) {
    const bool is_left = side == Side::left;
    const std::string at = is_left ? "left." : "right.";
    const Group own = is_left ? Group::left : Group::right;
    const auto mm = Unit::mm;
    t.number(at + "seat", "seat", own, mm, {10, 80, 0.05},
             "Mid-plane out to the face of the holder against which the bearing sits.",
             PICK_SIDE(seat))
        .required = true;
    t.number(at + "standout", "standout", own, mm, {0, 5, 0.05},
             "How far the bearing's inner ring stands outboard of the seat.", PICK_SIDE(standout))
        .required = true;
    t.list(at + "shims", "shims", own, mm, {0.02, 5, 0.05}, 12,
           "Thickness of each shim between bearing and thrust face, from the bearing outboard.",
           PICK_SIDE(shims));
    t.number(at + "reach", "reach", own, mm, {5, 60, 0.1},
             is_left ? "Thrust face of the hub out to the face on which the wheel mounts."
                     : "Thrust face of the gear carrier out to the face on which the wheel mounts.",
             PICK_SIDE(reach))
        .required = true;
    t.number(at + "holder_step", "holder step", own, mm, {0, 3, 0.5},
             "How far the holder's bore is off-centre.", PICK_SIDE(holder_step));
    t.choice(at + "holder_way", "holder way", own, {"up", "down"},
             "Which way up the holder is fitted: up raises the axle in the pod and lowers the car.",
             PICK_SIDE(holder_way));
    t.number(at + "inset", "inset", own, mm, {-15, 15, 0.25},
             "How far the wheel's centre plane lies inboard of its mounting face; negative is "
             "outboard.",
             PICK_SIDE(inset))
        .required = true;
    t.number(at + "rim_diameter", "rim diameter", own, mm, {24, 60, 0.5},
             "Outside of the rim, on which the foam is glued.", PICK_SIDE(rim_diameter));
    t.number(at + "hub_diameter", "hub diameter", own, mm, {9, 20, 0.5},
             is_left ? "Barrel of the hub." : "Barrel of the gear carrier.",
             PICK_SIDE(hub_diameter));
    t.number(at + "tyre_diameter", "tyre diameter", Group::tyres, mm, {30, 80, 0.1},
             "Outside of the tyre as measured today, car off the ground.", PICK_SIDE(tyre.diameter))
        .required = true;
    t.number(at + "tyre_width", "tyre width", Group::tyres, mm, {15, 70, 0.5},
             "Width of the tyre across the tread.", PICK_SIDE(tyre.width))
        .required = true;
    t.number(at + "tyre_worn", "worn diameter", Group::tyres, mm, {25, 80, 0.1},
             "Below this diameter the tyre is done.", PICK_SIDE(tyre.worn_diameter));
    t.number(at + "tyre_stiffness", "tyre stiffness", Group::tyres, Unit::newton_per_mm,
             {0, 200, 1}, "Load over radial sag; 0 means that the tyre does not sag.",
             PICK_SIDE(tyre.stiffness));
    t.number(at + "tyre_load", "wheel load", Group::tyres, Unit::newton, {0, 50, 0.1},
             "Weight that rests on this wheel.", PICK_SIDE(tyre.load));
    t.number(at + "tyre_density", "foam density", Group::tyres, Unit::gram_per_cm3,
             {0.05, 1.5, 0.01}, "Weight of the tyre over its volume.", PICK_SIDE(tyre.density));
}

void add_float(Table& t) {
    const auto mm = Unit::mm;
    t.choice("float.set_by", "float set by", Group::axle, {"blade", "shoulder"},
             "By blade: the hub is clamped against a blade. By shoulder: the axle fixes the "
             "distance of the thrust faces.",
             PICK(axial_float.set_by));
    t.number("float.blade", "blade", Group::axle, mm, {0.02, 1, 0.01},
             "Thickness of the blade in the gap while the hub is clamped.",
             PICK(axial_float.blade));
    t.number("float.shoulder", "shoulder", Group::axle, mm, {20, 180, 0.05},
             "Distance between the thrust faces that the axle itself fixes.",
             PICK(axial_float.shoulder));
    t.number("float.low", "least float", Group::axle, mm, {0, 1, 0.01},
             "Below this the axle is too tight to trust.", PICK(axial_float.low));
    t.number("float.high", "most float", Group::axle, mm, {0, 2, 0.01},
             "Above this the axle rattles.", PICK(axial_float.high));
}

void add_gears(Table& t) {
    const auto mm = Unit::mm;
    const auto group = Group::gears;
    t.number("gears.module", "module", group, mm, {0.2, 1.5, 0.05},
             "Size of the teeth; give this or the diametral pitch.", PICK(gears.module));
    Parameter& pitch =
        t.number("gears.diametral_pitch", "diametral pitch", group, Unit::none, {16, 128, 1},
                 "Size of the teeth, teeth per inch of pitch diameter; give this or the module.",
                 PICK(gears.module));
    pitch.get = [](const Setup& s) { return std::optional<double>(mm_per_inch / s.gears.module); };
    pitch.set = [](Setup& s, std::optional<double> v) {
        s.gears.module = module_from_diametral_pitch(v.value());
    };
    pitch.fallback = *pitch.get(Setup{});
    t.number("gears.pinion", "pinion", group, Unit::count, {8, 80, 1}, "Teeth of the pinion.",
             PICK(gears.pinion))
        .required = true;
    t.number("gears.spur", "spur", group, Unit::count, {20, 160, 1}, "Teeth of the spur.",
             PICK(gears.spur))
        .required = true;
    t.number("gears.pressure_angle", "pressure angle", group, Unit::degree, {14, 30, 0.5},
             "Pressure angle of the teeth.", PICK(gears.pressure_angle));
    t.choice("gears.dedendum", "tooth depth", group, {"fine-pitch", "full-depth", "deep"},
             "Depth below the pitch circle: fine-pitch 1.2/P + 0.002 in, full-depth 1.25 m, deep "
             "1.4 m.",
             PICK(gears.dedendum));
    t.number("gears.pinion_thinning", "pinion thinning", group, mm, {0, 0.2, 0.005},
             "How much thinner the pinion's teeth are than standard.", PICK(gears.pinion_thinning));
    t.number("gears.spur_thinning", "spur thinning", group, mm, {0, 0.2, 0.005},
             "How much thinner the spur's teeth are than standard.", PICK(gears.spur_thinning));
    t.number("gears.face_width", "face width", group, mm, {1, 12, 0.1},
             "Width of the spur's teeth.", PICK(gears.face_width));
    t.number("gears.spur_offset", "spur offset", group, mm, {1, 20, 0.1},
             "Thrust face of the gear carrier out to the middle of the spur's teeth.",
             PICK(gears.spur_offset));
    t.number("gears.backlash", "wanted backlash", group, mm, {0, 0.5, 0.01},
             "Play between the teeth that the mesh is set to.", PICK(gears.backlash));
    t.number("gears.backlash_low", "least backlash", group, mm, {0, 0.5, 0.01},
             "Below this the gears grind.", PICK(gears.backlash_low));
    t.number("gears.backlash_high", "most backlash", group, mm, {0, 1, 0.01},
             "Above this the teeth hammer.", PICK(gears.backlash_high));
}

void add_motor(Table& t) {
    const auto mm = Unit::mm;
    const auto group = Group::gears;
    t.number("motor.slot_x", "slot start forward", group, mm, {-60, 60, 0.1},
             "Near end of the line that the motor's axis moves on, forward of the bearing bores.",
             PICK(motor.slot_x));
    t.number("motor.slot_z", "slot start height", group, mm, {0, 60, 0.1},
             "Near end of that line above the pod's underside.", PICK(motor.slot_z));
    t.number("motor.slot_angle", "slot angle", group, Unit::degree, {-180, 180, 1},
             "Direction of that line; 0 is straight forward, positive rises.",
             PICK(motor.slot_angle));
    t.number("motor.slot_length", "slot length", group, mm, {0.5, 40, 0.1},
             "How far the motor's axis can move.", PICK(motor.slot_length));
    t.optional_number("motor.clamped_at", "motor clamped at", group, mm, {0, 40, 0.01},
                      "Place on the slot where the motor was last clamped; leave it out when the "
                      "mesh is freshly set.",
                      PICK(motor.clamped_at));
    t.number("motor.can_diameter", "can diameter", Group::car, mm, {10, 60, 0.1},
             "Outside of the motor.", PICK(motor.can_diameter));
    t.number("motor.can_length", "can length", Group::car, mm, {10, 80, 0.1},
             "Length of the motor without its shaft.", PICK(motor.can_length));
    t.number("motor.shaft_diameter", "motor shaft", Group::car, mm, {1, 6, 0.005},
             "Diameter of the motor's shaft.", PICK(motor.shaft_diameter));
    t.number("motor.speed", "motor speed", group, Unit::rev_per_min, {0, 100000, 500},
             "Motor speed at which the car's speed is shown.", PICK(motor.speed));
    t.number("motor.torque", "motor torque", group, Unit::newton_mm, {0, 1000, 1},
             "Motor torque at which the car launches and the tooth stress is shown.",
             PICK(motor.torque));
    t.number("motor.rotor_inertia", "rotor inertia", Group::car, Unit::gram_cm2, {0, 500, 0.1},
             "Polar inertia of all that turns in the motor.", PICK(motor.rotor_inertia));
}

std::vector<std::string> axle_material_keys() {
    std::vector<std::string> keys;
    for (const MaterialData& row : axle_materials()) keys.emplace_back(row.key);
    return keys;
}

/// A value of the axle that its material has where it is not given.
void of_material(Parameter& row, double MaterialData::*value) {
    row.otherwise = "the material's";
    row.implied = [value](const Setup& s) { return data(s.axle.material).*value; };
}

/// A value of the other axle that counts as other_axle_of() says where it is not given.
template <class Pick>
void of_other_axle(Parameter& row, std::string otherwise, Pick pick) {
    row.otherwise = std::move(otherwise);
    row.implied = [pick](const Setup& s) { return pick(completed_other_axle(s)); };
}

void add_other_axle(Table& t) {
    const auto group = Group::axle;
    of_other_axle(t.optional_number("other_axle.diameter", "other axle's diameter", group, Unit::mm,
                                    {2, 15, 0.005}, "Diameter in the bearings and hubs.",
                                    PICK(other_axle.diameter)),
                  "that of `[axle]`", [](const Axle& a) { return a.diameter; });
    of_other_axle(
        t.optional_number("other_axle.waist", "other axle's waist", group, Unit::mm, {2, 15, 0.05},
                          "Diameter between the bearings.", PICK(other_axle.waist)),
        "that of `[axle]`", [](const Axle& a) { return a.waist; });
    of_other_axle(
        t.optional_number("other_axle.bore", "other axle's bore", group, Unit::mm, {0, 12, 0.05},
                          "Inside diameter; 0 is solid.", PICK(other_axle.bore)),
        "that of `[axle]`", [](const Axle& a) { return a.bore; });
    of_other_axle(
        t.optional_choice("other_axle.material", "other axle's material", group,
                          axle_material_keys(), "What it is made of.", PICK(other_axle.material)),
        "that of `[axle]`", [](const Axle& a) { return static_cast<double>(a.material); });
    const std::string with_material = "with the material";
    of_other_axle(t.optional_number("other_axle.elastic_modulus", "other axle's elastic modulus",
                                    group, Unit::gigapascal, {1, 600, 1},
                                    "Stiffness along it, where it is not that of the material's "
                                    "table.",
                                    PICK(other_axle.elastic_modulus)),
                  with_material, [](const Axle& a) {
                      return a.elastic_modulus.value_or(data(a.material).elastic_modulus);
                  });
    of_other_axle(t.optional_number("other_axle.shear_modulus", "other axle's shear modulus", group,
                                    Unit::gigapascal, {0.5, 200, 0.5},
                                    "Stiffness in twist; the lay-up of a carbon tube sets it.",
                                    PICK(other_axle.shear_modulus)),
                  with_material, [](const Axle& a) {
                      return a.shear_modulus.value_or(data(a.material).shear_modulus);
                  });
    of_other_axle(t.optional_number("other_axle.strength", "other axle's strength", group,
                                    Unit::newton_per_mm2, {20, 3000, 10},
                                    "Stress along it at which it yields or breaks.",
                                    PICK(other_axle.strength)),
                  with_material,
                  [](const Axle& a) { return a.strength.value_or(data(a.material).strength); });
}

void add_frame(Table& t) {
    const auto mm = Unit::mm;
    const auto car = Group::car;
    t.number("pod.bore_height", "bore height", car, mm, {5, 50, 0.1},
             "Centre of the bearing bores above the pod's underside.", PICK(pod.bore_height));
    t.number("pod.bore_diameter", "holder diameter", car, mm, {10, 30, 0.1},
             "Bore of the pod plates, in which the holders sit.", PICK(pod.bore_diameter));
    t.number("pod.plate_inner", "plate inner face", car, mm, {8, 75, 0.1},
             "Mid-plane out to the inner face of each pod plate.", PICK(pod.plate_inner));
    t.number("pod.plate_thickness", "plate thickness", car, mm, {0.5, 8, 0.1},
             "Thickness of the pod plates.", PICK(pod.plate_thickness));
    t.number("pod.floor_thickness", "floor thickness", car, mm, {0.5, 6, 0.1},
             "Thickness of the pod's floor plate.", PICK(pod.floor_thickness));
    t.number("pod.axial_stiffness", "axial stiffness", car, Unit::newton_per_mm, {50, 50000, 50},
             "Push along the axle over the way that the pod plates give, both together.",
             PICK(pod.axial_stiffness));
    t.number("bearing.bore", "bearing bore", car, mm, {2, 15, 0.005}, "Bore of the inner ring.",
             PICK(bearing.bore));
    t.number("bearing.outside", "bearing outside", car, mm, {4, 28, 0.005},
             "Outside of the outer ring.", PICK(bearing.outside));
    t.number("bearing.width", "bearing width", car, mm, {1, 10, 0.005}, "Width of the rings.",
             PICK(bearing.width));
    t.number("bearing.flange_diameter", "flange diameter", car, mm, {5, 30, 0.005},
             "Outside of the flange.", PICK(bearing.flange_diameter));
    t.number("bearing.flange_width", "flange width", car, mm, {0.2, 3, 0.005},
             "Thickness of the flange.", PICK(bearing.flange_width));
    t.number("bearing.balls", "balls", car, Unit::count, {5, 24, 1}, "Number of balls.",
             PICK(bearing.balls));
    t.number("bearing.ball_diameter", "ball diameter", car, mm, {0.3, 6, 0.05},
             "Diameter of a ball.", PICK(bearing.ball_diameter));
    t.number("bearing.rating", "load rating", car, Unit::newton, {20, 20000, 5},
             "Basic dynamic load rating C, from the bearing's sheet.", PICK(bearing.rating));
    t.number("bearing.static_rating", "static rating", car, Unit::newton, {5, 10000, 5},
             "Basic static load rating C0, from the bearing's sheet.", PICK(bearing.static_rating));
    t.choice("bearing.clearance", "radial clearance", car, {"C2", "CN", "C3", "C4", "C5"},
             "Group of radial internal clearance after ISO 5753-1; CN is normal.",
             PICK(bearing.clearance));
    t.number("bearing.conformity", "groove conformity", car, Unit::none, {0.505, 0.6, 0.005},
             "Radius of the rings' grooves over the ball's diameter.", PICK(bearing.conformity));
    t.number("bearing.misalignment_max", "permissible slope", car, Unit::arc_minute, {0.5, 60, 0.5},
             "How far the axle may lean in the bearing.", PICK(bearing.misalignment_max));
    t.number("axle.diameter", "axle diameter", Group::axle, mm, {2, 15, 0.005},
             "Diameter in the bearings and hubs.", PICK(axle.diameter));
    t.number("axle.waist", "axle waist", Group::axle, mm, {2, 15, 0.05},
             "Diameter between the bearings.", PICK(axle.waist));
    t.number("axle.bore", "axle bore", Group::axle, mm, {0, 12, 0.05},
             "Inside diameter; 0 is solid.", PICK(axle.bore));
    t.choice("axle.material", "axle material", Group::axle, axle_material_keys(),
             "What the axle is made of.", PICK(axle.material));
    of_material(
        t.optional_number("axle.elastic_modulus", "elastic modulus", Group::axle, Unit::gigapascal,
                          {1, 600, 1},
                          "Stiffness along the axle, where it is not that of the material's table.",
                          PICK(axle.elastic_modulus)),
        &MaterialData::elastic_modulus);
    of_material(t.optional_number("axle.shear_modulus", "shear modulus", Group::axle,
                                  Unit::gigapascal, {0.5, 200, 0.5},
                                  "Stiffness in twist; the lay-up of a carbon tube sets it.",
                                  PICK(axle.shear_modulus)),
                &MaterialData::shear_modulus);
    of_material(t.optional_number(
                    "axle.strength", "strength", Group::axle, Unit::newton_per_mm2, {20, 3000, 10},
                    "Stress along the axle at which it yields or breaks; a hardened axle stands "
                    "more than the table says.",
                    PICK(axle.strength)),
                &MaterialData::strength);
    add_other_axle(t);
    t.number("car.wheelbase", "wheelbase", car, mm, {100, 400, 1}, "Front axle to rear axle.",
             PICK(car.wheelbase));
    t.number("car.front_ride", "front ride height", car, mm, {0.5, 20, 0.1},
             "Ground to underside at the front axle.", PICK(car.front_ride));
    t.number("car.mass", "mass", car, Unit::kilogram, {0.2, 10, 0.01}, "The car ready to run.",
             PICK(car.mass));
    t.number("car.cg_height", "centre of gravity", car, mm, {2, 100, 0.5},
             "Height of the centre of gravity above the ground.", PICK(car.cg_height));
}

}  // namespace

void add_car_parameters(Table& t) {
    add_side(t, Side::left);
    add_side(t, Side::right);
    add_float(t);
    add_gears(t);
    add_motor(t);
    add_frame(t);
}

}  // namespace podwright
