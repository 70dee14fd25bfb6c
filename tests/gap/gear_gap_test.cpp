#include <cmath>

#include <catch2/catch.hpp>

#include "core/units.hpp"
#include "gap_support.hpp"

namespace podwright {

namespace {

Gear gear(int teeth, double thinning) {
    return standard_gear(teeth, 0.5, radians(20), Dedendum::full_depth, thinning);
}

/// The pinion to the right of the spur at the distance, one of its teeth in the middle of a gap.
Gap meshed(const Gear& spur, const Gear& pinion, double distance, double turn = 0) {
    // A tooth stands on +z; the spur's gap and the pinion's tooth are turned to face along y.
    const double spur_angle = -pi / 2 - pi / spur.teeth + turn / spur.teeth;
    const double pinion_angle = pi / 2 - turn / pinion.teeth;
    return gap_of(ToothedRing{spur, 4, 5}, turned({1, 0, 0}, spur_angle), ToothedRing{pinion, 5, 3},
                  turned({1, 0, 0}, pinion_angle, {0.3, distance, 0}));
}

}  // namespace

TEST_CASE("a tooth in the middle of a gap has half the normal backlash on either side") {
    // Normal backlash = backlash on the working pitch circle times cos a_w; all along the line of
    // action (property of involutes). Handbook relations, derived.
    const Gear spur = gear(76, 0.02), pinion = gear(34, 0.02);
    for (const double beyond : {0.0, 0.03, 0.1}) {
        const double distance = 0.5 * (76 + 34) / 2 + beyond;
        const PairState pair = pair_at(pinion, spur, distance);
        const double expected = pair.backlash * std::cos(pair.pressure_angle) / 2;
        // Turning the pair leaves the flank gap as it is.
        for (const double turn : {0.0, 1.0, 2.5, 4.0})
            CHECK(meshed(spur, pinion, distance, turn).gap == Approx(expected).margin(1e-9));
    }
}

TEST_CASE("gears too close overlap") {
    const Gear spur = gear(76, 0), pinion = gear(34, 0);
    CHECK(meshed(spur, pinion, 27.5).gap == Approx(0).margin(1e-9));
    // As above, derived: half of the normal backlash, C0 cos a (inv a_w - inv a) with C0 27.5 and C
    // 27.48, is -0.0068216 on each flank.
    CHECK(meshed(spur, pinion, 27.48).gap == Approx(-0.0068216).margin(2e-4));
}

TEST_CASE("gears apart") {
    // Tooth to tooth on the line of centres: distance less both outside radii, derived.
    const Gear spur = gear(76, 0), pinion = gear(34, 0);
    const double outside = diameters(spur).outside / 2 + diameters(pinion).outside / 2;
    const Gap gap =
        gap_of(ToothedRing{spur, 4, 5}, turned({1, 0, 0}, -pi / 2), ToothedRing{pinion, 4, 3},
               turned({1, 0, 0}, pi / 2, {0, outside + 1, 0}));
    CHECK(gap.gap == Approx(1).margin(1e-9));
    // A pin in the bore; a pin beside a tooth's tip.
    CHECK(gap_of(ToothedRing{spur, 4, 5}, at(0, 0, 0), cylinder(2, 20), at(0, 0.3, 0.4)).gap ==
          Approx(0).margin(1e-9));
    const double tip = diameters(spur).outside / 2;
    CHECK(gap_of(ToothedRing{spur, 4, 5}, at(0, 0, 0), cylinder(1, 20), at(0, 0, tip + 1.5)).gap ==
          Approx(0.5).margin(1e-9));
}

}  // namespace podwright
