#include "core/stance.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "random_setup.hpp"

using namespace podwright;

namespace {

constexpr std::uint64_t seed = 5150;
constexpr double tight = 1e-10;

Stance stance(const Setup& s) { return stance_of(s, stack_of(s)); }

void raise(Setup& s, double by) {
    for (Side side : both_sides) {
        AxleSide& a = s.side(side);
        const double now = a.holder_way == Way::up ? a.holder_step : -a.holder_step;
        a.holder_step = std::abs(now + by);
        a.holder_way = now + by >= 0 ? Way::up : Way::down;
    }
}

}  // namespace

TEST_CASE("consequences of the stance hold for any setup") {
    RandomSetups random(seed);
    for (int n = 0; n < 300; ++n) {
        Setup s = random.next();
        const Stance before = stance(s);

        // Holders of step e turned from up to down: +2e of ride height.
        Setup turned = s;
        const double e = random.between(0, 1.5);
        for (Side side : both_sides) {
            turned.side(side).holder_step = e;
            turned.side(side).holder_way = Way::up;
        }
        const double up = stance(turned).ride;
        for (Side side : both_sides) turned.side(side).holder_way = Way::down;
        CHECK(stance(turned).ride - up == Approx(2 * e).margin(tight));

        // A tyre that loses d of diameter costs d/2, whatever the side it is on.
        Setup worn = s;
        for (Side side : both_sides) worn.side(side).tyre.diameter -= 1.3;
        CHECK(stance(worn).ride - before.ride == Approx(-0.65).margin(tight));

        // Raising the axle in the pod lowers the car by as much and leaves roll alone.
        Setup raised = s;
        raise(raised, 0.4);
        CHECK(stance(raised).ride - before.ride == Approx(-0.4).margin(tight));
        CHECK(stance(raised).roll == Approx(before.roll).margin(1e-12));

        // The seats' ride heights are those of the underside plane, and the axle's line meets both
        // bores.
        CHECK(before.ride_at(0, s.left.seat) == Approx(before.left.ride).margin(tight));
        CHECK(before.ride_at(0, -s.right.seat) == Approx(before.right.ride).margin(tight));
        CHECK(before.axle_z(s.left.seat) == Approx(before.left.bore).margin(tight));
        CHECK(before.axle_z(-s.right.seat) == Approx(before.right.bore).margin(tight));

        // Left and right exchanged: ride stays, roll and tilt change sign.
        Setup mirrored = s;
        std::swap(mirrored.left, mirrored.right);
        const Stance other = stance(mirrored);
        CHECK(other.ride == Approx(before.ride).margin(tight));
        CHECK(other.roll == Approx(-before.roll).margin(1e-12));
        CHECK(other.axle_tilt == Approx(-before.axle_tilt).margin(1e-12));
        CHECK(other.pod_tilt == Approx(-before.pod_tilt).margin(1e-12));
    }
}

TEST_CASE("signs of roll and rake are those of ISO 8855") {
    // ISO 8855: X forward, Y left, Z up; positive roll lifts the left side, positive pitch drops
    // the nose.
    Setup s;
    s.left.tyre.diameter += 1;
    CHECK(stance(s).roll > 0);
    CHECK(stance(s).axle_tilt > 0);
    s = Setup{};
    s.left.holder_way = Way::down;
    s.right.holder_way = Way::up;
    CHECK(stance(s).roll > 0);
    CHECK(stance(s).pod_tilt < 0);
    s = Setup{};
    s.car.front_ride = stance(s).ride - 1;
    CHECK(stance(s).rake > 0);
    CHECK(stance(s).rake == Approx(std::atan(1 / s.car.wheelbase)).epsilon(1e-12));
    CHECK(stance(s).ride_at(s.car.wheelbase, 0) == Approx(s.car.front_ride).margin(1e-9));
}

TEST_CASE("a tyre sags by load over stiffness") {
    // Hooke's law; derived: 6 N on 20 N/mm is 0.3 mm.
    Setup s;
    const double before = stance(s).ride;
    for (Side side : both_sides) {
        s.side(side).tyre.load = 6;
        s.side(side).tyre.stiffness = 20;
    }
    CHECK(stance(s).left.sag == Approx(0.3).epsilon(1e-12));
    CHECK(before - stance(s).ride == Approx(0.3).margin(1e-12));
}

TEST_CASE("unlike tyres by hand") {
    // Derived: radii 22 and 21 at +-65 give 21.5 + y/130; seats at +-31 with bores at 18.
    Setup s;
    for (Side side : both_sides) {
        AxleSide& a = s.side(side);
        a.holder_step = 0;
        a.reach += 65 - stack_of(s).side(side).wheel;
    }
    s.left.tyre.diameter = 44;
    s.right.tyre.diameter = 42;
    const Stance now = stance(s);
    CHECK(now.left.ride == Approx(21.5 + 31.0 / 130 - 18).epsilon(1e-12));
    CHECK(now.right.ride == Approx(21.5 - 31.0 / 130 - 18).epsilon(1e-12));
    CHECK(now.ride == Approx(3.5).epsilon(1e-12));
    CHECK(now.roll == Approx(std::atan(1.0 / 130)).epsilon(1e-12));
    CHECK(now.axle_height == Approx(21.5).epsilon(1e-12));
}
