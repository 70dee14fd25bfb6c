#include "core/tolerance.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "core/drive.hpp"
#include "core/stance.hpp"
#include "random_setup.hpp"

using namespace podwright;

namespace {

double covered(double z) { return (1 + std::erf(z / std::sqrt(2.0))) / 2; }

}  // namespace

TEST_CASE("worst case and root sum square") {
    // Shigley 9th ed. example 1-3, p. 20: a 1.750 ± .003, b .750 ± .001, c .120 ± .005, d .875 ±
    // .001 in: w = a - b - c - d = .005 ± .010. Root sum square .006 (computed).
    const StackUp w{"w",
                    1.750 - .750 - .120 - .875,
                    {{"a", 1, {.003, Spread::normal}},
                     {"b", -1, {.001, Spread::normal}},
                     {"c", -1, {.005, Spread::normal}},
                     {"d", -1, {.001, Spread::normal}}}};
    CHECK(w.nominal == Approx(.005).epsilon(1e-9));
    CHECK(worst_case(w) == Approx(.010).epsilon(1e-12));
    CHECK(root_sum_square(w) == Approx(.006).epsilon(1e-12));
    // Each tolerance three standard deviations: sigma .002, P(w >= 0) .9937903347, P(w >= .003)
    // .8413447461 (computed).
    CHECK(deviation_of(w) == Approx(.002).epsilon(1e-12));
    CHECK(covered(w.nominal / deviation_of(w)) == Approx(.9937903347).epsilon(1e-9));
    CHECK(covered((w.nominal - .003) / deviation_of(w)) == Approx(.8413447461).epsilon(1e-9));
    const auto shares = contributions(w);
    CHECK(shares[2] == Approx(25.0 / 36).epsilon(1e-12));
    CHECK(std::accumulate(shares.begin(), shares.end(), 0.0) == Approx(1).epsilon(1e-12));

    // ± .20, .10, .15 -> .45 and .2692582404; ten parts ± .1 -> 1.0 and .316227766 (computed).
    const StackUp three{"", 0, {{"", 1, {.2, {}}}, {"", 1, {.1, {}}}, {"", -1, {.15, {}}}}};
    CHECK(worst_case(three) == Approx(.45).epsilon(1e-12));
    CHECK(root_sum_square(three) == Approx(.2692582404).epsilon(1e-9));
    const StackUp ten{"", 0, std::vector<Contributor>(10, {"", 1, {.1, {}}})};
    CHECK(worst_case(ten) == Approx(1).epsilon(1e-12));
    CHECK(root_sum_square(ten) == Approx(.316227766).epsilon(1e-9));
    // 3X - 2Z with sx .1, sz .05: .316227766 (NIST e-Handbook 2.5.5.2).
    const StackUp weighted{
        "", 0, {{"X", 3, {.3, Spread::normal}}, {"Z", -2, {.15, Spread::normal}}}};
    CHECK(deviation_of(weighted) == Approx(.316227766).epsilon(1e-9));
}

TEST_CASE("standard deviations of the spreads") {
    // half/3 by convention; uniform half/sqrt 3, triangular half/sqrt 6 (any handbook).
    CHECK(deviation_of(Tolerance{3, Spread::normal}) == Approx(1));
    CHECK(deviation_of(Tolerance{std::sqrt(3.0), Spread::uniform}) == Approx(1));
    CHECK(deviation_of(Tolerance{std::sqrt(6.0), Spread::triangular}) == Approx(1));
}

TEST_CASE("confidence interval of a share") {
    // Wilson's interval for 10 of 50 at 95 %: 0.1124 to 0.3304 (Newcombe, Stat. Med. 17, 1998,
    // from memory; computed). Never outside 0..1, always around the share.
    const ShareInterval i = wilson(10, 50);
    CHECK(i.low == Approx(0.1124).margin(1e-4));
    CHECK(i.high == Approx(0.3304).margin(1e-4));
    CHECK(wilson(0, 1000).low == Approx(0).margin(1e-12));
    CHECK(wilson(0, 1000).high == Approx(3.8416 / 1003.8416).epsilon(1e-3));
    CHECK(wilson(1000, 1000).high == Approx(1));
    CHECK(wilson(3, 0).high == 1);
}

TEST_CASE("stack-ups follow the calculations") {
    RandomSetups random(555);
    for (int n = 0; n < 60; ++n) {
        const Setup s = random.next();
        const Stack stack = stack_of(s);
        const auto ups = stack_ups(s);
        REQUIRE(ups.size() == 5);
        CHECK(ups[0].nominal == stack.axial_float);
        CHECK(ups[1].nominal == stack.overall_width);
        CHECK(ups[2].nominal == stack.shift);
        CHECK(ups[3].nominal == stance_of(s, stack).ride);
        // By slopes and by hand the float is the same.
        const StackUp by_hand = float_stack_up(s, stack);
        CHECK(ups[0].contributors.size() == by_hand.contributors.size());
        CHECK(worst_case(ups[0]) == Approx(worst_case(by_hand)).epsilon(1e-9));
        CHECK(deviation_of(ups[0]) == Approx(deviation_of(by_hand)).epsilon(1e-9));
    }
    // By hand: width takes reach and half a tyre once on each side, inset too; a diameter counts a
    // quarter of itself in the ride height (half of it, at one of two wheels).
    const auto ups = stack_ups(Setup{});
    const auto slope = [&](std::size_t up, const std::string& name) {
        for (const Contributor& c : ups[up].contributors)
            if (c.name == name) return c.sensitivity;
        return 0.0;
    };
    CHECK(slope(1, "left reach") == Approx(1).epsilon(1e-9));
    CHECK(slope(1, "right inset") == Approx(-1).epsilon(1e-9));
    CHECK(slope(1, "left tyre width") == Approx(0.5).epsilon(1e-9));
    CHECK(slope(2, "right reach") == Approx(-0.5).epsilon(1e-9));
    CHECK(slope(3, "left tyre diameter") == Approx(0.25).epsilon(1e-6));
    CHECK(slope(3, "bore height") == Approx(-1).epsilon(1e-9));
    // Backlash: about 2 tan a for each mm of centre distance, and tooth for tooth.
    CHECK(ups[4].contributors[0].sensitivity == Approx(2 * std::tan(radians(20))).epsilon(0.05));
    CHECK(ups[4].contributors[1].sensitivity == Approx(-1).epsilon(0.01));
}
