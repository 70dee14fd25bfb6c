#include "core/stack.hpp"

#include <catch2/catch.hpp>

#include "random_setup.hpp"

using namespace podwright;

namespace {
constexpr std::uint64_t seed = 20240317;
constexpr double tight = 1e-11;  // mm; sums of a few lengths below 1000 mm
}  // namespace

TEST_CASE("the stack adds up by hand") {
    // Derived: every number added by hand.
    Setup s;
    s.left.seat = 30;
    s.left.standout = 1;
    s.left.shims = {0.3, 0.5};
    s.left.reach = 25;
    s.left.inset = -4;
    s.left.tyre.width = 40;
    s.right.seat = 29;
    s.right.standout = 0.8;
    s.right.shims = {};
    s.right.reach = 27;
    s.right.inset = 2;
    s.right.tyre.width = 38;
    s.axial_float.blade = 0.2;
    const Stack by_blade = stack_of(s);
    CHECK(by_blade.axial_float == Approx(0.2).margin(tight));
    CHECK(by_blade.thrust_faces == Approx(31 + 0.8 + 29.8 + 0.2).margin(tight));
    CHECK(by_blade.left.mounting == Approx(31 + 0.8 + 0.1 + 25).margin(tight));
    CHECK(by_blade.left.wheel == Approx(60.9).margin(tight));
    CHECK(by_blade.left.outer == Approx(80.9).margin(tight));
    CHECK(by_blade.right.outer == Approx(29.8 + 0.1 + 27 - 2 + 19).margin(tight));
    CHECK(by_blade.overall_width == Approx(80.9 + 73.9).margin(tight));
    CHECK(by_blade.track == Approx(60.9 + 54.9).margin(tight));
    CHECK(by_blade.shift == Approx(3.5).margin(tight));

    s.axial_float.set_by = FloatBy::shoulder;
    s.axial_float.shoulder = 61.5;
    const Stack by_shoulder = stack_of(s);
    CHECK(by_shoulder.axial_float == Approx(-0.1).margin(tight));
    CHECK(by_shoulder.overall_width == Approx(154.8 - 0.3).margin(tight));
}

TEST_CASE("consequences of the stack hold for any setup") {
    RandomSetups random(seed);
    for (int n = 0; n < 300; ++n) {
        Setup s = random.next();
        s.axial_float.set_by = FloatBy::blade;
        const Stack before = stack_of(s);
        const double t = random.between(0.05, 1.5);

        // +t of shim on both sides is +2t of width, and moves nothing off centre.
        Setup shimmed = s;
        shimmed.left.shims.push_back(t);
        shimmed.right.shims.push_back(t);
        CHECK(stack_of(shimmed).overall_width - before.overall_width ==
              Approx(2 * t).margin(tight));
        CHECK(stack_of(shimmed).shift == Approx(before.shift).margin(tight));
        CHECK(stack_of(shimmed).axial_float == Approx(before.axial_float).margin(tight));

        // +i of inset on both sides is -2i.
        Setup inset = s;
        inset.left.inset += t;
        inset.right.inset += t;
        CHECK(stack_of(inset).overall_width - before.overall_width == Approx(-2 * t).margin(tight));

        // A wheel of larger inset needs as much more shim.
        inset.left.shims.push_back(t);
        inset.right.shims.push_back(t);
        CHECK(stack_of(inset).overall_width == Approx(before.overall_width).margin(tight));
        CHECK(stack_of(inset).track == Approx(before.track).margin(tight));

        // By shoulder the same shims come out of the float.
        Setup by_shoulder = s;
        by_shoulder.axial_float.set_by = FloatBy::shoulder;
        by_shoulder.axial_float.shoulder = before.thrust_faces;
        CHECK(stack_of(by_shoulder).axial_float == Approx(before.axial_float).margin(tight));
        by_shoulder.left.shims.push_back(t);
        CHECK(stack_of(by_shoulder).axial_float == Approx(before.axial_float - t).margin(tight));
        CHECK(stack_of(by_shoulder).overall_width == Approx(before.overall_width).margin(tight));

        // A shim moved from left to right takes twice its half from the shift.
        Setup moved = s;
        moved.left.shims.push_back(t);
        const double left_heavy = stack_of(moved).shift;
        moved.left.shims.pop_back();
        moved.right.shims.push_back(t);
        CHECK(left_heavy - stack_of(moved).shift == Approx(t).margin(tight));

        // Thrust faces lie A apart, and half the float off the shims on each side.
        CHECK(before.left.thrust + before.right.thrust ==
              Approx(before.thrust_faces).margin(tight));
        CHECK(before.left.thrust - before.left.bearing - before.left.shims ==
              Approx(before.axial_float / 2).margin(tight));
    }
}

TEST_CASE("track follows the face-to-face distance and the insets") {
    // UN Regulation 124, par. 2.6: positive inset lies inboard of the attachment face; rim-centre
    // track = face to face - 2 inset: 200 and +5 -> 190, -5 -> 210, 0 -> 200.
    for (const auto& [inset, track] : {std::pair{5.0, 190.0}, {-5.0, 210.0}, {0.0, 200.0}}) {
        Setup s;
        for (Side side : both_sides) s.side(side).inset = inset;
        const Stack now = stack_of(s);
        const double out = (200 - now.left.mounting - now.right.mounting) / 2;
        for (Side side : both_sides) s.side(side).reach += out;
        CHECK(stack_of(s).track == Approx(track).margin(tight));
    }
}
