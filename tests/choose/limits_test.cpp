#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "brute_force.hpp"
#include "choose/choose.hpp"
#include "choose/diagnose.hpp"
#include "choose/felt.hpp"
#include "choose/plan.hpp"
#include "choose/room.hpp"
#include "core/conflicts.hpp"
#include "core/parameters.hpp"
#include "evaluate/evaluate.hpp"
#include "file/asset_library.hpp"

// Limits that no search term stands for: how early they are seen, and what is said where they are
// not judged. Rules and boxes are invented.
using namespace podwright;

namespace {

/// Thousands of builds, of which all but those that a rule forbids would do.
Setup roomy() {
    Setup s;
    s.choosing.box.shims = {{0.1, 6}, {0.2, 6}, {0.5, 4}};
    s.choosing.box.holders = {{0.0, 2}, {0.5, 2}};
    s.choosing.box.pinions = {32, 33, 34};
    s.choosing.box.spurs = {76, 78};
    s.choosing.box.blades = {0.1, 0.15, 0.2};
    s.choosing.goals = {{"ride.rear", 4, 0.3, 1}};
    return s;
}

Setup with_rule(Setup setup, const char* of, std::optional<double> low,
                std::optional<double> high) {
    setup.choosing.rules.push_back({of, low, high, "made-up sheet, 1"});
    return setup;
}

double value_of(const Setup& setup, const std::string& name) {
    if (const Parameter* key = find_parameter(name)) return *key->get(setup);
    return evaluate(setup).reading(name)->value;
}

/// The builds that are left of `all` when each is measured.
std::vector<Plain> with_room(const std::vector<Plain>& all) {
    Meter meter(asset_library());
    Room room(meter);
    std::vector<Plain> left;
    for (const Plain& plain : all)
        if (room.of(plain.setup)) left.push_back(plain);
    return left;
}

void check_same(const Choice& choice, const std::vector<Plain>& all) {
    REQUIRE(choice.best.size() == std::min<std::size_t>(10, all.size()));
    for (std::size_t k = 0; k < choice.best.size(); ++k) {
        const Setup& a = choice.best[k].setup;
        CHECK(std::all_of(parameters().begin(), parameters().end(), [&](const Parameter& p) {
            return p.kind == ValueKind::list || p.kind == ValueKind::text ||
                   p.get(a) == p.get(all[k].setup);
        }));
        CHECK(choice.best[k].points == static_cast<double>(all[k].cost.points) / point);
    }
}

}  // namespace

TEST_CASE("a rule on what no build can change is judged before any build, and blamed at once") {
    struct Case {
        const char* of;
        double low;
        const char* text;
    };
    for (const Case& c :
         {Case{"motor.can_diameter", 40, "can diameter"}, Case{"car.mass", 1.4, "mass"},
          Case{"ride.front", 5, "front ride height"}, Case{"left.seat", 32, "left seat"}}) {
        Meter meter(asset_library());
        ChooseOptions options;
        options.meter = &meter;
        const Choice choice = choose(with_rule(roomy(), c.of, c.low, {}), options);
        INFO(c.of);
        CHECK(choice.best.empty());
        CHECK(choice.looked_at == 0);
        CHECK(choice.measured == 0);
        CHECK_FALSE(choice.gave_up);
        REQUIRE(choice.blame);
        REQUIRE(choice.blame->obstacles.size() == 1);
        CHECK(choice.blame->obstacles[0].limit == Limit::rules);
        CHECK(choice.blame->obstacles[0].text.find(c.text) != std::string::npos);
        CHECK_FALSE(choice.blame->addition);
    }
}

TEST_CASE("a rule that one list breaks with every choice is seen before any build") {
    // Above what the box holds: blades to 0.2 mm, pinions to 34 teeth, the tyres of today.
    for (const auto& [of, low] :
         {std::pair{"float.blade", 0.3}, std::pair{"gears.pinion", 35.0},
          std::pair{"right.tyre_diameter", 50.0}, std::pair{"gear.spur_outside", 40.0},
          std::pair{"width.left", 100.0}, std::pair{"gear.speed", 200.0},
          std::pair{"mesh.standard_distance", 30.0}}) {
        ChooseOptions options;
        options.explain = false;
        INFO(of);
        const Choice choice = choose(with_rule(roomy(), of, low, {}), options);
        CHECK(choice.best.empty());
        CHECK(choice.looked_at == 0);
    }
}

TEST_CASE("rules on keys and on readings of one part of a build: the answers of brute force") {
    const std::vector<std::string> ruled = {
        "width.left",       "width.right",         "ride.left",         "ride.right",
        "axle.height",      "axle.tilt",           "gear.spur_outside", "gear.pinion_outside",
        "gear.speed",       "float.blade",         "axle.bore",         "mesh.standard_distance",
        "left.holder_step", "right.tyre_diameter", "left.inset",        "car.mass"};
    RandomSetups random(21);
    int with_answers = 0;
    int without = 0;
    for (int i = 0; i < 160; ++i) {
        Setup today = random_problem(random);
        for (int n = random.whole(1, 2); n > 0; --n) {
            const std::string& of = ruled[static_cast<std::size_t>(random.whole(0, 15))];
            const double now = value_of(today, of);
            const double off = now * 0.002 * random.whole(-1, 1);
            EventRule rule{of, {}, {}, "made-up sheet, 2"};
            (random.whole(0, 1) ? rule.low : rule.high) = now + off;
            today.choosing.rules.push_back(rule);
        }
        if (find_conflict(today)) continue;
        const std::vector<Plain> all = brute_force(today);
        ChooseOptions options;
        options.explain = false;
        options.felt = false;
        INFO("problem " << i << ", " << all.size() << " builds fit");
        check_same(choose(today, options), all);
        ++(all.empty() ? without : with_answers);
    }
    CHECK(with_answers > 40);
    CHECK(without > 20);
}

TEST_CASE("a wheel that every build would put on the ground is seen before any is measured") {
    Setup today = roomy();
    // Worn to a radius of 18 the rim of 15 has 3 mm, and a degree of roll at 100 mm takes 1.7.
    today.right.tyre.worn_diameter = 36;
    Meter meter(asset_library());
    ChooseOptions options;
    options.meter = &meter;
    const Choice choice = choose(today, options);
    CHECK(choice.best.empty());
    CHECK(choice.measured == 0);
    REQUIRE(choice.blame);
    REQUIRE(choice.blame->obstacles.size() == 1);
    CHECK(choice.blame->obstacles[0].limit == Limit::clearances);
}

TEST_CASE("wheels that come too close to the ground are cut early, and no others") {
    RandomSetups random(22);
    int problems = 0;
    int too_close = 0;
    int fit = 0;
    std::size_t all_builds = 0;
    std::size_t builds_measured = 0;
    for (int i = 0; i < 500 && problems < 4; ++i) {
        Setup today = random_problem(random);
        // On either side of what they need.
        today.left.tyre.worn_diameter = 36.2 + 0.2 * random.whole(0, 10);
        today.right.tyre.worn_diameter = 36.2 + 0.2 * random.whole(0, 10);
        today.needs.roll = radians(0.5 * random.whole(0, 3));
        today.car.front_ride = 1.0 * random.whole(1, 9);
        constexpr double quick = 3000;
        if (find_conflict(today) || Lists(today).combinations() > quick) continue;
        const std::vector<Plain> all = brute_force(today);
        constexpr std::size_t affordable = 60;
        if (all.empty() || all.size() > affordable) continue;
        ++problems;
        const std::vector<Plain> measured = with_room(all);
        too_close += static_cast<int>(all.size() - measured.size());
        fit += static_cast<int>(measured.size());
        Meter meter(asset_library());
        ChooseOptions options;
        options.meter = &meter;
        options.explain = false;
        options.felt = false;
        INFO("problem " << i << ", " << measured.size() << " of " << all.size() << " builds fit");
        options.front = false;
        const Choice choice = choose(today, options);
        check_same(choice, measured);
        if (!measured.empty()) continue;
        all_builds += all.size();
        builds_measured += choice.measured;
    }
    CHECK(problems == 4);
    CHECK(too_close > 25);
    CHECK(fit > 5);
    CHECK(2 * builds_measured < all_builds);
}

TEST_CASE("rules on what the axle feels are kept") {
    Setup today = roomy();
    today.choosing.box.axles = {
        {"today's", today.axle.waist, today.axle.bore, static_cast<int>(today.axle.material), {}},
        {"tube", 6, 3, static_cast<int>(Material::carbon_tube), {}}};
    Setup tube = today;
    tube.axle.bore = 3;
    tube.axle.material = Material::carbon_tube;
    const double heavy = value_of(today, "shaft.mass");
    const double light = value_of(tube, "shaft.mass");
    REQUIRE(light < heavy - 1);
    const Choice choice = choose(with_rule(today, "shaft.mass", {}, (light + heavy) / 2));
    REQUIRE(choice.best.size() == 10);
    for (const Answer& answer : choice.best)
        CHECK(answer.setup.axle.material == Material::carbon_tube);
    CHECK(choice.unjudged.empty());
    CHECK(caveats(choice).empty());
}

TEST_CASE("a search in vain gives up, says so, and claims nothing of what it has not seen") {
    // That the trying of all that could be to blame stays below 400 builds is the program's own
    // choice.
    ChooseOptions options;
    options.patience = {10, 10};
    Setup box = roomy();
    box.choosing.box.shims = {{0.1, 2}, {0.2, 2}};
    const Choice choice = choose(with_rule(box, "shaft.mass", {}, 1), options);  // of some 70 g
    CHECK(choice.best.empty());
    CHECK(choice.gave_up);
    CHECK_FALSE(choice.stopped);
    CHECK(choice.looked_at < 400);
    REQUIRE(caveats(choice).size() == 1);
    CHECK(caveats(choice)[0].find("gave up") != std::string::npos);
    REQUIRE(choice.blame);
    CHECK(choice.blame->gave_up);
    REQUIRE(choice.blame->obstacles.size() == 1);
    CHECK(choice.blame->obstacles[0].text.find("mass that turns with the axle") !=
          std::string::npos);
    CHECK_FALSE(choice.blame->addition);
}

TEST_CASE("a rule that choosing cannot judge is named") {
    const Setup today = with_rule(roomy(), "float.outside_share", {}, 5);
    const Choice choice = choose(today);
    CHECK(choice.unjudged == std::vector<std::string>{"float.outside_share"});
    REQUIRE(caveats(choice).size() == 1);
    CHECK(caveats(choice)[0].find("float.outside_share") != std::string::npos);
    CHECK(unjudged_rules(with_rule(today, "shaft.mass", {}, 1), false) ==
          std::vector<std::string>{"float.outside_share", "shaft.mass"});
}

TEST_CASE("a run of the day that breaks a rule on what the axle feels says so") {
    Setup today = with_rule(roomy(), "shaft.mass", {}, 1);
    today.choosing.day.runs = 1;
    today.choosing.day.wear_left = today.choosing.day.wear_right = 0.2;
    const DayPlan day = plan_day(today, {});
    REQUIRE(day.runs.size() == 1);
    CHECK(day.runs[0].broken.has(Limit::rules));
}

TEST_CASE("what the axle feels can be measured and compared") {
    Setup today;
    const double mass = value_of(today, "shaft.mass");
    today.choosing.measured = {{"shaft.mass", mass + 0.1, 0.5, "scales"},
                               {"width.overall", value_of(today, "width.overall"), 0.02, ""}};
    const Diagnosis agrees = diagnose(today);
    REQUIRE(agrees.compared.size() == 2);
    CHECK(agrees.compared[0].predicted == mass);
    CHECK_FALSE(agrees.disagrees);
    today.choosing.measured[0].value = mass + 20;
    const Diagnosis off = diagnose(today);
    CHECK(off.disagrees);
    CHECK(std::none_of(off.suspects.begin(), off.suspects.end(),
                       [](const Suspect& s) { return std::isnan(s.chi_square); }));
}
