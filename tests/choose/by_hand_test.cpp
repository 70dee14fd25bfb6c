#include <catch2/catch.hpp>

#include "choose/choose.hpp"

// Boxes so small that their best build is found by hand. All derived for the default car: tyres of
// 43 mm, bores at 18 mm, holders of 0.5 mm down, so that it rides at 21.5 - 17.5 = 4.0; shims of
// 0.3 and 0.2 on either side and a blade of 0.15 make it 2 x (31.9 + 0.5 + 0.075 + 28 + 4.5 + 20.5)
// = 170.95 wide.
using namespace podwright;

namespace {

Choice choose_plainly(const Setup& today) {
    ChooseOptions options;
    options.felt = false;
    return choose(today, options);
}

}  // namespace

TEST_CASE("points are the weight for each millimetre outside the band") {
    Setup s;
    CHECK(calculate(s).stance.ride == Approx(4.0));
    // 0.5 mm off, of which the band forgives 0.2: 3 x 0.3 points.
    s.choosing.goals = {{"ride.rear", 4.5, 0.2, 3}};
    CHECK(goal_points(s, calculate(s)) == 900'000);
    s.choosing.goals = {{"ride.rear", 3.5, 0.2, 3}};
    CHECK(goal_points(s, calculate(s)) == 900'000);
    s.choosing.goals = {{"ride.rear", 4.2, 0.2, 3}};
    CHECK(goal_points(s, calculate(s)) == 0);
    // Goals add up: 0.95 mm too wide at 2 points each.
    s.choosing.goals = {{"ride.rear", 4.5, 0.2, 3}, {"width.overall", 170, 0, 2}};
    CHECK(goal_points(s, calculate(s)) == 900'000 + 1'900'000);
}

TEST_CASE("the holder that brings the car down is found") {
    Setup today;
    today.choosing.box.holders = {{0.5, 2}, {1, 2}};
    today.choosing.goals = {{"ride.rear", 2.5, 0, 1}};
    today.event.ride_low = 2;
    // Up by 1 mm on both sides: 21.5 - 19 = 2.5. Both holders are other ones.
    Choice choice = choose_plainly(today);
    CHECK(choice.combinations == 4 * 4);
    REQUIRE(!choice.best.empty());
    for (const Side side : both_sides) {
        CHECK(choice.best[0].setup.side(side).holder_step == 1.0);
        CHECK(choice.best[0].setup.side(side).holder_way == Way::up);
    }
    CHECK(choice.best[0].points == Approx(0).margin(1e-6));
    CHECK(choice.best[0].changes == 2);

    // Only one of 1 mm: with it the car leans by 0.5/62 rad = 0.46°, which is too much, so both of
    // 0.5 mm go up: 3.0.
    today.choosing.box.holders = {{0.5, 2}, {1, 1}};
    choice = choose_plainly(today);
    REQUIRE(!choice.best.empty());
    for (const Side side : both_sides) {
        CHECK(choice.best[0].setup.side(side).holder_step == 0.5);
        CHECK(choice.best[0].setup.side(side).holder_way == Way::up);
    }
    CHECK(choice.best[0].points == Approx(0.5));

    // Where it may lean it does: 2.5 on one side, 3.0 on the other, 2.75 in the middle.
    today.event.roll_max = radians(0.5);
    choice = choose_plainly(today);
    REQUIRE(!choice.best.empty());
    CHECK(choice.best[0].setup.left.holder_step + choice.best[0].setup.right.holder_step == 1.5);
    CHECK(choice.best[0].points == Approx(0.25));
}

TEST_CASE("the fewest shims that make the width are found, and the fewest changes") {
    Setup today;
    today.choosing.box.shims = {{0.2, 2}, {0.3, 2}, {0.4, 2}};
    // 0.2 mm narrower: 0.8 mm of shims on both sides together.
    today.choosing.goals = {{"width.overall", 170.75, 0, 1}};
    const Choice choice = choose_plainly(today);
    REQUIRE(!choice.best.empty());
    // One of 0.4 on either side; both on one side would shift the wheels by 0.4 mm, more than the
    // 0.25 allowed. Four shims come off, two go on.
    CHECK(choice.best[0].setup.left.shims == std::vector<double>{0.4});
    CHECK(choice.best[0].setup.right.shims == std::vector<double>{0.4});
    CHECK(choice.best[0].points == Approx(0).margin(1e-6));
    CHECK(choice.best[0].shims == 2);
    CHECK(choice.best[0].changes == 6);
    // The same width with one change: a shim of 0.2 comes off. With none: today's, 0.2 too wide.
    REQUIRE(choice.front.size() == 3);
    CHECK(choice.front[1].shims == 3);
    CHECK(choice.front[1].changes == 1);
    CHECK(choice.front[1].points == Approx(0).margin(1e-6));
    CHECK(choice.front[2].changes == 0);
    CHECK(choice.front[2].points == Approx(0.2));
}

TEST_CASE("the gears next to the wanted rollout are found") {
    // pi x 43 x 35/78 = 60.616, 34/76 gives 60.434; 33/76, 34/78, 35/76 and 33/78 lie farther from
    // 61.
    Setup today;
    today.choosing.box.pinions = {33, 34, 35};
    today.choosing.box.spurs = {76, 78};
    today.choosing.goals = {{"gear.rollout", 61, 0, 1}};
    Choice choice = choose_plainly(today);
    REQUIRE(choice.best.size() == 6);
    CHECK(choice.best[0].setup.gears.pinion == 35);
    CHECK(choice.best[0].setup.gears.spur == 78);
    CHECK(choice.best[0].points == Approx(61 - pi * 43 * 35 / 78).margin(2e-6));
    CHECK(choice.best[1].setup.gears.pinion == 34);
    CHECK(choice.best[1].setup.gears.spur == 76);
    // With one gear changed nothing comes nearer than today.
    REQUIRE(choice.front.size() == 2);
    CHECK(choice.front[1].changes == 0);
    CHECK(choice.front[1].points == Approx(61 - pi * 43 * 34 / 76).margin(2e-6));
    // An event that allows 60.5 at most forbids the better pair, and 35/76.
    today.event.rollout_high = 60.5;
    choice = choose_plainly(today);
    REQUIRE(choice.best.size() == 4);
    CHECK(choice.best[0].setup.gears.pinion == 34);
    CHECK(choice.best[0].setup.gears.spur == 76);
}
