#include "choose/effects.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "choose/causes.hpp"
#include "core/conflicts.hpp"
#include "core/units.hpp"
#include "evaluate/evaluate.hpp"
#include "random_setup.hpp"

// Facts of the trade, common practice, no source: a shim on both sides is twice its thickness of
// width, an inset of both wheels twice as much less, a holder half a millimetre higher lowers the
// car by as much, a tyre larger by d lifts it by d / 2, one tooth more of the pinion is rollout by
// one part in its teeth.
using namespace podwright;

namespace {

const Adjuster& of(const std::vector<Adjuster>& all, const std::string& key) {
    for (const Adjuster& adjuster : all)
        if (adjuster.key == key) return adjuster;
    throw std::runtime_error("no adjuster " + key);
}

}  // namespace

TEST_CASE("one more of each adjuster does what the trade knows of it") {
    const Setup setup;
    const auto all = adjusters_of(setup);
    const auto on = [&](const char* key, const char* reading) { return of(all, key).on(reading); };
    CHECK(on("both.shims", "width.overall") == Approx(0.2).margin(1e-9));
    CHECK(on("left.shims", "width.overall") == Approx(0.1).margin(1e-9));
    CHECK(on("left.shims", "width.shift") == Approx(0.05).margin(1e-9));
    CHECK(on("right.shims", "width.shift") == Approx(-0.05).margin(1e-9));
    CHECK(on("both.shims", "float.nominal") == 0);  // set by blade
    CHECK(on("both.inset", "width.overall") == Approx(-0.5).margin(1e-9));
    CHECK(on("both.holder", "ride.rear") == Approx(-0.5).margin(1e-9));
    CHECK(on("left.holder", "ride.rear") == Approx(-0.25).margin(1e-9));
    CHECK(on("left.holder", "ride.roll") < 0);  // the left side comes down
    CHECK(on("both.tyre_diameter", "ride.rear") == Approx(0.05).margin(1e-9));
    CHECK(on("float.blade", "float.nominal") == Approx(0.01).margin(1e-9));
    CHECK(on("float.blade", "width.overall") == Approx(0.01).margin(1e-9));
    const double rollout = evaluate(setup).reading("gear.rollout")->value;
    CHECK(on("gears.pinion", "gear.rollout") == Approx(rollout / setup.gears.pinion).epsilon(1e-9));
    // The motor stays where it is clamped; set again the mesh would be the wanted one.
    CHECK(std::abs(on("both.holder", "mesh.backlash_unset")) > 0.005);
    CHECK(on("both.holder", "mesh.backlash") == Approx(0).margin(1e-9));
}

TEST_CASE("effects: the mesh is set again with other gears, and stays as it is with the same") {
    Setup setup;
    setup.left.holder_step = 0.25;  // the axle leans a little
    const auto all = adjusters_of(setup);
    const auto on = [&](const char* key, const char* reading) { return of(all, key).on(reading); };
    // Common practice, no source: another pinion or spur means that the mesh is set again, and the
    // wanted backlash is what it is set to.
    for (const char* gears : {"gears.pinion", "gears.spur", "gears.module"})
        CHECK(on(gears, "mesh.backlash_unset") == Approx(0).margin(1e-6));
    CHECK(on("gears.backlash", "mesh.backlash_unset") == Approx(0.01).margin(1e-6));
    // The same spur elsewhere on an axle that leans is nearer to its pinion or farther from it, and
    // nobody touches the motor: derived, 0.1 mm of 0.25 mm in 62 mm.
    CHECK(std::abs(on("gears.spur_offset", "mesh.backlash_unset")) > 1e-5);
    CHECK(std::abs(on("gears.spur_offset", "mesh.backlash_unset")) < 0.1 * 0.25 / 62);
    CHECK_FALSE(sets_mesh_again("left.holder_step"));
}

TEST_CASE("with a shoulder on the axle a shim takes float, not width") {
    Setup setup;
    setup.axial_float.set_by = FloatBy::shoulder;
    setup.axial_float.shoulder = 65.2;
    const auto all = adjusters_of(setup);
    CHECK(of(all, "both.shims").on("float.nominal") == Approx(-0.2).margin(1e-9));
    CHECK(of(all, "both.shims").on("width.overall") == Approx(0).margin(1e-9));
}

TEST_CASE("an effect is the difference of two evaluations") {
    RandomSetups random(61);
    int checked = 0;
    for (int i = 0; i < 15; ++i) {
        const Setup setup = clamped(random.next());
        if (find_conflict(setup)) continue;
        ++checked;
        const Evaluation now = evaluate(setup);
        for (const Adjuster& adjuster : adjusters_of(setup)) {
            Setup moved = with_changes(setup, adjuster.changes);
            const bool along =
                adjuster.key == "gears.spur_offset" || adjuster.key == "gears.face_width";
            if (adjuster.key.rfind("gears.", 0) == 0 && !along) moved.motor.clamped_at.reset();
            const Evaluation then = evaluate(moved);
            for (const Effect& effect : adjuster.effects)
                CHECK(effect.change ==
                      then.reading(effect.reading)->value - now.reading(effect.reading)->value);
        }
    }
    CHECK(checked > 10);
}

TEST_CASE("holder down a step: the chain of causes down to the backlash") {
    const Setup from;
    Setup to = from;
    to.motor.clamped_at = clamped(from).motor.clamped_at;  // the mesh is not set again
    for (const Side side : both_sides) to.side(side).holder_step = 1.0;  // was 0.5 down
    const auto causes = causes_between(from, to, LengthUnit::mm);
    REQUIRE(causes.size() == 1);
    std::map<std::string, double> by;
    for (const CauseLink& link : causes[0].links) by[link.reading] = link.change;
    CHECK(by["pod.axle"] == Approx(-0.5).margin(1e-9));
    CHECK(by["ride.rear"] == Approx(0.5).margin(1e-9));
    // Centre distance by Pythagoras from the slot's line; backlash grows by 2 dC tan a
    // (qtcgears.com Q410P388, eq. 14-2) at a pressure angle that grows from the standard one to the
    // working one.
    const double p = *to.motor.clamped_at;
    const double x = from.motor.slot_x + p * std::cos(from.motor.slot_angle);
    const double z = from.motor.slot_z + p * std::sin(from.motor.slot_angle);
    const double apart = std::hypot(x, z - 17.0) - std::hypot(x, z - 17.5);
    CHECK(by["mesh.distance_unset"] == Approx(apart).margin(1e-9));
    const double working = std::acos(evaluate(from).reading("mesh.standard_distance")->value *
                                     std::cos(radians(20)) / std::hypot(x, z - 17.0));
    CHECK(by["mesh.backlash_unset"] > 2 * apart * std::tan(radians(20)));
    CHECK(by["mesh.backlash_unset"] < 2 * apart * std::tan(working));
    CHECK(sentence(causes[0]) ==
          "both: holder 1.00 mm down instead of 0.50 mm down -> axle 0.50 mm lower in the pod -> "
          "car 0.50 mm higher -> nose down by " +
              fixed(std::abs(by["ride.rake"]), 2) + "\xC2\xB0 -> gears " + fixed(apart, 2) +
              " mm apart -> backlash up " + fixed(by["mesh.backlash_unset"], 2) + " mm");
}

TEST_CASE("the causes of a difference add up to it") {
    RandomSetups random(62);
    int pairs = 0;
    for (int i = 0; i < 200; ++i) {
        const Setup from = clamped(random.next());
        const Setup to = clamped(random.next());
        // Where the slot cannot reach there is no place to clamp the motor at.
        if (!from.motor.clamped_at || !to.motor.clamped_at) continue;
        ++pairs;
        const Evaluation was = evaluate(from);
        const Evaluation is = evaluate(to);
        std::map<std::string, double> sum;
        for (const Cause& cause : causes_between(from, to, LengthUnit::mm))
            for (const CauseLink& link : cause.links) sum[link.reading] += link.change;
        for (const char* name :
             {"float.nominal", "width.overall", "width.shift", "ride.rear", "ride.roll",
              "ride.rake", "axle.height", "gear.rollout", "gear.final_drive"}) {
            INFO(name);
            CHECK(sum[name] ==
                  Approx(is.reading(name)->value - was.reading(name)->value).margin(1e-6));
        }
        CHECK(sum["mesh.backlash_unset"] ==
              Approx(is.drive.unset.backlash - was.drive.unset.backlash).margin(2e-3));
    }
    CHECK(pairs > 60);
}

TEST_CASE("no difference has no causes") {
    const Setup setup;
    CHECK(causes_between(setup, setup, LengthUnit::mm).empty());
    Setup titled = setup;
    titled.title = "Another";
    CHECK(causes_between(setup, titled, LengthUnit::mm).empty());
}
