#include "choose/choose.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "brute_force.hpp"
#include "choose/room.hpp"
#include "core/conflicts.hpp"
#include "evaluate/evaluate.hpp"
#include "file/asset_library.hpp"

using namespace podwright;

namespace {

bool same_build(const Setup& a, const Setup& b) {
    return std::all_of(parameters().begin(), parameters().end(), [&](const Parameter& p) {
        if (p.kind == ValueKind::text) return true;
        return p.kind == ValueKind::list ? p.get_list(a) == p.get_list(b) : p.get(a) == p.get(b);
    });
}

/// Whether the box holds all that the build uses on both sides together, where it lists the kind.
bool in_box(const Setup& build) {
    const PartsBox& box = build.choosing.box;
    const auto used = [&](auto same) {
        return static_cast<int>(same(build.left)) + static_cast<int>(same(build.right));
    };
    for (const AxleSide* side : {&build.left, &build.right}) {
        for (const double shim : side->shims) {
            if (box.shims.empty()) break;
            int count = 0;
            for (const ShimKind& k : box.shims)
                if (std::abs(k.thickness - shim) < 1e-6) count = k.count;
            if (used([&](const AxleSide& s) {
                    return std::count_if(s.shims.begin(), s.shims.end(),
                                         [&](double t) { return std::abs(t - shim) < 1e-6; });
                }) > count)
                return false;
        }
        if (!box.holders.empty()) {
            int count = 0;
            for (const HolderKind& k : box.holders)
                if (k.step == side->holder_step) count = k.count;
            if (used([&](const AxleSide& s) { return s.holder_step == side->holder_step; }) > count)
                return false;
        }
        if (!box.wheels.empty()) {
            int count = 0;
            for (const WheelKind& k : box.wheels)
                if (k.inset == side->inset) count += k.count;
            if (used([&](const AxleSide& s) { return s.inset == side->inset; }) > count)
                return false;
        }
        if (!box.tyres.empty()) {
            int count = 0;
            for (const TyreKind& k : box.tyres)
                if (k.diameter == side->tyre.diameter) count += k.count;
            if (used([&](const AxleSide& s) { return s.tyre.diameter == side->tyre.diameter; }) >
                count)
                return false;
        }
    }
    const auto holds = [](const auto& list, auto value) {
        return list.empty() || std::find(list.begin(), list.end(), value) != list.end();
    };
    return holds(box.pinions, build.gears.pinion) && holds(box.spurs, build.gears.spur) &&
           (build.axial_float.set_by == FloatBy::shoulder ||
            holds(box.blades, build.axial_float.blade));
}

bool suffers(const Setup& setup, const std::string& code) {
    const auto findings = evaluate(setup).findings;
    return std::any_of(findings.begin(), findings.end(),
                       [&](const Finding& f) { return f.code == code && f.level != Level::note; });
}

}  // namespace

TEST_CASE("shim sums by the table are those of every way to share out the box") {
    RandomSetups random(11);
    int checked = 0;
    for (int i = 0; i < 60; ++i) {
        const Setup s = random_problem(random);
        if (s.choosing.box.shims.empty()) continue;
        ++checked;
        const ShimTable table(s.choosing.box, s);
        const auto plain = plain_shims(s);
        REQUIRE(table.pairs().size() == plain.size());
        for (const ShimPair& pair : table.pairs()) {
            const auto found = std::find_if(plain.begin(), plain.end(), [&](const ShimPair& p) {
                return p.left == pair.left && p.right == pair.right;
            });
            REQUIRE(found != plain.end());
            CHECK(found->shims == pair.shims);
            CHECK(found->changes == pair.changes);
            const auto shims = table.shims(pair);
            double left = 0;
            for (const double t : shims.left) left += t;
            CHECK(left == Approx(pair.left / 1000.0).margin(1e-9));
            CHECK(shims.left.size() + shims.right.size() == static_cast<std::size_t>(pair.shims));
        }
    }
    CHECK(checked > 30);
}

TEST_CASE("the search gives the answers of brute force, in the same order") {
    RandomSetups random(12);
    int with_answers = 0;
    for (int i = 0; i < 150; ++i) {
        const Setup today = random_problem(random);
        if (find_conflict(today)) continue;
        const std::vector<Plain> all = brute_force(today);
        ChooseOptions options;
        options.explain = false;
        options.felt = false;
        const Choice choice = choose(today, options);
        INFO("problem " << i << ", " << all.size() << " builds fit");
        REQUIRE(choice.best.size() == std::min<std::size_t>(10, all.size()));
        with_answers += choice.best.empty() ? 0 : 1;
        for (std::size_t k = 0; k < choice.best.size(); ++k) {
            CHECK(same_build(choice.best[k].setup, all[k].setup));
            CHECK(choice.best[k].points == static_cast<double>(all[k].cost.points) / point);
            CHECK(choice.best[k].shims == all[k].cost.shims);
            CHECK(choice.best[k].changes == all[k].cost.changes);
        }
    }
    CHECK(with_answers > 60);
}

TEST_CASE("the front is the best of brute force for ever fewer changes") {
    RandomSetups random(13);
    int checked = 0;
    for (int i = 0; i < 60; ++i) {
        const Setup today = random_problem(random);
        if (find_conflict(today)) continue;
        ChooseOptions options;
        options.explain = false;
        options.felt = false;
        const Choice choice = choose(today, options);
        if (choice.best.empty()) continue;
        ++checked;
        std::vector<Plain> all = brute_force(today);
        std::size_t at = 0;
        for (const Answer& answer : choice.front) {
            INFO("problem " << i << ", answer " << at++);
            REQUIRE(!all.empty());
            CHECK(same_build(answer.setup, all.front().setup));
            const int fewer = all.front().cost.changes;
            all.erase(std::remove_if(all.begin(), all.end(),
                                     [&](const Plain& p) { return p.cost.changes >= fewer; }),
                      all.end());
        }
        CHECK(all.empty());
    }
    CHECK(checked > 20);
}

TEST_CASE("gears that come too close are cut early, and no others") {
    RandomSetups random(18);
    int problems = 0;
    int too_close = 0;
    int fit = 0;
    for (int i = 0; i < 400 && problems < 12; ++i) {
        Setup today = random_problem(random);
        // Where motor and axle, spur and ground, are on either side of what they need.
        today.motor.can_diameter = 31 + random.whole(0, 5);
        today.needs.turning_ground = 0.5 + 0.5 * random.whole(0, 6);
        if (find_conflict(today)) continue;
        const std::vector<Plain> all = brute_force(today);
        constexpr std::size_t affordable = 120;
        if (all.empty() || all.size() > affordable) continue;
        ++problems;
        Meter meter(asset_library());
        Room room(meter);
        std::vector<Plain> measured;
        for (const Plain& plain : all)
            if (room.of(plain.setup)) measured.push_back(plain);
        too_close += static_cast<int>(all.size() - measured.size());
        fit += static_cast<int>(measured.size());
        Meter fresh(asset_library());
        ChooseOptions options;
        options.meter = &fresh;
        options.explain = false;
        options.felt = false;
        const Choice choice = choose(today, options);
        INFO("problem " << i << ", " << measured.size() << " of " << all.size() << " builds fit");
        REQUIRE(choice.best.size() == std::min<std::size_t>(10, measured.size()));
        for (std::size_t k = 0; k < choice.best.size(); ++k)
            CHECK(same_build(choice.best[k].setup, measured[k].setup));
    }
    CHECK(problems == 12);
    CHECK(too_close > 50);
    CHECK(fit > 50);
}

TEST_CASE("a goal on clearances: the answers of brute force that measures every build") {
    RandomSetups random(16);
    int with_answers = 0;
    int builds = 0;
    for (int i = 0; i < 200 && with_answers < 10; ++i) {
        Setup today = random_problem(random);
        today.choosing.goals.push_back(
            {"clearance", 0.2 + 0.1 * random.whole(0, 12), 0.05, random.whole(1, 6) * 0.5});
        if (random.whole(0, 1)) today.choosing.goals.push_back({"clearance", 0.3, 0, 2});
        if (find_conflict(today)) continue;
        std::vector<Plain> all = brute_force(today);
        constexpr std::size_t affordable = 100;  // about a millisecond each
        if (all.empty() || all.size() > affordable) continue;
        Meter meter(asset_library());
        Room room(meter);
        std::vector<Plain> measured;
        for (Plain& plain : all) {
            const auto margin = room.of(plain.setup);
            if (!margin) continue;
            plain.cost.points += clearance_points(plain.setup, *margin);
            measured.push_back(std::move(plain));
        }
        std::sort(measured.begin(), measured.end(),
                  [](const Plain& a, const Plain& b) { return a.cost < b.cost; });
        Meter fresh(asset_library());
        ChooseOptions options;
        options.meter = &fresh;
        options.explain = false;
        options.felt = false;
        const Choice choice = choose(today, options);
        INFO("problem " << i << ", " << measured.size() << " builds fit");
        REQUIRE(choice.best.size() == std::min<std::size_t>(10, measured.size()));
        for (std::size_t k = 0; k < choice.best.size(); ++k) {
            INFO("answer " << k);
            CHECK(same_build(choice.best[k].setup, measured[k].setup));
            CHECK(choice.best[k].points == static_cast<double>(measured[k].cost.points) / point);
        }
        with_answers += measured.empty() ? 0 : 1;
        builds += static_cast<int>(measured.size());
    }
    CHECK(with_answers == 10);
    CHECK(builds > 50);
}

namespace {

/// Thousands of builds, none of which has the clearances that are wanted.
Setup unreachable_clearance() {
    Setup s;
    s.choosing.box.shims = {{0.1, 6}, {0.2, 6}, {0.3, 4}, {0.5, 4}};
    s.choosing.box.holders = {{0, 2}, {0.5, 2}, {1.0, 2}};
    s.choosing.box.pinions = {31, 32, 33, 34, 35, 36};
    s.choosing.box.spurs = {74, 76, 78};
    s.choosing.box.blades = {0.1, 0.15, 0.2};
    s.choosing.goals = {{"ride.rear", 4, 0.3, 1}, {"clearance", 3, 0, 1}};
    return s;
}

}  // namespace

TEST_CASE("a goal on clearances that no build meets: the best of what was seen, and it says so") {
    const Setup today = unreachable_clearance();
    const auto chosen = [&](std::size_t compared) {
        Meter meter(asset_library());
        ChooseOptions options;
        options.meter = &meter;
        options.patience.compared = compared;
        return choose(today, options);
    };
    constexpr std::size_t few = 60;
    const Choice choice = chosen(few);
    CHECK(choice.gave_up);
    CHECK_FALSE(choice.stopped);
    CHECK(choice.looked_at == few);
    REQUIRE(choice.best.size() == 10);
    for (std::size_t k = 1; k < choice.best.size(); ++k)
        CHECK(choice.best[k - 1].points <= choice.best[k].points);
    for (const Answer& answer : choice.best) {
        // Each by itself is what it says, by measuring it anew.
        Meter meter(asset_library());
        Room room(meter);
        CHECK(answer.room.value() == Approx(room.of(answer.setup).value()).margin(1e-6));
        CHECK(answer.points > 0);
    }
    // What was not looked at is not claimed.
    CHECK(choice.front.size() == 1);
    CHECK(choice.trades.empty());
    REQUIRE(caveats(choice).size() == 1);
    CHECK(caveats(choice)[0].find("best of the 60 that it looked at") != std::string::npos);
    // The count decides, not the clock.
    const Choice again = chosen(few);
    REQUIRE(again.best.size() == choice.best.size());
    for (std::size_t k = 0; k < choice.best.size(); ++k)
        CHECK(same_build(again.best[k].setup, choice.best[k].setup));
    // Who looks at more finds nothing worse.
    CHECK(chosen(4 * few).best[0].points <= choice.best[0].points);
}

TEST_CASE("a search that begins stack after stack for nothing gives up, too") {
    Meter meter(asset_library());
    ChooseOptions options;
    options.meter = &meter;
    options.patience.begun = 20;  // fewer than one stack has pairs of holders
    const Choice choice = choose(unreachable_clearance(), options);
    CHECK(choice.gave_up);
    CHECK(choice.looked_at < 1000);
}

TEST_CASE("a trade is the best of brute force for its goal, and then for the others") {
    RandomSetups random(17);
    int trades = 0;
    for (int i = 0; i < 60; ++i) {
        const Setup today = random_problem(random);
        if (find_conflict(today)) continue;
        ChooseOptions options;
        options.explain = false;
        options.felt = false;
        const Choice choice = choose(today, options);
        if (choice.trades.empty()) continue;
        const std::vector<Plain> all = brute_force(today);
        for (const Trade& trade : choice.trades) {
            ++trades;
            std::size_t goal = 0;
            while (today.choosing.goals[goal].reading != trade.reading) ++goal;
            Setup alone = today;
            alone.choosing.goals = {today.choosing.goals[goal]};
            const auto points = [&](const Setup& build) {
                Setup one = build;
                one.choosing.goals = alone.choosing.goals;
                return goal_points(one, calculate(one));
            };
            std::int64_t least = std::numeric_limits<std::int64_t>::max();
            for (const Plain& plain : all) least = std::min(least, points(plain.setup));
            // To a hundred-thousandth of a point, far below what is shown.
            CHECK(points(trade.answer.setup) <= least + 10);
            // Of those that are as good or better the one that loses least elsewhere.
            for (const Plain& plain : all)
                if (points(plain.setup) <= points(trade.answer.setup))
                    CHECK(static_cast<double>(plain.cost.points) / point >=
                          trade.answer.points - 1e-9);
        }
    }
    CHECK(trades > 20);
}

TEST_CASE("an answer evaluated from scratch keeps its promises and the box's limits") {
    RandomSetups random(14);
    int answers = 0;
    for (int i = 0; i < 70; ++i) {
        const Setup today = random_problem(random);
        if (find_conflict(today)) continue;
        Meter meter(asset_library());
        ChooseOptions options;
        options.meter = &meter;
        options.most = 3;
        options.explain = false;
        const Choice choice = choose(today, options);
        for (const Answer& answer : choice.best) {
            ++answers;
            Meter fresh(asset_library());
            Asked asked;
            asked.meter = &fresh;
            const Evaluation e = evaluate(answer.setup, asked);
            for (const Finding& finding : e.findings) {
                INFO(finding.text);
                // What the axle of today suffers, too, is no reason against a build.
                const bool axle =
                    finding.code.rfind("shaft.", 0) == 0 || finding.code.rfind("bearing.", 0) == 0;
                CHECK((finding.level == Level::note || (axle && suffers(today, finding.code))));
            }
            for (const GoalState& goal : answer.goals)
                CHECK(e.reading(goal.reading)->value == goal.value);
            double least = clearance_horizon;
            for (const Clearance& c : e.clearances)
                if (c.need > 0) least = std::min(least, c.margin());
            CHECK(answer.room.value() == least);
            CHECK(in_box(answer.setup));
            std::vector<Change> changes;
            for (const Step& step : answer.steps)
                changes.insert(changes.end(), step.changes.begin(), step.changes.end());
            CHECK(same_build(with_changes(today, changes), answer.setup));
        }
    }
    CHECK(answers > 20);
}

TEST_CASE("a blade that binds in the heat of the day is no answer") {
    Setup today;
    // Aluminium grows by 23.4e-6 a degree, carbon along its fibres hardly: the seats move apart by
    // 62 mm x 30 K x 23e-6 = 0.04 mm, and the plates carry the bearings with them.
    today.axle.material = Material::carbon_wrapped;
    today.materials.floor = Material::aluminium_7075;
    today.temperature = {20, 20, 50};
    today.axial_float.low = 0.03;
    today.axial_float.blade = 0.05;
    REQUIRE(suffers(today, "float.binds_in_day"));
    today.choosing.box.blades = {0.05, 0.1, 0.15, 0.2};
    today.choosing.goals = {{"float.nominal", 0.03, 0, 1}};  // as small as can be
    const Choice choice = choose(today);
    REQUIRE(!choice.best.empty());
    // By trying each, the smallest first.
    for (const double blade : today.choosing.box.blades) {
        Setup build = today;
        build.axial_float.blade = blade;
        const bool binds =
            suffers(build, "float.binds_in_day") || suffers(build, "float.leaves_in_day");
        if (blade < choice.best[0].setup.axial_float.blade) CHECK(binds);
        if (blade == choice.best[0].setup.axial_float.blade) CHECK_FALSE(binds);
    }
    CHECK(choice.best[0].setup.axial_float.blade > 0.05);

    today.choosing.box.blades = {0.05};
    const Choice none = choose(today);
    CHECK(none.best.empty());
    REQUIRE(none.blame);
    REQUIRE(none.blame->obstacles.size() == 1);
    CHECK(none.blame->obstacles[0].limit == Limit::felt);
}

TEST_CASE("nothing fits: the limit to blame and the smallest addition") {
    Setup today;  // 4.0 mm of ride height with the 0.5 holders down
    today.choosing.box.holders = {{0.5, 2}};
    today.event.ride_low = 4.6;
    today.event.ride_high = 5.0;
    const Choice choice = choose(today);
    REQUIRE(choice.best.empty());
    REQUIRE(choice.blame);
    REQUIRE(choice.blame->obstacles.size() == 1);
    CHECK(choice.blame->obstacles[0].limit == Limit::ride);
    // The nearest keeps the holders down: 43 / 2 - (18 - 0.5) = 4.0 (the stance's equations).
    CHECK(choice.blame->obstacles[0].text ==
          "ride height: 4.00 mm at best, 0.60 mm less than the 4.60 mm allowed");
    REQUIRE(choice.blame->addition);
    CHECK(choice.blame->addition->text == "2 x 1.50 mm holder");  // 21.5 - 16.5 = 5.0
    CHECK(broken(choice.blame->addition->answer.setup,
                 calculate(choice.blame->addition->answer.setup))
              .empty());
}

namespace {

/// So many ways to make it narrow that the search for the narrowest gives up: hubs and wheels come
/// too close.
Setup too_wide() {
    Setup s;
    PartsBox& box = s.choosing.box;
    box.shims = {{0.05, 4}, {0.1, 4}, {0.15, 4}, {0.2, 4}, {0.25, 4}, {0.3, 4}};
    box.holders = {{0, 2}, {0.25, 2}, {0.5, 2}, {0.75, 2}};
    for (int z = 26; z < 34; ++z) box.pinions.push_back(z);
    for (int z = 70; z < 76; ++z) box.spurs.push_back(z);
    box.blades = {0.1, 0.15, 0.2};
    for (int i = 0; i < 3; ++i) {
        box.wheels.push_back({"w" + std::to_string(i), -4.5 + 0.25 * i, {}, 2});
        box.tyres.push_back({"t" + std::to_string(i), 43.0 - 0.2 * i, {}, {}, {}, "", 2});
    }
    s.choosing.goals = {{"ride.rear", 4, 0.3, 1}};
    s.event.width_max = 100;
    return s;
}

std::string sentences(const Blame& blame) {
    std::string text;
    for (const std::string& sentence : found_out(blame)) text += sentence + "\n";
    return text;
}

}  // namespace

TEST_CASE("a limit alone in the way is blamed where the nearest build is not found, too") {
    Meter meter(asset_library());
    ChooseOptions options;
    options.meter = &meter;
    const Choice choice = choose(too_wide(), options);
    REQUIRE(choice.blame);
    const Blame& blame = *choice.blame;
    REQUIRE(blame.obstacles.size() == 1);
    INFO(blame.obstacles[0].text << "\n" << sentences(blame));
    CHECK(blame.obstacles[0].limit == Limit::width);
    // That build keeps all else.
    Limits only_width;
    only_width.add(Limit::width);
    const Setup& build = blame.obstacles[0].nearest;
    CHECK(build.event.width_max == 100);
    CHECK(broken(build, calculate(build)) == only_width);
    Room room(meter);
    CHECK(room.of(build));
    CHECK(sentences(blame).find("No single limit") == std::string::npos);
}

TEST_CASE("what is in the way is not known where the looking for it is stopped") {
    const Setup today = too_wide();
    Meter meter(asset_library());
    ChooseOptions options;
    options.meter = &meter;
    options.watch.go_on = [](const std::string& doing) {
        return doing.find("in the way") == std::string::npos;
    };
    const Choice choice = choose(today, options);
    REQUIRE(choice.blame);
    CHECK(choice.blame->obstacles.empty());
    CHECK(sentences(*choice.blame).find("No single") == std::string::npos);
    CHECK(sentences(*choice.blame).find("Not found out: which limit is in the way.") !=
          std::string::npos);
    CHECK(sentences(*choice.blame).find("was not tried") != std::string::npos);
}

TEST_CASE("nothing is claimed of limits and parts that was not found out") {
    Blame blame;
    CHECK(sentences(blame).find("No single limit is to blame") == 0);
    CHECK(sentences(blame).find("No one or two parts alike would help") != std::string::npos);
    blame.unknown = {Limit::width, Limit::clearances};
    blame.additions = Blame::Additions::not_found_out;
    CHECK(sentences(blame).find("No single") == std::string::npos);
    CHECK(sentences(blame).find("whether overall width or clearances alone is in the way.") !=
          std::string::npos);
    CHECK(sentences(blame).find("No one or two") == std::string::npos);
    CHECK(sentences(blame).find("was not found out") != std::string::npos);
    blame = {};
    blame.gave_up = true;
    blame.additions = Blame::Additions::not_tried;
    CHECK(sentences(blame).find("No single") == std::string::npos);
    CHECK(sentences(blame).find("was not tried") != std::string::npos);
}

TEST_CASE("a search that is told to stop says so and stops") {
    RandomSetups random(15);
    const Setup today = random_problem(random);
    Meter meter(asset_library());
    ChooseOptions options;
    options.meter = &meter;
    options.watch.go_on = [](const std::string&) { return false; };
    const Choice choice = choose(today, options);
    CHECK(choice.best.empty());
    CHECK(choice.stopped);
}
