#include "core/parameter_table.hpp"

namespace podwright {

namespace {

void add_event(Table& t) {
    const auto mm = Unit::mm;
    const auto group = Group::event;
    t.number("event.width_max", "greatest width", group, mm, {80, 300, 0.5},
             "Overall width that the event allows.", PICK(event.width_max));
    t.number("event.ride_low", "least ride height", group, mm, {0, 20, 0.1},
             "Ride height that must be kept.", PICK(event.ride_low));
    t.number("event.ride_high", "most ride height", group, mm, {0, 30, 0.1},
             "Ride height above which the car sits too high.", PICK(event.ride_high));
    t.number("event.shift_max", "greatest shift", group, mm, {0, 10, 0.05},
             "How far the wheels may sit off the mid-plane.", PICK(event.shift_max));
    t.number("event.roll_max", "greatest roll", group, Unit::degree, {0, 5, 0.05},
             "How far the pod may lean at rest.", PICK(event.roll_max));
    t.number("event.rollout_low", "least rollout", group, mm, {0, 300, 0.5},
             "Rollout wanted at least; 0 is no limit.", PICK(event.rollout_low));
    t.number("event.rollout_high", "most rollout", group, mm, {0, 300, 0.5},
             "Rollout wanted at most; 0 is no limit.", PICK(event.rollout_high));
}

void add_needs(Table& t) {
    const auto mm = Unit::mm;
    const auto car = Group::car;
    t.number("needs.turning_fixed", "turning to fixed", car, mm, {0, 5, 0.05},
             "Clearance that a turning part needs from a fixed one.", PICK(needs.turning_fixed));
    t.number("needs.turning_ground", "turning to ground", car, mm, {0, 10, 0.1},
             "Clearance that a turning part other than a tyre needs from the ground.",
             PICK(needs.turning_ground));
    t.number("needs.gear", "gear to anything", car, mm, {0, 5, 0.05},
             "Clearance that a gear needs from everything but its partner.", PICK(needs.gear));
    t.number("needs.hub_holder", "hub to holder", car, mm, {0, 5, 0.05},
             "Clearance that hub or carrier needs from the holder and the bearing's outer ring.",
             PICK(needs.hub_holder));
    t.number("needs.tyre_pod", "tyre to pod", car, mm, {0, 10, 0.1},
             "Clearance that a tyre needs from the pod.", PICK(needs.tyre_pod));
    t.number("needs.roll", "roll while running", car, Unit::degree, {0, 5, 0.1},
             "How far pod and axle lean to either side while running, on the give of the tyres.",
             PICK(needs.roll));
}

void add_materials(Table& t) {
    std::vector<std::string> keys;
    for (const MaterialData& row : materials()) keys.emplace_back(row.key);
    const auto add = [&](const char* key, const char* label, const char* help, auto pick) {
        t.choice(std::string("materials.") + key, label, Group::car, keys, help, pick);
    };
    add("floor", "floor", "What the pod's floor is made of.", PICK(materials.floor));
    add("plates", "pod plates", "What the pod plates are made of.", PICK(materials.plates));
    add("holders", "holders", "What the holders are made of.", PICK(materials.holders));
    add("hub", "hub", "What the left hub is made of.", PICK(materials.hub));
    add("carrier", "gear carrier", "What the gear carrier is made of.", PICK(materials.carrier));
    add("wheels", "wheels", "What the wheels are made of.", PICK(materials.wheels));
    add("spur", "spur", "What the spur is made of.", PICK(materials.spur));
    add("pinion", "pinion", "What the pinion is made of.", PICK(materials.pinion));
}

void add_cases(Table& t) {
    const auto car = Group::car;
    t.number("cases.lateral", "cornering", car, Unit::gravity, {0, 5, 0.1},
             "Lateral acceleration in the hardest corner.", PICK(cases.lateral));
    t.number("cases.kerb", "kerb factor", car, Unit::none, {1, 50, 0.5},
             "A kerb strike counts as this many times the wheel's load: a rule of thumb.",
             PICK(cases.kerb));
    t.number("cases.safety_low", "least safety", car, Unit::none, {1, 10, 0.1},
             "Least safety factor of the axle against its strength.", PICK(cases.safety_low));
    t.number("cases.life_low", "least bearing life", car, Unit::hour, {1, 100000, 10},
             "Basic rating life that the bearings must reach.", PICK(cases.life_low));
    t.number("cases.static_low", "least static safety", car, Unit::none, {0.2, 10, 0.1},
             "Least static safety of the bearings (ISO 76).", PICK(cases.static_low));
    t.number("cases.margin_low", "least bending margin", car, Unit::none, {1, 10, 0.1},
             "Least bending speed over the axle's top speed.", PICK(cases.margin_low));
}

void add_day(Table& t) {
    const Range range{-30, 80, 0.5};
    t.number("temperature.bench", "bench", Group::event, Unit::celsius, range,
             "Temperature at which the car is set and measured.", PICK(temperature.bench));
    t.number("temperature.cold", "coldest", Group::event, Unit::celsius, range,
             "Temperature of the coldest run of the day.", PICK(temperature.cold));
    t.number("temperature.hot", "hottest", Group::event, Unit::celsius, range,
             "Temperature of pod and axle in the hottest run of the day.", PICK(temperature.hot));
}

template <class Pick>
void add_tolerance(Table& t, const std::string& key, const std::string& label,
                   const std::string& of, Pick pick) {
    t.number(
        "tolerances." + key, label, Group::car, Unit::mm, {0, 2, 0.005},
        "Tolerance of " + of + ", plus or minus.", [pick](auto& s) -> auto& {
            return pick(s).half;
        });
    t.choice(
        "tolerances." + key + "_spread", label + " spread", Group::car,
        {"normal", "uniform", "triangular"},
        "How " + of + " strays within its tolerance; normal: three standard deviations.",
        [pick](auto& s) -> auto& { return pick(s).spread; });
}

void add_tolerances(Table& t) {
    add_tolerance(t, "seat", "seat", "each seat", PICK(tolerances.seat));
    add_tolerance(t, "standout", "standout", "each standout", PICK(tolerances.standout));
    add_tolerance(t, "shim", "shim", "each shim's thickness", PICK(tolerances.shim));
    add_tolerance(t, "blade", "blade", "the gap that the blade leaves", PICK(tolerances.blade));
    add_tolerance(t, "shoulder", "shoulder", "the shoulder", PICK(tolerances.shoulder));
    add_tolerance(t, "reach", "reach", "each reach", PICK(tolerances.reach));
    add_tolerance(t, "inset", "inset", "each wheel's inset", PICK(tolerances.inset));
    add_tolerance(t, "tyre_width", "tyre width", "each tyre's width", PICK(tolerances.tyre_width));
    add_tolerance(t, "tyre_diameter", "tyre diameter", "each tyre's diameter",
                  PICK(tolerances.tyre_diameter));
    add_tolerance(t, "holder_step", "holder step", "each holder's step",
                  PICK(tolerances.holder_step));
    add_tolerance(t, "bore_height", "bore height", "the bore's height",
                  PICK(tolerances.bore_height));
    add_tolerance(t, "mesh", "mesh", "the centre distance as it is set", PICK(tolerances.mesh));
    add_tolerance(t, "tooth", "tooth", "the thickness of each gear's teeth",
                  PICK(tolerances.tooth));
    t.number("tolerances.share_max", "most outside", Group::car, Unit::percent, {0, 100, 0.5},
             "Share of builds whose float may lie outside its window.", PICK(tolerances.share_max));
    t.text("fits.axle", "axle fit", 12,
           "ISO 286 fit of the axle in the bearing's bore, such as H7/g6; empty: not looked at.",
           PICK(fits.axle));
    t.text("fits.holder", "holder fit", 12,
           "ISO 286 fit of the bearing in the holder, such as H7/h6; empty: not looked at.",
           PICK(fits.holder));
}

}  // namespace

void add_event_parameters(Table& t) {
    add_event(t);
    add_needs(t);
    add_materials(t);
    add_cases(t);
    add_day(t);
    add_tolerances(t);
}

}  // namespace podwright
