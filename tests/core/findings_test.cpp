#include <algorithm>
#include <catch2/catch.hpp>

#include "evaluate/evaluate.hpp"
#include "finding_check.hpp"
#include "random_setup.hpp"

using namespace podwright;

namespace {

constexpr std::uint64_t seed = 90210;

}  // namespace

TEST_CASE("the default setup has nothing to report") { CHECK(evaluate(Setup{}).findings.empty()); }

TEST_CASE("each finding is found, and its fix mends it") {
    Setup s;
    s.axial_float.blade = 0.02;
    check_fix(s, "float.tight", Level::caution);
    s.axial_float.blade = 0.4;
    check_fix(s, "float.loose", Level::caution);

    s = Setup{};
    s.axial_float.set_by = FloatBy::shoulder;
    s.axial_float.shoulder -= 0.25;
    check_fix(s, "float.bind", Level::stop);

    s = Setup{};
    s.left.shims = s.right.shims = {0.5, 0.5, 0.5};
    check_fix(s, "width.over", Level::stop);
    s.left.inset = s.right.inset = -12;
    check_fix(s, "width.over", Level::stop);

    s = Setup{};
    s.left.shims = {0.3, 0.2, 0.5, 0.2};
    s.event.width_max = 180;
    check_fix(s, "width.uneven", Level::caution);

    s = Setup{};
    for (Side side : both_sides) s.side(side).tyre.diameter = 40.5;
    check_fix(s, "ride.low", Level::stop);
    for (Side side : both_sides) s.side(side).tyre.diameter = 48;
    check_fix(s, "ride.high", Level::caution);

    s = Setup{};
    s.left.holder_step = 1.0;
    check_fix(s, "ride.uneven", Level::caution);
    s = Setup{};
    s.left.tyre.diameter += 2;
    check_fix(s, "ride.uneven", Level::caution);

    s = Setup{};
    s.motor.slot_length = 1;
    check_fix(s, "mesh.unreachable", Level::stop);

    s = Setup{};
    s.gears.backlash = 0.01;
    check_fix(s, "mesh.tight", Level::caution);
    s.gears.backlash = 0.3;
    check_fix(s, "mesh.loose", Level::caution);

    s = Setup{};
    s.motor.clamped_at = 0.5;
    check_fix(s, "mesh.unset", Level::stop);
    s.motor.clamped_at = 3.8;
    check_fix(s, "mesh.unset", Level::caution);
    s.motor.clamped_at = 7;
    check_fix(s, "mesh.unset", Level::stop);

    s = Setup{};
    s.event.rollout_low = 62;
    check_fix(s, "rollout.low", Level::caution);
    s.event.rollout_low = 0;
    s.event.rollout_high = 59;
    check_fix(s, "rollout.high", Level::caution);
}

TEST_CASE("findings that take a decision say what to do") {
    Setup s;
    s.left.tyre.worn_diameter = 43.5;
    const Evaluation worn = evaluate(s);
    REQUIRE(find(worn, "tyre.worn") != nullptr);
    CHECK(find(worn, "tyre.worn")->parts == std::vector<std::string>{"left.tyre"});

    s = Setup{};
    s.gears.pinion = 16;
    const Evaluation undercut = evaluate(s);
    REQUIRE(find(undercut, "gear.undercut") != nullptr);
    CHECK(find(undercut, "gear.undercut")->level == Level::note);

    s = Setup{};
    s.left.holder_step = 2;
    s.motor.slot_angle = radians(40);
    s.gears.backlash = 0.035;
    CHECK(find(evaluate(s), "mesh.tilted") != nullptr);
}

TEST_CASE("a value on its limit passes") {
    Setup s;
    s.event.width_max = evaluate(s).stack.overall_width;
    s.event.ride_low = evaluate(s).stance.ride;
    s.axial_float.high = s.axial_float.blade;
    CHECK(evaluate(s).findings.empty());
    s.event.width_max -= 0.001;
    CHECK(find(evaluate(s), "width.over") != nullptr);
}

TEST_CASE("readings and findings agree on any setup") {
    RandomSetups random(seed);
    for (int n = 0; n < 200; ++n) {
        const Evaluation e = evaluate(random.next());
        for (const Reading& r : e.readings) {
            INFO(std::string(r.name));
            CHECK(std::isfinite(r.value));
            if (r.low && r.value < *r.low - 1e-6) CHECK(r.status >= Status::caution);
            if (r.high && r.value > *r.high + 1e-6) CHECK(r.status >= Status::caution);
        }
        Status worst = Status::none;
        std::string which;
        for (const Reading& r : e.readings)
            if (r.status > worst) {
                worst = r.status;
                which = r.name;
            }
        INFO("worst: " << which);
        if (worst == Status::stop) CHECK(e.worst() == Level::stop);
        if (worst == Status::caution) CHECK(e.worst() >= Level::caution);
        const auto is = [&](std::string_view name) { return e.reading(name)->status; };
        const auto has = [&](std::string_view code) { return find(e, code) != nullptr; };
        CHECK((is("float.nominal") == Status::stop) == has("float.bind"));
        CHECK((is("float.nominal") == Status::caution) ==
              (has("float.tight") || has("float.loose")));
        CHECK((is("width.overall") == Status::stop) == has("width.over"));
        CHECK((is("width.shift") == Status::caution) == has("width.uneven"));
        CHECK((is("ride.rear") == Status::stop) == has("ride.low"));
        CHECK((is("ride.rear") == Status::caution) == has("ride.high"));
        CHECK((is("ride.roll") == Status::caution) == has("ride.uneven"));
        CHECK((is("mesh.slot_position") == Status::stop) == has("mesh.unreachable"));
        CHECK(std::is_sorted(e.findings.begin(), e.findings.end(),
                             [](const Finding& a, const Finding& b) { return a.level > b.level; }));
        for (const Finding& f : e.findings) {
            CHECK_FALSE(f.text.empty());
            CHECK_FALSE(f.fix.empty());
            CHECK_FALSE(f.parts.empty());
            CHECK(f.text.find_first_of("0123456789") != std::string::npos);
            for (const std::string& key : f.parts) CHECK(e.assembly.find(key) != nullptr);
        }
    }
}

TEST_CASE("the sentences follow the unit shown") {
    Setup s;
    s.axial_float.blade = 0.4;
    CHECK(evaluate(s).findings.front().text.find("0.40 mm") != std::string::npos);
    CHECK(evaluate(s, {LengthUnit::inch}).findings.front().text.find("0.0157 in") !=
          std::string::npos);
}

TEST_CASE("no fix of the stack or the stance leaves its finding or makes a stop") {
    RandomSetups random(seed + 1);
    int fixed = 0;
    for (int n = 0; n < 400; ++n) {
        Setup s = random.next();
        s.event.ride_low = 0.5;
        const Evaluation before = evaluate(s);
        for (const Finding& f : before.findings) {
            const std::string area = f.code.substr(0, f.code.find('.'));
            const bool of_float = s.axial_float.set_by == FloatBy::shoulder && area == "width";
            if (f.changes.empty() || of_float) continue;
            if (area != "ride" && area != "width" && area != "float") continue;
            if (f.code == "float.scatter" || f.code == "float.leaves_in_day") continue;
            const Setup after = with_changes(s, f.changes);
            if (find_conflict(after)) continue;
            const Evaluation e = evaluate(after);
            INFO(n << " " << f.code << ": " << f.fix << " " << f.text);
            if (find(e, f.code)) UNSCOPED_INFO(find(e, f.code)->text);
            CHECK(find(e, f.code) == nullptr);
            for (const char* stop : {"float.bind", "ride.low", "width.over"})
                if (find(e, stop)) CHECK(find(before, stop) != nullptr);
            ++fixed;
        }
    }
    CHECK(fixed > 60);
}

TEST_CASE("a shim fix does not aim at the edge of a limit") {
    // The inset of one wheel is 1.5 mm more: as much more shim levels it (derived).
    Setup s;
    s.left.inset += 1.5;
    const Evaluation e = evaluate(s);
    const Finding* uneven = find(e, "width.uneven");
    REQUIRE(uneven != nullptr);
    const Evaluation mended = evaluate(with_changes(s, uneven->changes));
    CHECK(std::abs(mended.stack.shift) <= s.event.shift_max / 2);

    s = Setup{};
    s.axial_float.set_by = FloatBy::shoulder;
    s.axial_float.shoulder = e.stack.thrust_faces - 0.25;  // binds by 0.1
    const Evaluation binds = evaluate(s);
    const Finding* bind = find(binds, "float.bind");
    REQUIRE(bind != nullptr);
    const double F = evaluate(with_changes(s, bind->changes)).stack.axial_float;
    CHECK(F >= s.axial_float.low + 0.25 * (s.axial_float.high - s.axial_float.low) - 1e-9);
    CHECK(F <= s.axial_float.high - 0.25 * (s.axial_float.high - s.axial_float.low) + 1e-9);

    // By blade the shims do not touch the float: a float out of its window is no reason to buy
    // wheels.
    s = Setup{};
    s.axial_float.blade = 0.3;
    s.left.shims.push_back(1.0);
    const Evaluation loose = evaluate(s);
    REQUIRE(find(loose, "width.uneven") != nullptr);
    CHECK(find(loose, "width.uneven")->changes.front().key.find("shims") != std::string::npos);
}

TEST_CASE("a mesh that jams in the heat is found, and its fix holds all day") {
    Setup s;
    s.temperature.hot = 70;
    s.gears.backlash = 0.04;
    check_fix(s, "mesh.jams_in_day", Level::stop);
    CHECK(find(evaluate(with_changes(s, find(evaluate(s), "mesh.jams_in_day")->changes)),
               "mesh.leaves_in_day") == nullptr);
}
