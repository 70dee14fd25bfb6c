#include "core/tolerance.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "core/drive.hpp"
#include "core/stance.hpp"
#include "core/tolerance_study.hpp"
#include "evaluate/evaluate.hpp"
#include "random_setup.hpp"

using namespace podwright;

namespace {

double covered(double z) { return (1 + std::erf(z / std::sqrt(2.0))) / 2; }

}  // namespace

TEST_CASE("worst case and root sum square") {
    // Shigley 9th ed. example 1-3, p. 20: a 1.750 ± .003, b .750 ± .001, c .120 ± .005, d .875 ±
    // .001 in: w = a - b - c - d = .005 ± .010. Root sum square .006 (derived: 9 + 1 + 25 + 1 =
    // 36).
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
    // .8413447461 (derived: the normal distribution at 2.5 and at 1).
    CHECK(deviation_of(w) == Approx(.002).epsilon(1e-12));
    CHECK(covered(w.nominal / deviation_of(w)) == Approx(.9937903347).epsilon(1e-9));
    CHECK(covered((w.nominal - .003) / deviation_of(w)) == Approx(.8413447461).epsilon(1e-9));
    const auto shares = contributions(w);
    CHECK(shares[2] == Approx(25.0 / 36).epsilon(1e-12));
    CHECK(std::accumulate(shares.begin(), shares.end(), 0.0) == Approx(1).epsilon(1e-12));

    // Derived: ± .20, .10, .15 -> .45 and sqrt(.0725); ten parts ± .1 -> 1.0 and .1 sqrt 10.
    const StackUp three{"", 0, {{"", 1, {.2, {}}}, {"", 1, {.1, {}}}, {"", -1, {.15, {}}}}};
    CHECK(worst_case(three) == Approx(.45).epsilon(1e-12));
    CHECK(root_sum_square(three) == Approx(.2692582404).epsilon(1e-9));
    const StackUp ten{"", 0, std::vector<Contributor>(10, {"", 1, {.1, {}}})};
    CHECK(worst_case(ten) == Approx(1).epsilon(1e-12));
    CHECK(root_sum_square(ten) == Approx(.316227766).epsilon(1e-9));
    // 3X - 2Z with sx .1, sz .05 by the formula of the NIST/SEMATECH e-Handbook, 2.5.5.2
    // (itl.nist.gov/div898/handbook/mpc/section5/mpc552.htm): sqrt(.3² + .1²), derived.
    const StackUp weighted{
        "", 0, {{"X", 3, {.3, Spread::normal}}, {"Z", -2, {.15, Spread::normal}}}};
    CHECK(deviation_of(weighted) == Approx(.316227766).epsilon(1e-9));
}

TEST_CASE("standard deviations of the spreads") {
    // half/3 by convention; derived: variances of the uniform and the triangular distribution,
    // half²/3 and half²/6.
    CHECK(deviation_of(Tolerance{3, Spread::normal}) == Approx(1));
    CHECK(deviation_of(Tolerance{std::sqrt(3.0), Spread::uniform}) == Approx(1));
    CHECK(deviation_of(Tolerance{std::sqrt(6.0), Spread::triangular}) == Approx(1));
}

TEST_CASE("confidence interval of a share") {
    // Wilson's interval for 10 of 50 at 95 %: 0.1124 to 0.3304 (Newcombe, Stat. Med. 17, 1998,
    // from memory; derived by its formula). Never outside 0..1, always around the share.
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
    // Backlash, derived: j = 2 C (inv a_w - inv a) and cos a_w = C0 cos a/C give dj/dC = 2 tan a_w
    // + j/C; a tooth is wider on the working circle by C/C0.
    const Setup s;
    const Stack stack = stack_of(s);
    const PairState mesh = drive_of(s, stack, stance_of(s, stack)).mesh;
    CHECK(ups[4].contributors[0].sensitivity ==
          Approx(2 * std::tan(mesh.pressure_angle) + mesh.backlash / mesh.distance).epsilon(1e-6));
    for (const std::size_t tooth : {1, 2})
        CHECK(ups[4].contributors[tooth].sensitivity ==
              Approx(-mesh.distance / mesh.standard_distance).epsilon(1e-6));
}

TEST_CASE("builds outside their windows are counted, of every study") {
    // Derived: one or two normal lengths stray at a time, and each window ends one standard
    // deviation from the nominal. Outside lie 2 (1 - Phi(1)) = 31.73 %; of the width, which has no
    // low limit, 15.87 %. Of 50 000 builds 0.2 % is a standard deviation.
    const Tolerance none{0, Spread::normal}, third{0.03, Spread::normal};
    constexpr double sigma = 0.01;
    Setup s;
    s.axial_float.set_by = FloatBy::shoulder;
    Tolerances& t = s.tolerances;
    t.seat = t.standout = t.shim = t.blade = t.inset = t.tyre_width = none;
    t.tyre_diameter = t.holder_step = t.tooth = none;
    t.shoulder = t.reach = t.bore_height = t.mesh = third;
    // Float: the shoulder. 64.95 - 2 x (31 + 0.9 + 0.5) = 0.15.
    s.axial_float.low = 0.15 - sigma;
    s.axial_float.high = 0.15 + sigma;
    // Half of the shoulder and one reach on either side: width sqrt(1 + 2) sigma, shift half of the
    // difference of the reaches, sigma/sqrt 2.
    s.event.width_max = 170.95 + std::sqrt(3.0) * sigma;
    s.event.shift_max = sigma / std::sqrt(2.0);
    s.event.ride_low = 4 - sigma;
    s.event.ride_high = 4 + sigma;
    const Stack stack = stack_of(s);
    const PairState mesh = drive_of(s, stack, stance_of(s, stack)).mesh;
    const double of_backlash =
        (2 * std::tan(mesh.pressure_angle) + mesh.backlash / mesh.distance) * sigma;
    s.gears.backlash_low = s.gears.backlash - of_backlash;
    s.gears.backlash_high = s.gears.backlash + of_backlash;

    Asked asked;
    asked.builds = {50'000, 50'000};
    const Evaluation e = evaluate(s, asked);
    struct Row {
        std::string title;
        std::optional<double> low, high;
        double outside;  // %
    };
    const std::vector<Row> rows = {
        {"float", s.axial_float.low, s.axial_float.high, 31.73},
        {"overall width", {}, s.event.width_max, 15.87},
        {"shift", -s.event.shift_max, s.event.shift_max, 31.73},
        {"ride height", s.event.ride_low, s.event.ride_high, 31.73},
        {"backlash", s.gears.backlash_low, s.gears.backlash_high, 31.73}};
    REQUIRE(e.feel.tolerances.size() == rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        INFO(rows[i].title);
        const ToleranceStudy& study = e.feel.tolerances[i];
        CHECK(study.stack_up.title == rows[i].title);
        CHECK(study.low == rows[i].low);
        CHECK(study.high == rows[i].high);
        CHECK(100 * study.sample.outside_share() == Approx(rows[i].outside).margin(1.0));
        CHECK(study.sample.builds >= 50'000);
    }
    CHECK(e.reading("float.outside_share")->value == Approx(31.73).margin(1.0));
}
