#include "core/readings.hpp"

#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "core/conflicts.hpp"
#include "core/units.hpp"
#include "evaluate/evaluate.hpp"

using namespace podwright;

namespace {

// The unit of each quantity is SI's or the trade's: mm, degrees, N, rev/min and km/h, minutes of
// arc for a bearing's slope, micrometres for fits.
const std::map<std::string, std::string> units = {{"float.nominal", "mm"},
                                                  {"float.cold", "mm"},
                                                  {"float.hot", "mm"},
                                                  {"float.min", "mm"},
                                                  {"float.max", "mm"},
                                                  {"float.worst_low", "mm"},
                                                  {"float.worst_high", "mm"},
                                                  {"float.set_low", "mm"},
                                                  {"float.set_high", "mm"},
                                                  {"float.outside_share", "%"},
                                                  {"width.overall", "mm"},
                                                  {"width.track", "mm"},
                                                  {"width.left", "mm"},
                                                  {"width.right", "mm"},
                                                  {"width.shift", "mm"},
                                                  {"ride.rear", "mm"},
                                                  {"ride.left", "mm"},
                                                  {"ride.right", "mm"},
                                                  {"ride.front", "mm"},
                                                  {"ride.rake", "deg"},
                                                  {"ride.roll", "deg"},
                                                  {"axle.height", "mm"},
                                                  {"axle.tilt", "deg"},
                                                  {"mesh.standard_distance", "mm"},
                                                  {"mesh.working_distance", "mm"},
                                                  {"mesh.backlash", "mm"},
                                                  {"mesh.distance_unset", "mm"},
                                                  {"mesh.backlash_unset", "mm"},
                                                  {"mesh.backlash_cold", "mm"},
                                                  {"mesh.backlash_hot", "mm"},
                                                  {"mesh.contact_ratio", ""},
                                                  {"mesh.pressure_angle", "deg"},
                                                  {"mesh.slot_position", "mm"},
                                                  {"mesh.tilt", "deg"},
                                                  {"gear.final_drive", ""},
                                                  {"gear.rollout", "mm"},
                                                  {"gear.speed", "km/h"},
                                                  {"gear.spur_outside", "mm"},
                                                  {"gear.pinion_outside", "mm"},
                                                  {"gear.tooth_stress", "N/mm2"},
                                                  {"shaft.deflection_left", "mm"},
                                                  {"shaft.deflection_right", "mm"},
                                                  {"shaft.deflection_gear", "mm"},
                                                  {"shaft.slope_left", "deg"},
                                                  {"shaft.slope_right", "deg"},
                                                  {"shaft.slope_gear", "deg"},
                                                  {"shaft.stress", "N/mm2"},
                                                  {"shaft.safety", ""},
                                                  {"shaft.windup_left", "deg"},
                                                  {"shaft.windup_right", "deg"},
                                                  {"shaft.windup_lead", "mm"},
                                                  {"shaft.mass", "g"},
                                                  {"shaft.inertia", "g cm2"},
                                                  {"shaft.equivalent_mass", "g"},
                                                  {"shaft.bending_speed", "rev/min"},
                                                  {"shaft.top_speed", "rev/min"},
                                                  {"shaft.torsion_frequency", "Hz"},
                                                  {"shaft.torsion_second", "Hz"},
                                                  {"bearing.load_left", "N"},
                                                  {"bearing.load_right", "N"},
                                                  {"bearing.life", "h"},
                                                  {"bearing.static_safety", ""},
                                                  {"bearing.misalignment", "arcmin"},
                                                  {"bearing.play_low", "mm"},
                                                  {"bearing.play_high", "mm"},
                                                  {"bearing.preload", "N"},
                                                  {"bearing.drag", "N mm"},
                                                  {"bearing.drag_preload", "N mm"},
                                                  {"load.transfer", "N"},
                                                  {"fit.axle_low", "um"},
                                                  {"fit.axle_high", "um"},
                                                  {"fit.holder_low", "um"},
                                                  {"fit.holder_high", "um"}};

Evaluation with_builds(const Setup& setup) {
    Asked asked;
    asked.builds = {50'000, 50'000};
    return evaluate(setup, asked);
}

/// No two lengths, angles or forces of this car are alike, so that a reading that shows another
/// one's value is seen. It is clamped too tight, so that it shows what presses it, too.
Setup uneven() {
    Setup s;
    s.left.shims = {0.1, 0.5, 0.25};
    s.right.shims = {0.4};
    s.left.holder_step = 1.0;
    s.left.holder_way = Way::up;
    s.left.inset = 3.25;
    s.right.tyre.width = 36;
    s.right.tyre.diameter = 42;
    s.right.tyre.load = 5;
    s.axial_float.set_by = FloatBy::shoulder;
    s.axial_float.shoulder = 64.5;
    s.motor.clamped_at = 5;
    s.car.front_ride = 3.3;
    return s;
}

/// What each reading must show: the value of its study, brought to the reading's unit.
std::map<std::string, double> expected_readings(const Setup& s, const Evaluation& e) {
    constexpr double degree = pi / 180, arcmin = degree / 60;         // rad
    constexpr double gram = 1e-3, micrometre = 1e-3, percent = 0.01;  // kg, mm, 1
    constexpr double gram_cm2 = gram * 10 * 10;                       // kg mm2
    const Stack& stack = e.stack;
    const Stance& stance = e.stance;
    const Drive& drive = e.drive;
    const ShaftStudy& shaft = e.feel.shaft;
    const BearingStudy& bearings = e.feel.bearings;
    const Warmth& warmth = e.feel.warmth;
    const StackUp of_float = float_stack_up(s, stack);
    return {{"float.nominal", stack.axial_float},
            {"float.cold", warmth.float_cold},
            {"float.hot", warmth.float_hot},
            // The expected range is the root sum square of the tolerances.
            {"float.min", stack.axial_float - root_sum_square(of_float)},
            {"float.max", stack.axial_float + root_sum_square(of_float)},
            {"float.worst_low", stack.axial_float - worst_case(of_float)},
            {"float.worst_high", stack.axial_float + worst_case(of_float)},
            {"float.set_low", warmth.set_low},
            {"float.set_high", warmth.set_high},
            {"float.outside_share", e.feel.tolerances.at(0).sample.outside_share() / percent},
            {"width.overall", stack.overall_width},
            {"width.track", stack.track},
            {"width.left", stack.left.outer},
            {"width.right", stack.right.outer},
            {"width.shift", stack.shift},
            {"ride.rear", stance.ride},
            {"ride.left", stance.left.ride},
            {"ride.right", stance.right.ride},
            {"ride.front", s.car.front_ride},
            {"ride.rake", stance.rake / degree},
            {"ride.roll", stance.roll / degree},
            {"axle.height", stance.axle_height},
            {"axle.tilt", stance.axle_tilt / degree},
            {"mesh.standard_distance", drive.mesh.standard_distance},
            {"mesh.working_distance", drive.mesh.distance},
            {"mesh.backlash", drive.mesh.backlash},
            {"mesh.distance_unset", drive.unset.distance},
            {"mesh.backlash_unset", drive.unset.backlash},
            {"mesh.backlash_cold", warmth.backlash_cold},
            {"mesh.backlash_hot", warmth.backlash_hot},
            {"mesh.contact_ratio", drive.mesh.contact_ratio},
            {"mesh.pressure_angle", drive.mesh.pressure_angle / degree},
            {"mesh.slot_position", drive.slot.wanted},
            {"mesh.tilt", drive.mesh_tilt / degree},
            {"gear.final_drive", drive.final_drive},
            {"gear.rollout", drive.rollout},
            {"gear.speed", drive.speed},
            {"gear.spur_outside", diameters(drive.spur).outside},
            {"gear.pinion_outside", diameters(drive.pinion).outside},
            {"gear.tooth_stress", drive.tooth_stress},
            {"shaft.deflection_left", shaft.hub_left.deflection},
            {"shaft.deflection_right", shaft.hub_right.deflection},
            {"shaft.deflection_gear", shaft.gear.deflection},
            {"shaft.slope_left", shaft.bearing_left.slope / degree},
            {"shaft.slope_right", shaft.bearing_right.slope / degree},
            {"shaft.slope_gear", shaft.gear.slope / degree},
            {"shaft.stress", shaft.worst.equivalent},
            {"shaft.safety", shaft.worst.safety},
            {"shaft.windup_left", shaft.windup_left / degree},
            {"shaft.windup_right", shaft.windup_right / degree},
            {"shaft.windup_lead", shaft.windup_lead},
            {"shaft.mass", e.feel.turning.mass / gram},
            {"shaft.inertia", e.feel.turning.inertia / gram_cm2},
            {"shaft.equivalent_mass", e.feel.turning.equivalent / gram},
            {"shaft.bending_speed", shaft.bending_speed},
            {"shaft.top_speed", shaft.top_speed},
            {"shaft.torsion_frequency", shaft.torsion_low},
            {"shaft.torsion_second", shaft.torsion_high},
            {"bearing.load_left", bearings.load_left},
            {"bearing.load_right", bearings.load_right},
            {"bearing.life", bearings.life},
            {"bearing.static_safety", bearings.static_safety},
            {"bearing.misalignment", bearings.misalignment / arcmin},
            {"bearing.play_low", bearings.play_low},
            {"bearing.play_high", bearings.play_high},
            {"bearing.preload", bearings.preload.force},
            {"bearing.drag", bearings.drag},
            {"bearing.drag_preload", bearings.drag_preload},
            {"load.transfer", shaft.transfer},
            {"fit.axle_low", e.feel.axle_fit->clearance_low() / micrometre},
            {"fit.axle_high", e.feel.axle_fit->clearance_high() / micrometre},
            {"fit.holder_low", e.feel.holder_fit->clearance_low() / micrometre},
            {"fit.holder_high", e.feel.holder_fit->clearance_high() / micrometre}};
}

}  // namespace

TEST_CASE("every reading stands under its name with its unit") {
    const Evaluation e = with_builds(Setup{});
    CHECK(e.readings.size() == units.size());
    for (const Reading& r : e.readings) {
        INFO(std::string(r.name));
        REQUIRE(units.count(std::string(r.name)) == 1);
        CHECK(r.unit == units.at(std::string(r.name)));
    }
    // Readings of one group stand together, as the report shows them.
    std::set<std::string> done;
    std::string group;
    for (const Reading& r : e.readings) {
        const std::string now(r.name.substr(0, r.name.find('.')));
        if (now == group) continue;
        CHECK(done.insert(now).second);
        group = now;
    }
}

TEST_CASE("every reading shows the value of its own study") {
    // Derived: the studies, which are checked against their sources in tests of their own.
    REQUIRE_FALSE(find_conflict(uneven()));
    for (const Setup& s : {Setup{}, uneven()}) {
        const Evaluation e = with_builds(s);
        const std::map<std::string, double> expected = expected_readings(s, e);
        CHECK(e.readings.size() == expected.size());
        for (const Reading& r : e.readings) {
            INFO(std::string(r.name));
            REQUIRE(expected.count(std::string(r.name)) == 1);
            CHECK(r.value == Approx(expected.at(std::string(r.name))).epsilon(1e-12));
        }
    }
    // Two readings of a unit that were taken for each other would show.
    const std::map<std::string, double> of_uneven =
        expected_readings(uneven(), with_builds(uneven()));
    for (const auto& [name, value] : of_uneven)
        for (const auto& [other, other_value] : of_uneven) {
            if (name >= other || units.at(name) != units.at(other)) continue;
            INFO(name << " and " << other);
            CHECK(value != Approx(other_value).epsilon(1e-6).margin(1e-6));
        }
}

TEST_CASE("readings of the default car by hand") {
    // All derived: module 25.4/64, 34 and 76 teeth, tyres of 43 mm, bores at 18 mm with holders of
    // 0.5 mm down, 22000 rev/min, wheels of 4 N.
    const Setup s;
    const Evaluation e = with_builds(s);
    const auto value = [&](std::string_view name) { return e.reading(name)->value; };
    const double module = 25.4 / 64;
    // By blade, the float strays by the blade's tolerance alone, 0.01.
    CHECK(value("float.worst_low") == Approx(0.15 - 0.01));
    CHECK(value("float.worst_high") == Approx(0.15 + 0.01));
    CHECK(value("float.outside_share") == 0);
    CHECK(value("ride.rear") == Approx(21.5 - 17.5));
    CHECK(value("axle.height") == Approx(21.5));
    CHECK(value("mesh.standard_distance") == Approx(module * 110 / 2));
    const double distance = value("mesh.working_distance");
    CHECK(std::cos(value("mesh.pressure_angle") * pi / 180) ==
          Approx(module * 55 * std::cos(pi / 9) / distance));
    CHECK(value("mesh.tilt") == Approx(0).margin(1e-12));
    CHECK(value("gear.rollout") == Approx(pi * 43 * 34 / 76));
    CHECK(value("gear.speed") == Approx(pi * 43 * 34 / 76 * 22000 * 60 / 1e6));
    CHECK(value("gear.spur_outside") == Approx(78 * module));
    CHECK(value("gear.pinion_outside") == Approx(36 * module));
    // 60 N mm on the pinion's working pitch circle; the weaker teeth are the pinion's.
    CHECK(value("gear.tooth_stress") ==
          Approx(lewis_stress(60 / (distance * 34 / 110), 4, module, 34)));
    CHECK(value("shaft.equivalent_mass") == Approx(1000 * e.feel.turning.inertia / 21.5 / 21.5));
    CHECK(value("shaft.top_speed") == Approx(22000.0 * 34 / 76));
    CHECK(value("load.transfer") == Approx(8 * 1.5 * 18 / e.stack.track));
    // Group CN of a bore of 6.35 mm: 2 to 13 µm (ISO 5753-1); balls of 1 mm in grooves of 0.53.
    CHECK(value("bearing.play_low") == Approx(std::sqrt(4 * 0.06 * 0.002 - 0.002 * 0.002)));
    CHECK(value("bearing.play_high") == Approx(std::sqrt(4 * 0.06 * 0.013 - 0.013 * 0.013)));
    CHECK(value("bearing.preload") == 0);
    // ISO 286-2, over 6 up to 10 mm: H6 0/+9 on g5 -5/-11, H7 0/+15 on h6 0/-9 (mechguru.com and
    // docs.steelcam.org, as in iso286_test).
    CHECK(value("fit.axle_low") == Approx(5));
    CHECK(value("fit.axle_high") == Approx(9 + 11));
    CHECK(value("fit.holder_low") == Approx(0).margin(1e-9));
    CHECK(value("fit.holder_high") == Approx(15 + 9));
}
