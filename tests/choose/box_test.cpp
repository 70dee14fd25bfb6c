#include <algorithm>
#include <catch2/catch.hpp>

#include "brute_force.hpp"
#include "core/conflicts.hpp"
#include "core/rules.hpp"
#include "evaluate/evaluate.hpp"

// A box is short of what is on the car where no build from it has no changes: held against the
// lists that choosing picks from. Boxes are invented.
using namespace podwright;

namespace {

/// The words after "short of"; empty where the box holds all.
std::string short_of(const Setup& setup) {
    for (const Finding& finding : evaluate(setup).findings)
        if (finding.code == "box.short") {
            const std::string start = "short of ";
            return finding.text.substr(finding.text.find(start) + start.size());
        }
    return {};
}

bool builds_as_today(const Setup& today) {
    const Lists lists(today);
    const auto& [left, right] = lists.rolling;
    bool rolls = false;
    for (std::size_t l = 0; l < left.size(); ++l)
        for (std::size_t r = 0; r < right.size(); ++r)
            rolls = rolls || (left[l].changes + right[r].changes == 0 && lists.can_roll(l, r));
    bool holds = false;
    for (std::size_t l = 0; l < lists.holders[0].size(); ++l)
        for (std::size_t r = 0; r < lists.holders[1].size(); ++r)
            holds = holds || (lists.holders[0][l].changes + lists.holders[1][r].changes == 0 &&
                              lists.can_hold(l, r));
    const auto any = [](const auto& list) {
        return std::any_of(list.begin(), list.end(), [](const auto& c) { return c.changes == 0; });
    };
    const auto& pairs = lists.shims.pairs();
    const auto same_shims = [&](const ShimPair& pair) {
        ShimTable::Shims shims = lists.shims.shims(pair);
        return pair.changes == 0 && shims.left == today.left.shims &&
               shims.right == today.right.shims;
    };
    return rolls && holds && any(lists.gears) && any(lists.floats) &&
           std::any_of(pairs.begin(), pairs.end(), same_shims);
}

}  // namespace

TEST_CASE("a box is short of what choosing could not build from it") {
    RandomSetups random(31);
    int is_short = 0;
    int holds = 0;
    for (int i = 0; i < 3000; ++i) {
        Setup today = random_problem(random);
        // Now and then what is on the car is in the box.
        PartsBox& box = today.choosing.box;
        if (random.whole(0, 1)) box.shims = {{0.3, 2}, {0.2, random.whole(1, 3)}};
        if (random.whole(0, 1)) box.holders = {{today.left.holder_step, random.whole(1, 2)}};
        if (random.whole(0, 1)) box.pinions = {today.gears.pinion};
        if (random.whole(0, 1)) box.spurs = {today.gears.spur};
        if (random.whole(0, 1)) box.wheels = {{"w", today.left.inset, {}, random.whole(1, 3)}};
        if (random.whole(0, 1))
            box.tyres = {{"t",
                          today.left.tyre.diameter,
                          {},
                          {},
                          {},
                          random.whole(0, 1) ? "w" : "",
                          random.whole(1, 3)}};
        if (random.whole(0, 1)) box.axles.clear();
        if (find_conflict(today)) continue;
        INFO("problem " << i << ": " << short_of(today));
        const bool as_today = builds_as_today(today);
        CHECK(short_of(today).empty() == as_today);
        (as_today ? holds : is_short) += 1;
    }
    CHECK(is_short > 300);
    CHECK(holds > 50);
}

TEST_CASE("a box that lacks tyre, blade or axle says which") {
    Setup setup;
    setup.choosing.box.tyres = {{"fresh", 42, {}, {}, {}, "", 2}};
    CHECK(short_of(setup) == "2 x 43.00 mm tyre.");
    setup.choosing.box.tyres = {{"one", 43, {}, {}, {}, "", 1}};
    CHECK(short_of(setup).rfind("1 x 43.00 mm tyre", 0) == 0);
    setup.choosing.box = {};
    setup.choosing.box.blades = {0.1};
    CHECK(short_of(setup) == "the 0.15 mm blade.");
    setup.choosing.box = {};
    setup.choosing.box.axles = {{"other", 6, 3, 0, {}}};
    CHECK(short_of(setup).find("axle, waist 6.00 mm, bore 4.00 mm.") != std::string::npos);
    setup.choosing.box = {};
    setup.choosing.box.wheels = {{"w", setup.left.inset, 40.0, 2}};
    CHECK(short_of(setup).find(" at the rim") != std::string::npos);
}
