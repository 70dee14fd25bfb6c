#include "bench/edit.hpp"

#include <catch2/catch.hpp>

#include "bench/part_facts.hpp"

using namespace podwright;

namespace {

EditResult edit(const Setup& setup, const Change& change, bool linked = false) {
    return edited(setup, evaluate(setup), {&change, 1}, linked);
}

}  // namespace

TEST_CASE("linked sides change together, unlinked ones do not") {
    const Setup s;
    CHECK(edit(s, {"left.inset", -3, {}}, true).setup.right.inset == -3);
    CHECK(edit(s, {"left.inset", -3, {}}, false).setup.right.inset == s.right.inset);
    CHECK(edit(s, {"right.shims", 0, {0.1}}, true).setup.left.shims == std::vector<double>{0.1});
    CHECK(unlike_sides(s).empty());
    // What is not alike is not overwritten.
    Setup unlike = s;
    unlike.left.shims = {0.5, 0.5, 0.2};
    CHECK(unlike_sides(unlike) == std::vector<std::string>{"shims"});
    const Setup more = edit(unlike, {"left.shims", 0, {0.5, 0.5, 0.2, 0.3}}, true).setup;
    CHECK(more.left.shims.size() == 4);
    CHECK(more.right.shims == s.right.shims);
    CHECK(edit(unlike, {"left.inset", -3, {}}, true).setup.right.inset == -3);
    // A change that names both sides is taken as it is.
    const Change both[] = {{"left.inset", -3, {}}, {"right.inset", -2, {}}};
    const Setup after = edited(s, evaluate(s), both, true).setup;
    CHECK(after.left.inset == -3);
    CHECK(after.right.inset == -2);
}

TEST_CASE("a holder change leaves the motor where it was clamped, new gears set the mesh") {
    const Setup s;
    const double place = evaluate(s).drive.slot.position;
    Setup turned = edit(s, {"left.holder_way", 0, {}}, true).setup;
    REQUIRE(turned.motor.clamped_at);
    CHECK(*turned.motor.clamped_at == place);
    // A second holder change does not forget where the motor really is.
    turned = edit(turned, {"left.holder_step", 1, {}}, true).setup;
    CHECK(*turned.motor.clamped_at == place);
    CHECK_FALSE(edit(turned, {"gears.pinion", 33, {}}).setup.motor.clamped_at);
}

TEST_CASE("an edit that no car could have is refused with a reason") {
    const Setup s;
    const EditResult result = edit(s, {"left.rim_diameter", 42, {}});
    CHECK_FALSE(result.refusal.empty());
    CHECK(result.setup.left.rim_diameter == s.left.rim_diameter);
}

TEST_CASE("values keep to whole steps and to their range") {
    const Parameter& inset = *find_parameter("left.inset");
    CHECK(to_step(inset, -4.43) == Approx(-4.5).margin(1e-12));
    CHECK(to_step(inset, 99) == 15);
    CHECK(to_step(*find_parameter("gears.spur"), 75.6) == 76);
    CHECK(to_step(*find_parameter("float.blade"), 0.1499) == 0.15);
}

TEST_CASE("numbers are shown in their unit") {
    const Parameter& inset = *find_parameter("left.inset");
    CHECK(shown_value(inset, -4.5, LengthUnit::mm) == "-4.50 mm");
    CHECK(shown_value(inset, 25.4, LengthUnit::inch) == "1.0000 in");
    CHECK(shown_value(*find_parameter("gears.spur"), 76, LengthUnit::inch) == "76");
    CHECK(shown_value(*find_parameter("left.holder_way"), 1, LengthUnit::mm) == "down");
    CHECK(describe({"left.holder_way", 0, {}}, LengthUnit::mm) == "holder way up");
    const Evaluation e = evaluate(Setup{});
    CHECK(shown_change(*e.reading("width.overall"), 0.4, LengthUnit::mm) == "+0.40 mm");
    CHECK(shown_change(*e.reading("width.overall"), -0.4, LengthUnit::mm) == "-0.40 mm");
}

TEST_CASE("the floor's card has its own thickness, the axle's its waist; both write mm one way") {
    const auto value = [](const char* part, const Setup& s, const std::string& label) {
        for (const Fact& fact : part_facts(part, s, evaluate(s), LengthUnit::mm))
            if (fact.label == label) return fact.value;
        return std::string();
    };
    Setup s;
    CHECK(value("pod.floor", s, "floor thickness") == "2.50 mm");
    CHECK(value("pod.floor", s, "plate thickness").empty());
    CHECK(value("pod.left", s, "plate thickness") == "3.00 mm");
    CHECK(value("axle", s, "axle waist") == "6.00 mm");
    CHECK(value("axle", s, "axle diameter") == "6.35 mm");  // as in its title
    s.axle.diameter = 6.345;
    CHECK(value("axle", s, "axle diameter") == "6.345 mm");
}

TEST_CASE("every part has its numbers and adjusters that exist") {
    const Setup s;
    const Evaluation e = evaluate(s);
    for (const Part& part : e.assembly.parts) {
        INFO(part.key);
        CHECK_FALSE(part_facts(part.key, s, e, LengthUnit::mm).empty());
        for (const std::string& key : part_parameters(part.key)) {
            INFO(key);
            CHECK(find_parameter(key) != nullptr);
        }
    }
}

TEST_CASE("another way of setting the float begins with the float that there is") {
    Setup s;
    s.axial_float.blade = 0.12;
    const Setup by_shoulder = edit(s, {"float.set_by", 1, {}}).setup;
    REQUIRE(by_shoulder.axial_float.set_by == FloatBy::shoulder);
    CHECK(evaluate(by_shoulder).stack.axial_float == Approx(0.12).margin(1e-6));
    Setup tighter = by_shoulder;
    tighter.axial_float.shoulder -= 0.05;
    const Setup by_blade = edit(tighter, {"float.set_by", 0, {}}).setup;
    CHECK(by_blade.axial_float.blade == Approx(0.07).margin(1e-6));
}
