#include <algorithm>
#include <catch2/catch.hpp>

#include "core/conflicts.hpp"
#include "core/limits.hpp"
#include "evaluate/evaluate.hpp"

using namespace podwright;

// What gears do that stand where no mesh can be set.
namespace {

const Finding* find(const Evaluation& evaluation, const char* code) {
    for (const Finding& f : evaluation.findings)
        if (f.code == code) return &f;
    return nullptr;
}

}  // namespace

TEST_CASE("teeth that jam have no contact ratio, and those that do not meet stop the car") {
    // Common practice, no source: teeth driven into each other cannot turn at all.
    Setup jammed;
    jammed.motor.slot_length = 1;
    const Evaluation tight = evaluate(jammed);
    CHECK(tight.reading("mesh.backlash")->value < 0);
    CHECK(tight.reading("mesh.contact_ratio")->value == 0);
    CHECK(tight.reading("mesh.contact_ratio")->status == Status::stop);
    CHECK(find(tight, "mesh.unreachable") != nullptr);

    // Derived: apart by more than the tips reach, there is no path of contact.
    Setup loose;
    loose.motor.slot_length = 20;
    loose.motor.clamped_at = 20;
    const Evaluation apart = evaluate(loose);
    const double tips =
        (apart.reading("gear.spur_outside")->value + apart.reading("gear.pinion_outside")->value) /
        2;
    REQUIRE(apart.reading("mesh.distance_unset")->value > tips);
    CHECK(apart.drive.unset.contact_ratio == 0);
    CHECK(apart.reading("mesh.backlash_unset")->status == Status::stop);
    const Finding* unset = find(apart, "mesh.unset");
    REQUIRE(unset != nullptr);
    CHECK(unset->level == Level::stop);
    CHECK(unset->text.find("do not meet") != std::string::npos);
    const Setup set = with_changes(loose, unset->changes);
    CHECK(find(evaluate(set), "mesh.unset") == nullptr);
    CHECK(evaluate(set).reading("mesh.distance_unset")->value ==
          Approx(apart.reading("mesh.working_distance")->value).margin(1e-9));
}

TEST_CASE(
    "a motor is clamped within its slot, and the day's coldest is no warmer than its hottest") {
    Setup s;
    s.motor.clamped_at = s.motor.slot_length;
    CHECK_FALSE(find_conflict(s));
    s.motor.clamped_at = s.motor.slot_length + 0.01;
    REQUIRE(find_conflict(s));
    CHECK(find_conflict(s)->key == "motor.clamped_at");
    s = Setup{};
    s.temperature.cold = s.temperature.hot + 1;
    REQUIRE(find_conflict(s));
    CHECK(find_conflict(s)->key == "temperature.cold");
    CHECK(find_conflict(s)->text.find("36.00 against 35.00 °C") != std::string::npos);
}

TEST_CASE("negative float adds to the drag, and only that is its part") {
    Setup s;
    CHECK(evaluate(s).reading("bearing.drag_preload")->value == 0);
    const double free = evaluate(s).reading("bearing.drag")->value;
    s.axial_float.set_by = FloatBy::shoulder;
    s.axial_float.shoulder = stack_of(Setup{}).thrust_faces - Setup{}.axial_float.blade - 0.3;
    const Evaluation bound = evaluate(s);
    REQUIRE(bound.reading("bearing.preload")->value > 0);
    CHECK(bound.reading("bearing.drag_preload")->value > 0);
    CHECK(bound.reading("bearing.drag")->value - bound.reading("bearing.drag_preload")->value ==
          Approx(free));
}

TEST_CASE("the slopes of the axle are those in its bearings") {
    Setup s;
    s.left.tyre.load = 6;
    const Evaluation e = evaluate(s);
    const double left = e.reading("shaft.slope_left")->value;
    const double right = e.reading("shaft.slope_right")->value;
    CHECK(left != Approx(right).epsilon(1e-3));
    CHECK(e.reading("bearing.misalignment")->value == Approx(60 * std::max(left, right)));
}
