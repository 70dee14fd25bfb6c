#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "core/units.hpp"
#include "gap_support.hpp"
#include "shape/loops.hpp"

// Axes that lean towards each other by little, as those of unlike holders do.
namespace podwright {

namespace {

const glm::dmat4 here(1.0);

/// A plate with a bore and a slot, as a holder has.
Solid holder() {
    return Extruded{rounded_rectangle({-9, -7}, {9, 7}, 2),
                    {circle_hole({0, 0}, 5.5), circle_hole({7, 4}, 1)},
                    3};
}

Solid lathe_part(Draw& draw) {
    const double inner = draw.between(1, 4), outer = inner + draw.between(0.3, 3);
    const double half = draw.between(0.1, 4), c = 0.1;
    return Revolved{{{{-half, inner}, 0},
                     {{half, inner}, 0},
                     {{half, outer - c}, std::tan(pi / 8)},
                     {{half - c, outer}, 0},
                     {{-half, outer}, 0}}};
}

/// Nearest of many points spread over the wall of a body of revolution to `b`.
double sampled(const Form& a, const Frame& at_a, const Form& b, const Frame& at_b) {
    double least = 1e300;
    for (const Element& e : a.region.elements)
        for (int i = 0; i <= 24; ++i) {
            const glm::dvec2 p = e.at(i / 24.0);
            for (int k = 0; k < 144; ++k) {
                const double t = 2 * pi * k / 144;
                const glm::dvec3 q(p.x, p.y * std::cos(t), p.y * std::sin(t));
                least = std::min(least, signed_distance(b, at_b.back(at_a(q))).distance);
            }
        }
    return least;
}

}  // namespace

TEST_CASE("circles whose axes lean a little") {
    // Centres d apart along the first axis, the second circle's plane turned by t about a diameter
    // through its centre: the points farthest along the tilt, R apart from the axis and r(cos t,
    // sin t), are nearest where r cos t < R: hypot(R - r cos t, d - r sin t). Derived.
    for (const double t : {1e-9, 1e-6, 1e-3, 0.01, 0.1}) {
        CAPTURE(t);
        const double big = 6, small = 4, d = 2;
        const Gap gap =
            gap_of(thin_ring(big), here, thin_ring(small), turned({0, 0, 1}, t, {d, 0, 0}));
        CHECK(gap.gap + 2 * thin ==
              Approx(std::hypot(big - small * std::cos(t), d - small * std::sin(t)))
                  .margin(1e-8 + gap.within));
        CHECK(gap.within <= 1e-4);
    }
}

TEST_CASE("discs face to face, one of them tilted") {
    // The rim of the tilted one comes down by r sin t; derived.
    for (const double t : {1e-9, 1e-6, 1e-4, 0.01}) {
        CAPTURE(t);
        const Gap gap =
            gap_of(cylinder(8, 2), here, cylinder(5, 2), turned({0, 0.6, 0.8}, t, {3, 0, 0}));
        CHECK(gap.gap == Approx(3 - 1 - std::cos(t) - 5 * std::sin(t)).margin(1e-8));
        CHECK(gap.within <= 1.1e-4);
    }
}

TEST_CASE("a tilted shaft in the bore of a plate, and a tilted disc before its face") {
    for (const double t : {1e-9, 1e-6, 1e-4, 0.01}) {
        CAPTURE(t);
        // The bore's rim, 1.5 mm from its middle, against the shaft: as in the closed forms.
        const Gap in_bore =
            gap_of(cylinder(5, 60), turned({0, 0, 1}, t, {1.5, 0, 0}), holder(), here);
        CHECK(in_bore.gap ==
              Approx(5.5 * std::cos(t) - 1.5 * std::sin(t) - 5).margin(1e-8 + in_bore.within));
        CHECK(in_bore.within <= 1.1e-4);
        // A disc wider than the bore: its rim at the top of the tilt is over the plate.
        const Gap over =
            gap_of(holder(), here, cylinder(6.5, 2), turned({0, 0, 1}, t, {3 + 2, 0, 0}));
        CHECK(over.gap == Approx(2 - std::cos(t) - 6.5 * std::sin(t)).margin(1e-8 + over.within));
    }
}

TEST_CASE("a tilt from nothing on changes a gap by no more than it moves") {
    Draw draw(51);
    int checked = 0;
    for (int i = 0; i < 60; ++i) {
        const Solid a = lathe_part(draw), b = i % 2 ? lathe_part(draw) : holder();
        const glm::dvec3 to(draw.between(-9, 9), draw.between(-1, 1), draw.between(-1, 1));
        const glm::dvec3 way = draw.unit();
        const Gap level = gap_of(a, at(to.x, to.y, to.z), b, here);
        if (level.gap < 0.02) continue;
        ++checked;
        for (const double tilt : {1e-12, 1e-10, 1e-9, 1e-6, 1e-3}) {
            const Gap gap = gap_of(a, turned(way, tilt, to), b, here);
            const Gap other = gap_of(b, here, a, turned(way, tilt, to));
            CAPTURE(i, tilt, level.gap, gap.gap, gap.within, other.gap);
            CHECK(gap.gap == Approx(level.gap).margin(12 * tilt + 1e-8 + gap.within));
            CHECK(gap.within <= 1.1e-4);
            CHECK(other.gap == Approx(gap.gap).margin(1e-8 + gap.within + other.within));
        }
    }
    CHECK(checked > 20);
}

TEST_CASE("no point of a leaning solid is nearer than what is guaranteed") {
    Draw draw(52);
    int checked = 0;
    for (int i = 0; i < 60; ++i) {
        const Form a = form_of(lathe_part(draw));
        const Form b = form_of(i % 2 ? lathe_part(draw) : holder());
        const glm::dvec3 to(draw.between(-9, 9), draw.between(-1, 1), draw.between(-1, 1));
        const Frame at_a = frame_of(turned(draw.unit(), draw.between(0, 0.3), to));
        const Frame at_b = frame_of(here);
        const Gap gap = gap_between(a, at_a, b, at_b);
        if (gap.gap <= 0) continue;
        ++checked;
        const double least = sampled(a, at_a, b, at_b);
        CAPTURE(i, gap.gap, gap.within, least);
        CHECK(least >= gap.gap - gap.within - 1e-9);
        CHECK(gap.within <= 1.1e-4);
        // The points are where it says.
        CHECK(glm::length(gap.b - gap.a) == Approx(gap.gap).margin(1e-8));
        CHECK(std::abs(signed_distance(a, at_a.back(gap.a)).distance) < 1e-8);
        CHECK(std::abs(signed_distance(b, at_b.back(gap.b)).distance) < 1e-8);
    }
    CHECK(checked > 20);
}

TEST_CASE("leaning extruded solids agree with their meshes") {
    // FCL 0.7; outlines of straight lines alone, so that the meshes are the solids.
    Draw draw(53);
    int checked = 0;
    for (int i = 0; i < 30; ++i) {
        const Solid a = Extruded{rectangle({-6, -3}, {6, 3}), {}, 2};
        const Solid b = Extruded{rectangle({-2, -5}, {2, 5}), {}, 3};
        const glm::dmat4 place =
            turned(draw.unit(), draw.between(0, 0.3),
                   {draw.between(-6, 6), draw.between(-9, 9), draw.between(-9, 9)});
        const Gap gap = gap_of(a, here, b, place);
        if (gap.gap <= 0) continue;
        ++checked;
        const MeshOracle mesh_a(mesh_of(a, 1, asset_mesh)), mesh_b(mesh_of(b, 1, asset_mesh));
        CAPTURE(i, gap.gap, gap.within);
        CHECK(mesh_a.distance(here, mesh_b, place) == Approx(gap.gap).margin(4e-6 + gap.within));
    }
    CHECK(checked > 10);
}

}  // namespace podwright
