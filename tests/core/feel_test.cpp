#include "core/feel.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/conflicts.hpp"
#include "core/limits.hpp"
#include "core/other_axle.hpp"
#include "core/units.hpp"
#include "evaluate/evaluate.hpp"
#include "finding_check.hpp"
#include "random_setup.hpp"

// Derived: the findings against the limits of the setup, the readings against the studies in their
// own units; the studies are checked against their sources in tests of their own.
using namespace podwright;

namespace {

Evaluation with_builds(const Setup& setup) {
    Asked asked;
    asked.builds = {50'000, 50'000};
    return evaluate(setup, asked);
}

/// A soft carbon tube on a hot day.
Setup hot_carbon() {
    Setup s;
    s.axle.material = Material::carbon_tube;
    s.materials.floor = Material::aluminium_7075;
    s.axial_float.blade = 0.05;
    s.temperature.hot = 50;
    return s;
}

}  // namespace

TEST_CASE("what the axle feels is found, and its fix mends it") {
    Setup s;
    s.axle.strength = 70;
    check_fix(s, "shaft.overstress", Level::caution);
    s.axle.strength = 100;
    s.axle.waist = 5;
    check_fix(s, "shaft.overstress", Level::stop);

    s = Setup{};
    s.axle.material = Material::carbon_wrapped;
    s.axle.waist = 5;
    check_fix(s, "bearing.misaligned", Level::caution);

    s = Setup{};
    s.axle.material = Material::carbon_wrapped;
    s.axle.waist = 4.5;
    s.motor.speed = 40000;
    s.cases.margin_low = 1.0;
    check_fix(s, "shaft.whirl", Level::caution);

    s = Setup{};
    s.cases.life_low = 90000;
    check_fix(s, "bearing.life", Level::caution);
    s = Setup{};
    s.cases.static_low = 5;
    check_fix(s, "bearing.static", Level::caution);

    // H7/k6 of 6.35 mm: 10 µm of interference at most; H7/g6 leaves 5 to 29 µm (ISO 286 tables, see
    // iso286_test).
    s = Setup{};
    s.fits.axle = "H7/k6";
    check_fix(s, "fit.tight", Level::caution);
    const Evaluation tight = evaluate(s);
    CHECK(find(tight, "fit.tight")->text.find("10 µm") != std::string::npos);
    CHECK(find(tight, "fit.tight")->fix.find("H7/g6 leaves 5 to 29 µm") != std::string::npos);
    s = Setup{};
    s.fits.holder = "JS7/h6";
    check_fix(s, "fit.tight", Level::caution);
    CHECK(find(evaluate(s), "fit.tight")->changes.front().text == "H7/h6");

    s = hot_carbon();
    check_fix(s, "float.binds_in_day", Level::stop);
    s.axial_float.blade = 0.1;
    check_fix(s, "float.leaves_in_day", Level::caution);
    s.axial_float.set_by = FloatBy::shoulder;
    s.axial_float.shoulder = 64.8 + 0.05;
    s.event.width_max = 180;
    check_fix(s, "float.binds_in_day", Level::stop);
}

TEST_CASE("what the axle feels and takes a decision says what to do") {
    Setup s;
    // A bore so far below its nominal size that no axle clears it: JS9 of 6.35 mm reaches to -18
    // µm, f9 stands at -13 (ISO 286-1, from memory).
    s.fits.axle = "JS9/f6";
    const Evaluation tight = evaluate(s);
    REQUIRE(find(tight, "fit.tight") != nullptr);
    CHECK(find(tight, "fit.tight")->changes.empty());
    CHECK(find(tight, "fit.tight")->fix.find("H6") != std::string::npos);

    // By shoulder the float takes all the stack's tolerances.
    s = Setup{};
    s.axial_float.set_by = FloatBy::shoulder;
    s.tolerances.seat.half = 0.2;
    CHECK(find(evaluate(s), "float.scatter") == nullptr);  // only when builds are asked for
    const Evaluation scattered = with_builds(s);
    const Finding* scatter = find(scattered, "float.scatter");
    REQUIRE(scatter != nullptr);
    CHECK(scatter->text.find("seat") != std::string::npos);
    CHECK(scattered.reading("float.outside_share")->status == Status::caution);

    // No axle of this diameter is strong enough.
    s = Setup{};
    s.axle.strength = 20;
    const Evaluation broken = evaluate(s);
    const Finding* weak = find(broken, "shaft.overstress");
    REQUIRE(weak != nullptr);
    CHECK(weak->changes.empty());
    CHECK(weak->fix.find("thicker") != std::string::npos);

    // A binding axle says what it presses with.
    s = Setup{};
    s.axial_float.set_by = FloatBy::shoulder;
    s.axial_float.shoulder -= 0.3;
    const Evaluation bound = evaluate(s);
    CHECK(bound.reading("bearing.preload")->value > 1);
    CHECK(find(bound, "float.bind")->text.find("pressed with") != std::string::npos);
    CHECK(evaluate(Setup{}).reading("bearing.preload")->value == 0);
}

TEST_CASE("a fit that is none is a conflict") {
    Setup s;
    s.fits.axle = "H7/q6";
    CHECK(find_conflict(s)->key == "fits.axle");
    s.fits.axle = "";
    s.fits.holder = "7";
    CHECK(find_conflict(s)->key == "fits.holder");
    s.fits.holder = "";
    CHECK_FALSE(find_conflict(s));
    CHECK(evaluate(s).reading("fit.axle_low") == nullptr);
}

TEST_CASE("readings and findings of the feel agree on any setup") {
    RandomSetups random(60606);
    for (int n = 0; n < 150; ++n) {
        const Setup s = random.next();
        const Evaluation e = evaluate(s);
        for (const Reading& r : e.readings) {
            INFO(std::string(r.name));
            CHECK(std::isfinite(r.value));
        }
        const auto is = [&](std::string_view name) { return e.reading(name)->status; };
        const auto has = [&](std::string_view code) { return find(e, code) != nullptr; };
        CHECK((is("shaft.stress") != Status::ok) == has("shaft.overstress"));
        CHECK((is("shaft.safety") == is("shaft.stress")));
        CHECK((is("shaft.bending_speed") != Status::ok) == has("shaft.whirl"));
        CHECK((is("bearing.life") != Status::ok) == has("bearing.life"));
        CHECK((is("bearing.static_safety") != Status::ok) == has("bearing.static"));
        CHECK((is("bearing.misalignment") != Status::ok) == has("bearing.misaligned"));
        if (is("float.nominal") == Status::ok)
            CHECK(std::max(warm_float_status(s, e.reading("float.cold")->value),
                           warm_float_status(s, e.reading("float.hot")->value)) ==
                  (has("float.binds_in_day")    ? Status::stop
                   : has("float.leaves_in_day") ? Status::caution
                                                : Status::ok));
        for (const Finding& f : e.findings)
            if (!f.changes.empty() && (f.code.rfind("shaft", 0) == 0)) CHECK_FALSE(f.fix.empty());
    }
}

TEST_CASE("a lighter axle accelerates, a softer one winds up") {
    Setup tube;
    tube.axle.material = Material::carbon_wrapped;
    tube.axle.waist = 6.35;
    const Evaluation steel = evaluate(Setup{}), carbon = evaluate(tube);
    CHECK_FALSE(steel.feel.comparison);
    Setup both;
    both.other_axle.material = Material::carbon_wrapped;
    both.other_axle.waist = 6.35;
    const AxleComparison c = evaluate(both).feel.comparison.value();
    CHECK(c.first.windup == steel.feel.shaft.windup_left);
    CHECK(c.second.windup == carbon.feel.shaft.windup_left);
    CHECK(c.second.equivalent == carbon.feel.turning.equivalent);
    CHECK(c.second.car_mass == Approx(1.3 - c.mass_saved));
    // Derived. The axle is 2 x (60.475 + 3) mm long. Steel: 19.10 mm² (6.35/4), for some 59 mm
    // between the bearings 15.71 (6/4), of 7.85e-6 kg/mm³: 17.5 g. Carbon: 19.10 mm²
    // of 1.55e-6: 3.8.
    CHECK(c.mass_saved > 0.0130);
    CHECK(c.mass_saved < 0.0145);
    // The car's 1.3 kg and what its turning mass is worth, 0.2 kg at most, gain by as much.
    CHECK(c.acceleration_gained > 0.0130 / 1.5);
    CHECK(c.acceleration_gained < 0.0150 / (1.3 - 0.0145));
    // G 80 against 15 GPa; the steel's J lies between 102.1 (6/4) and 134.5 mm⁴ (6.35/4), the
    // tube's is 134.5.
    CHECK(c.winds > 80.0 / 15 * 102.1 / 134.6);
    CHECK(c.winds < 80.0 / 15 * 134.6 / 134.5);
    // E 205 against 60 GPa in bending, likewise; what shear adds has the ratio of G.
    CHECK(c.bends > 205.0 / 60 * 102.1 / 134.6);
    CHECK(c.bends < 80.0 / 15 * 134.6 / 134.5);
    CHECK(c.better == BetterAxle::depends);
    // A user's lay-up counts: a third of G, three times the twist.
    tube.axle.shear_modulus = 5;
    CHECK(evaluate(tube).feel.shaft.windup_left ==
          Approx(3 * carbon.feel.shaft.windup_left).epsilon(1e-9));
}

TEST_CASE("what the other axle leaves out is as in the axle, or as its material has it") {
    Setup s;
    CHECK_FALSE(other_axle_of(s));
    s.axle.elastic_modulus = 190;
    s.axle.strength = 500;
    s.other_axle.bore = 3;
    Axle other = other_axle_of(s).value();
    CHECK(other.bore == 3);
    CHECK(other.waist == s.axle.waist);
    CHECK(other.elastic_modulus == 190);
    s.other_axle.material = Material::carbon_tube;
    s.other_axle.strength = 300;
    other = other_axle_of(s).value();
    CHECK_FALSE(other.elastic_modulus);
    CHECK(other.strength == 300);
    // Swapped twice all is as before, and the comparison is turned round.
    const Setup swapped = with_axles_swapped(s), back = with_axles_swapped(swapped);
    CHECK(swapped.axle.material == Material::carbon_tube);
    CHECK(swapped.axle.strength == 300);
    CHECK_FALSE(find_conflict(swapped));
    for (const Parameter& p : parameters())
        if (p.get && p.key.rfind("axle.", 0) == 0) CHECK(p.get(back) == p.get(s));
    const AxleComparison c = evaluate(s).feel.comparison.value();
    const AxleComparison turned = evaluate(swapped).feel.comparison.value();
    CHECK(turned.first.windup == c.second.windup);
    CHECK(turned.second.deflection == c.first.deflection);
    CHECK(turned.mass_saved == Approx(-c.mass_saved));
    // What counts is what an adjuster shows where nothing is given.
    for (const auto& [key, value] :
         {std::pair{"other_axle.waist", s.axle.waist},
          {"other_axle.bore", 3.0},
          {"other_axle.strength", 300.0},
          {"other_axle.shear_modulus", data(Material::carbon_tube).shear_modulus},
          {"axle.elastic_modulus", 190.0},
          {"axle.shear_modulus", data(s.axle.material).shear_modulus}})
        CHECK(counting_value(*find_parameter(key), s) == value);
    // It must fit the same bearings.
    s.other_axle.diameter = 8;
    CHECK(find_conflict(s)->key == "other_axle.diameter");
}

TEST_CASE("where no float lasts the day, none to be set is named") {
    Setup s = hot_carbon();
    s.axial_float.low = 0.1;
    s.axial_float.high = 0.12;
    const Evaluation e = evaluate(s);
    CHECK_FALSE(e.feel.warmth.can_be_set());
    CHECK(e.reading("float.set_low") == nullptr);
    CHECK(e.reading("float.set_high") == nullptr);
}

TEST_CASE("the same setup feels the same, however often it is asked") {
    const Setup s = hot_carbon();
    const Evaluation a = with_builds(s), b = with_builds(s);
    for (std::size_t i = 0; i < a.readings.size(); ++i)
        CHECK(a.readings[i].value == b.readings[i].value);
    CHECK(a.feel.tolerances[0].sample.histogram == b.feel.tolerances[0].sample.histogram);
}
