#include "core/shaft.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/units.hpp"
#include "random_setup.hpp"

using namespace podwright;

namespace {

constexpr double stiff_in_shear = 1e12;  // makes a Timoshenko beam a slender one
const ShaftMaterial slender_steel{207000, stiff_in_shear, 7.85e-6, 600, 600 / std::sqrt(3.0)};

/// Plain shaft, bearings at 0 and `span`, from `-left` to `span + right`.
Shaft plain(double outside, double inside, double span, double before, double beyond,
            const ShaftMaterial& material) {
    return {{{-before, span + beyond, outside, inside}}, material, 0, span};
}

ShaftLoad down(double y, double force) { return {y, 0, -force, 0, 0, 0}; }

}  // namespace

TEST_CASE("sections of solid and hollow round bars") {
    // Derived from I = pi (D^4 - d^4)/64, J = 2 I, A = pi (D^2 - d^2)/4.
    struct Row {
        double outside, inside, I, J, A;
    };
    for (const Row& row : {Row{6, 0, 63.61725124, 127.2345025, 28.27433388},
                           Row{6.35, 0, 79.81137627, 159.6227525, 31.66921744},
                           Row{6.35, 3.175, 74.82316526, 149.6463305, 23.75191308},
                           Row{8, 6, 137.4446786, 274.8893572, 21.99114858},
                           Row{10, 8, 289.8119223, 579.6238446, 28.27433388}}) {
        const ShaftSection s{0, 1, row.outside, row.inside};
        CHECK(s.second_moment() == Approx(row.I).epsilon(1e-9));
        CHECK(s.polar_moment() == Approx(row.J).epsilon(1e-9));
        CHECK(s.area() == Approx(row.A).epsilon(1e-9));
    }
}

TEST_CASE("overhang with a load at its tip") {
    // tquigley.com/T310.htm and becalc.com, overhang with end load: y = F a²(L+a)/(3EI),
    // thA = F a L/(6EI), thB = F a L/(3EI), thC = F a(2L+3a)/(6EI), uplift F a L²/(9 sqrt3 EI) at
    // L/sqrt3 (mechengcalculations.com/jmm/beam12.html).
    struct Row {
        double outside, F, L, a, tip, thA, thB, thC, uplift, at;
    };
    for (const Row& r : {Row{6, 100, 60, 12, 0.0262439069, 0.000911246767, 0.00182249353,
                             0.00236924159, 0.0210443426, 34.6410162},
                         Row{6.35, 20, 60, 15, 0.00680953376, 0.000181587567, 0.000363175134,
                             0.000499365809, 0.00419358522, 34.6410162}}) {
        const ShaftModel model(plain(r.outside, 0, r.L, 0, r.a, slender_steel), {r.L + r.a});
        const ShaftState state = model.solve({down(r.L + r.a, r.F)});
        CHECK(-state.points.back().z == Approx(r.tip).epsilon(1e-8));
        CHECK(state.points.front().slope_z == Approx(r.thA).epsilon(1e-8));
        CHECK(-model.at(state, r.L).slope_z == Approx(r.thB).epsilon(1e-8));
        CHECK(-state.points.back().slope_z == Approx(r.thC).epsilon(1e-8));
        CHECK(model.at(state, r.at).z == Approx(r.uplift).epsilon(1e-7));
        CHECK(model.at(state, r.at).slope_z == Approx(0).margin(1e-9));
        CHECK(state.reaction_right[1] == Approx(-r.F * r.a / r.L).epsilon(1e-9));
        CHECK(state.reaction_left[1] == Approx(r.F * (r.L + r.a) / r.L).epsilon(1e-9));
        CHECK(state.worst.y == Approx(r.L));
        CHECK(state.worst.bending ==
              Approx(32 * r.F * r.a / (pi * std::pow(r.outside, 3))).epsilon(1e-9));
    }
}

TEST_CASE("two equal overhung loads") {
    // Superposition of the case above: y = F a²(3L+2a)/(6EI), uplift F a L²/(8EI),
    // thB = F a L/(2EI), th_tip = F a(L+a)/(2EI); d 6, F 100, L 60, a 12.
    const ShaftModel model(plain(6, 0, 60, 12, 12, slender_steel), {-12, 30, 72});
    const ShaftState state = model.solve({down(-12, 100), down(72, 100)});
    CHECK(-state.points.back().z == Approx(0.0371788681).epsilon(1e-8));
    CHECK(model.at(state, 30).z == Approx(0.0410061045).epsilon(1e-8));
    CHECK(-model.at(state, 60).slope_z == Approx(0.0027337403).epsilon(1e-8));
    CHECK(-state.points.back().slope_z == Approx(0.00328048836).epsilon(1e-8));
}

TEST_CASE("a hollow overhung shaft with its shear") {
    // OD 6.35, ID 4, bearings 60 apart, overhangs of 45, 30 N at each end, E 210000. Closed form,
    // derived: F a²(3L+2a)/(6EI) = 0.19359 mm; shear by Cowper's coefficient (1966, from memory)
    // adds F a/(kappa G A): 0.19511. CalculiX, solid elements (see calculix_test): 0.19525.
    const double G = 210000 / 2.6;
    const auto end = [](double E, double G_) {
        const ShaftMaterial m{E, G_, 7.85e-6, 600, 346};
        const ShaftModel model(plain(6.35, 4, 60, 45, 45, m), {-45, 105});
        return -model.solve({down(-45, 30), down(105, 30)}).points.back().z;
    };
    CHECK(end(210000, stiff_in_shear) == Approx(0.19359).margin(5e-6));
    CHECK(end(210000, G) == Approx(0.19511).margin(1e-5));
    CHECK(end(210000, G) == Approx(0.19525).epsilon(0.001));
}

TEST_CASE("shear coefficient") {
    // Cowper (J. Appl. Mech. 33, 1966, from memory): solid circle 6(1+nu)/(7+6nu), thin tube
    // 2(1+nu)/(4+3nu); nu 0.3.
    const ShaftMaterial m{207000, 207000 / 2.6, 7.85e-6, 600, 346};
    CHECK(shear_coefficient({0, 1, 10, 0}, m) == Approx(7.8 / 8.8).epsilon(1e-9));
    CHECK(shear_coefficient({0, 1, 10, 9.9999}, m) == Approx(2.6 / 4.9).epsilon(1e-4));
}

TEST_CASE("torsion of bars and tubes") {
    // th = T L / (G J): d 6.35, T 5 N·m, L 100, G 79300 -> 0.03950044802 rad; 8/6 tube
    // 0.02293712024 (derived).
    const ShaftMaterial m{207000, 79300, 7.85e-6, 600, 346};
    for (const auto& [outside, inside, angle] :
         {std::tuple{6.35, 0.0, 0.03950044802}, {8.0, 6.0, 0.02293712024}}) {
        const ShaftModel model(plain(outside, inside, 40, 30, 30, m), {-30, 70});
        ShaftLoad twist{70, 0, 0, 0, 0, 5000}, hold{-30, 0, 0, 0, 0, -5000};
        const ShaftState state = model.solve({twist, hold});
        CHECK(model.twist(state, -30, 70) == Approx(angle).epsilon(1e-9));
        CHECK(model.twist(state, 70, -30) == Approx(-angle).epsilon(1e-9));
    }
}

TEST_CASE("bending and torsion together") {
    // sigma 32M/(pi d³), tau 16T/(pi d³), von Mises; d 6, M 1200, T 2000: 56.58842421, 47.15702018,
    // 99.36600732 (derived). Shafts of 40 mm, M 200 pi N·m: 100 N/mm²; T 481.2553549 N·m brings
    // von Mises to 120 (studylibfr.com/doc/10133415, problem 9.31; the torque is derived).
    const ShaftModel small(plain(6, 0, 60, 12, 12, slender_steel), {-12, 72});
    const ShaftState state = small.solve({{72, 100, 0, 0, 0, 2000}, {-12, 0, 0, 0, 0, -2000}});
    CHECK(state.worst.bending == Approx(56.58842421).epsilon(1e-9));
    CHECK(state.worst.shear == Approx(47.15702018).epsilon(1e-9));
    CHECK(state.worst.equivalent == Approx(99.36600732).epsilon(1e-9));
    CHECK(state.worst.safety == Approx(600 / 99.36600732).epsilon(1e-9));

    const ShaftModel large(plain(40, 0, 600, 100, 100, slender_steel), {-100, 700});
    const ShaftState loaded =
        large.solve({{700, 0, 2000 * pi, 0, 0, 481255.3549}, {-100, 0, 0, 0, 0, -481255.3549}});
    CHECK(loaded.worst.bending == Approx(100).epsilon(1e-9));
    CHECK(loaded.worst.equivalent == Approx(120).epsilon(1e-9));
}

TEST_CASE("bending frequency") {
    // Bare simply supported shaft, w = (pi/l)² sqrt(E I/(rho A)): d 25, l 600, E 207e9, weight
    // 76.0 kN/m³, g 9.81 -> 885.707133 rad/s (derived; problem at coursehero putvuks).
    const ShaftMaterial m{207000, stiff_in_shear, 76.0e-6 / 9.81, 600, 346};
    const ShaftModel bare(plain(25, 0, 600, 0, 0, m), {100, 200, 300, 400, 500});
    CHECK(bare.bending_frequency({}) == Approx(885.707133).epsilon(1e-4));
    // A disc of 10 kg at mid-span, d 30, l 500, E 2.1e11, shaft without mass -> 566.2428333 rad/s
    // (derived; problem at byjus.com).
    const ShaftMaterial light{210000, stiff_in_shear, 0, 600, 346};
    const ShaftModel disc(plain(30, 0, 500, 0, 0, light), {250});
    CHECK(disc.bending_frequency({{250, 10, 0, 0}}) == Approx(566.2428333).epsilon(1e-8));
    // Two masses (Shigley 9th ed. example 7-5, exact two-mass answer 124.6792414 rad/s, derived),
    // in lbf, in, s: 1 lbf = 4.4482216 N, g 386.1 in/s².
    const double lbf = 4.4482216152605, inch = 25.4;
    const double g = 386.1 * inch;  // mm/s²
    const ShaftMaterial psi{30e6 * lbf / (inch * inch), stiff_in_shear, 0, 600, 346};
    const ShaftModel two(plain(inch, 0, 31 * inch, 0, 0, psi), {7 * inch, 20 * inch});
    const double kg_per_lbf = lbf / g * 1000;
    // I = pi/64 = 0.0490874 in⁴ against the 0.04909 that the book rounds to.
    CHECK(two.bending_frequency(
              {{7 * inch, 35 * kg_per_lbf, 0, 0}, {20 * inch, 55 * kg_per_lbf, 0, 0}}) ==
          Approx(124.6792414).epsilon(1e-4));
    // A rider whose centre lies e beyond its station is held on a rigid lever. Derived: by the
    // overhang's deflections, and those under a couple M at its tip, M a(2L+3a)/(6EI) and slope
    // M (L+3a)/(3EI), it moves by c = a²(L+a)/(3EI) + 2 e a(2L+3a)/(6EI) + e²(L+3a)/(3EI) for each
    // newton, and w = sqrt(1/(m c)). L 500, a 100, e -20, d 30, 5 kg -> 1160.4896 rad/s.
    const ShaftModel stub(plain(30, 0, 500, 100, 100, light), {-100, 600, 580});
    CHECK(stub.bending_frequency({{600, 5, -20, 0}}) == Approx(1160.4896).epsilon(1e-6));
    // Two equal overhung masses, as on the car: both go up together, and each bends the shaft as in
    // "two equal overhung loads": 3.71788681e-4 mm for each newton. d 6, L 60, a 12, 0.02 kg each
    // -> sqrt(1000/(0.02 x 3.71788681e-4)) = 11596.767 rad/s (derived).
    const ShaftMaterial massless{207000, stiff_in_shear, 0, 600, 346};
    const ShaftModel car(plain(6, 0, 60, 12, 12, massless), {-12, 72});
    CHECK(car.bending_frequency({{-12, 0.02, 0, 0}, {72, 0.02, 0, 0}}) ==
          Approx(11596.767).epsilon(1e-6));
}

TEST_CASE("torsional frequencies") {
    // Two discs: f = sqrt(k (J1+J2)/(J1 J2))/2pi (virtual-labs.github.io exp-torsional-system).
    // k 1000 N·m/rad, J 0.01/0.02 kg·m² -> 61.64044441 Hz; 0.01/0.01 -> 71.17625434; d 6.35, l 100,
    // G 79.3e9, J 2e-6/5e-6 -> 1498.142564 Hz. A third disc far stiffer tied is one with the
    // second.
    struct Row {
        double k, a, b, hertz;
    };
    for (const Row& r : {Row{1e6, 1e4, 2e4, 61.64044441}, Row{1e6, 1e4, 1e4, 71.17625434},
                         Row{126580.8428, 2, 5, 1498.142564}}) {
        const auto w = torsional_frequencies({r.a, r.b / 2, r.b / 2}, r.k, r.k * 1e9);
        CHECK(w[0] / (2 * pi) == Approx(r.hertz).epsilon(1e-8));
        CHECK(w[1] > w[0]);
    }
    // Symmetric chain: sqrt(k/J) and sqrt(k/J + 2k/Jm) (derived).
    const auto w = torsional_frequencies({2, 3, 2}, 5000, 5000);
    CHECK(w[0] == Approx(std::sqrt(1000 * 5000 / 2.0)).epsilon(1e-12));
    CHECK(w[1] == Approx(std::sqrt(1000 * (5000 / 2.0 + 2 * 5000 / 3.0))).epsilon(1e-12));
}

TEST_CASE("superposition, reciprocity and balance hold for any shaft") {
    RandomSetups random(4711);
    for (int n = 0; n < 100; ++n) {
        Shaft shaft;
        shaft.material = {random.between(3e4, 2e5), random.between(3e3, 8e4), 7e-6, 500, 300};
        double y = random.between(-90, -60);
        for (int i = 0; i < 4; ++i) {
            const double to = y + random.between(15, 45), d = random.between(4, 10);
            shaft.sections.push_back({y, to, d, random.between(0, 0.9) * d});
            y = to;
        }
        const double low = shaft.sections.front().from;
        shaft.bearing_right = low + (y - low) * random.between(0.1, 0.4);
        shaft.bearing_left = low + (y - low) * random.between(0.6, 0.9);
        const double a = random.between(low, y), b = random.between(low, y);
        const ShaftModel model(shaft, {a, b});
        const ShaftLoad p{a,
                          random.between(-9, 9),
                          random.between(-9, 9),
                          random.between(-99, 99),
                          random.between(-99, 99),
                          0};
        const ShaftLoad q{b,
                          random.between(-9, 9),
                          random.between(-9, 9),
                          random.between(-99, 99),
                          random.between(-99, 99),
                          0};
        const ShaftState by_p = model.solve({p}), by_q = model.solve({q});
        const ShaftState both = model.solve({p, q});
        double scale = 0;
        for (std::size_t i = 0; i < both.points.size(); ++i) {
            const double sum = by_p.points[i].z + by_q.points[i].z;
            scale = std::max({scale, std::abs(by_p.points[i].z), std::abs(by_q.points[i].z)});
            CHECK(both.points[i].z == Approx(sum).margin(1e-9 * (1 + scale)));
        }
        // Maxwell and Betti: the work of p on the way of q is that of q on the way of p.
        const auto work = [](const ShaftLoad& f, const ShaftPoint& w) {
            return f.force_x * w.x + f.force_z * w.z + f.couple_x * w.slope_x +
                   f.couple_z * w.slope_z;
        };
        CHECK(work(p, model.at(by_q, a)) ==
              Approx(work(q, model.at(by_p, b))).epsilon(1e-7).margin(1e-9));
        // Forces and moments in balance.
        const double forces =
            both.reaction_left[1] + both.reaction_right[1] + p.force_z + q.force_z;
        const double moments = both.reaction_left[1] * shaft.bearing_left +
                               both.reaction_right[1] * shaft.bearing_right + p.force_z * a +
                               q.force_z * b + p.couple_z + q.couple_z;
        CHECK(forces == Approx(0).margin(1e-6));
        CHECK(moments == Approx(0).margin(1e-4));
        // The nodes lie on the curve between them.
        for (std::size_t i = 1; i + 1 < both.y.size(); ++i) {
            CHECK(model.at(both, both.y[i] - 1e-9).z ==
                  Approx(both.points[i].z).margin(1e-7 * (1 + scale)));
            CHECK(model.at(both, both.y[i]).slope_x == Approx(both.points[i].slope_x).margin(1e-9));
        }
    }
}

TEST_CASE("more elements change nothing at the nodes") {
    const ShaftMaterial m{207000, 30000, 7.85e-6, 600, 346};
    const Shaft shaft = plain(8, 5, 16, 10, 10, m);
    const ShaftModel coarse(shaft, {-10, 26}), fine(shaft, {-10, -5, 3, 8, 11, 20, 26});
    const std::vector<ShaftLoad> loads{{26, 10, 100, 50, -70, 0}, {-10, -30, 20, 0, 0, 0}};
    const ShaftState a = coarse.solve(loads), b = fine.solve(loads);
    for (const double y : {-10.0, -7.3, 0.0, 4.4, 16.0, 26.0}) {
        CHECK(coarse.at(a, y).x == Approx(fine.at(b, y).x).margin(1e-12));
        CHECK(coarse.at(a, y).z == Approx(fine.at(b, y).z).margin(1e-12));
    }
}

TEST_CASE("a shaft that cannot be is refused") {
    const ShaftMaterial m{207000, 80000, 7.85e-6, 600, 346};
    CHECK_THROWS_AS(ShaftModel(Shaft{{}, m, 0, 10}, {}), std::invalid_argument);
    CHECK_THROWS_AS(ShaftModel(plain(6, 6, 60, 0, 0, m), {}), std::invalid_argument);
    CHECK_THROWS_AS(ShaftModel(plain(6, 0, 60, 0, 0, m), {61}), std::invalid_argument);
    const ShaftModel model(plain(6, 0, 60, 0, 10, m), {70});
    CHECK_THROWS_AS(model.solve({down(65, 1)}), std::invalid_argument);
}
