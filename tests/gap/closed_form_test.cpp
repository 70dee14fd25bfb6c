#include <cmath>

#include <catch2/catch.hpp>

#include "core/units.hpp"
#include "gap_support.hpp"
#include "shape/loops.hpp"

// Against closed forms of elementary geometry; each case is derived from the formula beside it.
namespace podwright {

namespace {

constexpr double close = 1e-9;
const glm::dmat4 here(1.0);

void check_points(const Gap& gap) {
    CHECK(glm::length(gap.b - gap.a) == Approx(std::abs(gap.gap)).margin(close));
    if (gap.gap > close) CHECK(glm::length(gap.normal - (gap.b - gap.a) / gap.gap) < 1e-6);
}

void check(const Gap& gap, double expected) {
    CHECK(gap.gap == Approx(expected).margin(close));
    check_points(gap);
}

}  // namespace

TEST_CASE("a shaft in a bore has half the difference of the diameters, less its offset") {
    // (Db - Ds) / 2 - e, derived.
    const Revolved bore = tube(5.01, 8, 10), shaft = cylinder(4.99, 30);
    check(gap_of(bore, here, shaft, here), 0.02);
    check(gap_of(bore, here, shaft, at(3, 0.003, 0.004)), 0.015);
    check(gap_of(bore, here, shaft, at(3, 0.012, 0.016)), 0.0);
    // Too large by 0.04 in diameter.
    check(gap_of(bore, here, cylinder(5.03, 30), here), -0.02);
}

TEST_CASE("skew cylinders stand apart by the common normal less both radii") {
    // |(p2 - p1)·(u1 x u2)| / |u1 x u2| - r1 - r2, derived.
    check(gap_of(cylinder(3, 100), here, cylinder(2, 100), along({0, 1, 0}, {0, 0, 10})), 5);
    check(gap_of(cylinder(1, 100), along({1, 1, 0}, {1, 2, 3}), cylinder(1, 100),
                 along({0, 1, 1}, {4, 0, 9})),
          11 / std::sqrt(3.0) - 2);
}

TEST_CASE("parallel cylinders stand apart by the distance of their axes less both radii") {
    check(gap_of(cylinder(3, 100), here, cylinder(2, 60), at(7, 6, 8)), 5);
    check(gap_of(cylinder(3, 100), here, cylinder(2, 60), along({-1, 0, 0}, {7, 6, 8})), 5);
    check(gap_of(cylinder(3, 100), here, cylinder(2, 60), at(7, 3, 3.98)), std::hypot(3, 3.98) - 5);
}

TEST_CASE("a torus and a plane") {
    // |(c - p)·m| - R sqrt(1 - (n·m)²) - r, derived.
    MeasuredPart ring;
    ring.forms.push_back(form_of(Solid{torus(5, 2)}));
    const auto over_ground = [&](double tilt) {
        const glm::dmat4 place = along({std::cos(tilt), 0, std::sin(tilt)}, {0, 0, 10});
        return gap_to_plane(ring, place, {0, 0, 0}, {0, 0, 1}).gap;
    };
    CHECK(over_ground(pi / 2) == Approx(8).margin(close));
    CHECK(over_ground(0) == Approx(3).margin(close));
    CHECK(over_ground(pi / 4) == Approx(8 - 5 / std::sqrt(2.0)).margin(close));
    // The axis stands 30° from the plane's normal.
    CHECK(over_ground(pi / 3) == Approx(5.5).margin(close));
}

TEST_CASE("a torus and a plate, by the search over patches") {
    // As a torus and a plane.
    const Box plate{{-50, -50, -1}, {50, 50, 0}};
    for (const double tilt : {0.3, pi / 4, pi / 3, 1.2}) {
        const glm::dmat4 place = along({std::cos(tilt), 0, std::sin(tilt)}, {0, 0, 10});
        const Gap gap = gap_of(plate, here, torus(5, 2), place);
        check(gap, 8 - 5 * std::cos(tilt));
        CHECK(gap.within < 1e-7);
    }
}

TEST_CASE("a point and a torus") {
    // sqrt((rho - R)² + z²) - r, derived; the axis is x here.
    const Form ring = form_of(Solid{torus(5, 2)});
    CHECK(signed_distance(ring, {0, 10, 0}).distance == Approx(3).margin(close));
    CHECK(signed_distance(ring, {0, 0, 0}).distance == Approx(3).margin(close));
    CHECK(signed_distance(ring, {3, 5, 0}).distance == Approx(1).margin(close));
    CHECK(signed_distance(ring, {1, 3, 4}).distance == Approx(-1).margin(close));
    CHECK(signed_distance(ring, {12, 0, 0}).distance == Approx(11).margin(close));
}

TEST_CASE("circles") {
    const auto between = [](double r1, const glm::dmat4& p1, double r2, const glm::dmat4& p2) {
        return gap_of(thin_ring(r1), p1, thin_ring(r2), p2).gap + 2 * thin;
    };
    // Coaxial: sqrt(h² + (R1 - R2)²), derived.
    CHECK(between(5, here, 1, at(3, 0, 0)) == Approx(5).margin(close));
    // Parallel, one inside the other's shadow: sqrt(h² + max(R - r - e, 0)²), derived.
    CHECK(between(5, here, 2, at(3, 1, 0)) == Approx(std::sqrt(13.0)).margin(close));
    // In one plane: d - R1 - R2, derived.
    CHECK(between(3, here, 4, at(0, 6, 8)) == Approx(3).margin(close));
    // At right angles, centred on the other's axis: sqrt(R1² + h²) - R2, derived.
    CHECK(between(5, here, 2, along({0, 1, 0}, {4, 0, 0})) ==
          Approx(std::sqrt(41.0) - 2).margin(close));
    // Skew: 8th-degree polynomial (Eberly, "Distance to Circles in 3D"), solved to 1e-12.
    CHECK(between(5, along({0, 0, 1}), 3, along({1, 2, 2}, {4, 3, 6})) ==
          Approx(4.145608871679).margin(close));
}

TEST_CASE("linked circles, every point of one as far from the other as the next") {
    // Radius 1 in the xy plane about 0, radius 1 in the xz plane about (1, 0, 0): 1, derived.
    const Gap gap =
        gap_of(thin_ring(1), along({0, 0, 1}), thin_ring(1), along({0, 1, 0}, {1, 0, 0}));
    CHECK(gap.gap + 2 * thin == Approx(1).margin(close));
    CHECK(gap.within < 2e-3);  // a whole circle of nearest pairs, as good as the steps allow
}

TEST_CASE("a point and a box") {
    // |max(q, 0)| + min(max q, 0) with q = |p| - b, derived.
    const Form box = form_of(Solid{Box{{-2, -3, -4}, {2, 3, 4}}});
    CHECK(signed_distance(box, {5, 0, 0}).distance == Approx(3).margin(close));
    CHECK(signed_distance(box, {5, 6, 0}).distance == Approx(std::sqrt(18.0)).margin(close));
    CHECK(signed_distance(box, {5, 6, 7}).distance == Approx(std::sqrt(27.0)).margin(close));
    CHECK(signed_distance(box, {1, 0, 0}).distance == Approx(-1).margin(close));
}

TEST_CASE("a box and a cylinder parallel to an edge") {
    // Distance of a point from a rectangle, less the radius, derived.
    const Box box{{-2, -3, -20}, {2, 3, 20}};
    const auto beside = [&](double x, double y) {
        return gap_of(box, here, cylinder(1.5, 10), along({0, 0, 1}, {x, y, 0}));
    };
    check(beside(6, 7), std::hypot(4, 4) - 1.5);
    check(beside(6, 1), 2.5);
    // The same with the box extruded along the cylinder's axis: the closed form.
    const Box lying{{-20, -2, -3}, {20, 2, 3}};
    check(gap_of(lying, here, cylinder(1.5, 10), at(0, 6, 7)), std::hypot(4, 4) - 1.5);
    check(gap_of(lying, here, cylinder(1.5, 10), at(0, 6, 1)), 2.5);
}

TEST_CASE("a box and a line with a radius") {
    // To a face, an edge and a corner, derived.
    const Box box{{-2, -3, -4}, {2, 3, 4}};
    const auto from_line = [&](const glm::dvec3& p, const glm::dvec3& way, double radius) {
        return gap_of(box, here, cylinder(radius, 200), along(way, p));
    };
    check(from_line({0, 0, 8}, {1, 1, 0}, 1), 3);
    check(from_line({5, 0, 7}, {0, 1, 0}, 1), std::sqrt(18.0) - 1);
    check(from_line({4, 5, 6}, {1, -1, 0}, 1), std::sqrt(12.0) - 1);
}

TEST_CASE("plates with holes") {
    const Extruded plate{rounded_rectangle({-20, -10}, {20, 10}, 3),
                         {circle_hole({0, 0}, 5), reversed(slot({10, 0}, {14, 0}, 2))},
                         3};
    // A pin in the hole, in the slot, beside the rounded corner; a plate above: all derived.
    check(gap_of(plate, here, cylinder(4.9, 20), at(0, 0.03, 0.04)), 0.05);
    check(gap_of(plate, here, cylinder(1.9, 20), at(1, 13, 0.06)), 0.04);
    check(gap_of(plate, here, cylinder(1, 20), at(1, 17 + 4, 7 + 4)), std::hypot(4, 4) - 3 - 1);
    check(gap_of(plate, here, cylinder(5.02, 20), here), -0.02);
    check(gap_of(plate, here, cylinder(1, 2), at(4.5, 15, 5)), 0.5);
    check(gap_of(plate, here, plate, at(3.25, 1, 1)), 0.25);
    check(gap_of(plate, here, plate, at(2, 43, 0)), 3);
    check(gap_of(plate, here, plate, at(2.98, 30, 0)), -0.02);
}

TEST_CASE("one solid inside another's material overlaps, one in its hollow does not") {
    const Revolved block = cylinder(10, 20),
                   shell{{{{-10, 0}, 0}, {{10, 0}, 0}, {{10, 10}, 0}, {{-10, 10}, 0}}};
    CHECK(gap_of(block, here, sphere(1), at(2, 3, 0)).gap < -1);
    CHECK(gap_of(sphere(1), at(2, 3, 0), shell, here).gap < -1);
    CHECK(gap_of(Box{{-5, -5, -5}, {5, 5, 5}}, turned({0.6, 0, 0.8}, 0.4), sphere(1), here).gap <
          -1);
    check(gap_of(tube(4, 10, 20), here, sphere(1), at(2, 0, 1)), 2);
    check(gap_of(tube(4, 10, 20), here, sphere(1), turned({0, 1, 0}, 0.3, {2, 0, 1})), 2);
}

TEST_CASE("an axis tilted next to nothing measures as if it were parallel") {
    // The tilt of a cylinder of half length h moves its end by h times the tilt, derived.
    for (const double tilt : {1e-14, 1e-12, 1e-11, 1e-10, 1e-9, 1e-7}) {
        CAPTURE(tilt);
        const glm::dmat4 place = turned({0, 0, 1}, tilt);
        const Gap in_bore = gap_of(tube(5.01, 8, 40), here, cylinder(4.99, 10), place);
        CHECK(in_bore.gap == Approx(0.02).margin(1e-9 + 5 * tilt + in_bore.within));
        CHECK(in_bore.gap <= 0.02 + 1e-9);
        const glm::dmat4 beside = turned({0, 1, 0}, tilt, {0, 0, 12});
        const Gap outside = gap_of(cylinder(5, 40), here, cylinder(4, 10), beside);
        CHECK(outside.gap == Approx(3 - 5 * tilt).margin(1e-9));
    }
}

TEST_CASE("a tilted shaft in a bore") {
    // The rim of a bore of half length h meets a shaft through its middle, tilted by t, at
    // R cos t - h sin t, seen square to the shaft; derived.
    const double tilt = 0.01, bore = 5.1, half = 4;
    const Gap gap = gap_of(tube(bore, 8, 2 * half), here, cylinder(5, 60), turned({0, 0, 1}, tilt));
    check(gap, bore * std::cos(tilt) - half * std::sin(tilt) - 5);
    CHECK(gap.within < 2e-4);  // almost every pair of points along the rim is as near
}

}  // namespace podwright
