#include <cmath>
#include <variant>

#include <catch2/catch.hpp>

#include "core/units.hpp"
#include "gap_support.hpp"
#include "shape/loops.hpp"

namespace podwright {

namespace {

Solid random_solid(Draw& draw) {
    const double kind = draw.between(0, 6);
    if (kind < 1) return cylinder(draw.between(1, 4), draw.between(1, 12));
    if (kind < 2) {
        const double inner = draw.between(1, 3);
        return tube(inner, inner + draw.between(0.1, 3), draw.between(0.1, 8));
    }
    if (kind < 3) return torus(draw.between(3, 5), draw.between(0.2, 2));
    if (kind < 4)
        return Extruded{rounded_rectangle({-4, -3}, {4, 3}, 1),
                        {circle_hole({1, 0}, draw.between(0.3, 1.5))},
                        draw.between(0.2, 4)};
    if (kind < 5) return Box{{-1, -2, -3}, {draw.between(0, 4), 2, 1}};
    return ToothedRing{standard_gear(12, 0.5, radians(20), Dedendum::full_depth), 3, 1};
}

/// Axes parallel every other time.
glm::dmat4 random_place(Draw& draw, int i) {
    if (i % 2) return draw.placement(9);
    glm::dmat4 place = turned({1, 0, 0}, draw.between(0, 7));
    place[3] = glm::dvec4(draw.between(-8, 8), draw.between(-8, 8), draw.between(-8, 8), 1);
    return place;
}

bool agree(const Gap& x, const Gap& y) {
    const double slack = 1e-9 + x.within + y.within;
    // The depth of an overlap at an angle is found to `within`, and both may differ by it.
    return std::abs(x.gap - y.gap) <= slack;
}

}  // namespace

TEST_CASE("the gap from a to b is that from b to a") {
    Draw draw(21);
    for (int i = 0; i < 120; ++i) {
        const Solid a = random_solid(draw), b = random_solid(draw);
        const glm::dmat4 at_a = random_place(draw, i), at_b = random_place(draw, i);
        const Gap one = gap_of(a, at_a, b, at_b), other = gap_of(b, at_b, a, at_a);
        CAPTURE(i, a.index(), b.index(), one.gap, other.gap, one.within, other.within);
        CHECK(agree(one, other));
        if (one.gap > 0) {
            CHECK(glm::length(one.b - one.a) == Approx(one.gap).margin(1e-9));
            // Both points lie on their surfaces.
            const auto off = [](const Solid& solid, const glm::dmat4& place, const glm::dvec3& p) {
                return signed_distance(form_of(solid), frame_of(place).back(p)).distance;
            };
            CHECK(off(a, at_a, one.a) == Approx(0).margin(1e-8));
            CHECK(off(b, at_b, one.b) == Approx(0).margin(1e-8));
        }
    }
}

TEST_CASE("moving both together changes nothing") {
    Draw draw(22);
    for (int i = 0; i < 120; ++i) {
        const Solid a = random_solid(draw), b = random_solid(draw);
        const glm::dmat4 at_a = random_place(draw, i), at_b = random_place(draw, i);
        const glm::dmat4 both = draw.placement(30);
        const Gap one = gap_of(a, at_a, b, at_b);
        const Gap other = gap_of(a, both * at_a, b, both * at_b);
        CAPTURE(i, a.index(), b.index(), one.gap, other.gap, one.within, other.within);
        CHECK(agree(one, other));
    }
}

TEST_CASE("moving b out of an overlap by less than the depth leaves an overlap") {
    // The depth is a lower measure of the way to go, by its definition.
    Draw draw(23);
    int overlaps = 0;
    for (int i = 0; i < 200; ++i) {
        const Solid a = random_solid(draw), b = random_solid(draw);
        const glm::dmat4 at_a = random_place(draw, i), at_b = random_place(draw, i);
        const Gap gap = gap_of(a, at_a, b, at_b);
        if (gap.gap > -0.05) continue;
        ++overlaps;
        for (int k = 0; k < 3; ++k) {
            const glm::dvec3 way =
                (k == 0 ? gap.normal : draw.unit()) * (0.98 * std::abs(gap.gap) - 0.001);
            glm::dmat4 moved = at_b;
            moved[3] += glm::dvec4(way, 0);
            CAPTURE(i, k, a.index(), b.index(), gap.gap);
            CHECK(gap_of(a, at_a, b, moved).gap < 1e-9);
        }
    }
    CHECK(overlaps > 20);
}

TEST_CASE("closed forms for parallel axes and the search for tilted ones meet") {
    // A turn by t about b's origin moves no point of b by more than its size times t; derived.
    Draw draw(25);
    int apart = 0, overlapping = 0;
    for (int i = 0; i < 100; ++i) {
        const Solid a = random_solid(draw), b = random_solid(draw);
        const glm::dmat4 at_a = random_place(draw, 0), at_b = random_place(draw, 0);
        const Gap parallel = gap_of(a, at_a, b, at_b);
        const double tilt = 1e-7, size = 12;
        const Gap tilted = gap_of(a, at_a, b, at_b * turned(draw.unit(), tilt));
        CAPTURE(i, a.index(), b.index(), parallel.gap, tilted.gap, tilted.within);
        if (parallel.gap > 0) {
            ++apart;
            CHECK(tilted.gap == Approx(parallel.gap).margin(size * tilt + tilted.within));
        } else {
            CHECK(tilted.gap < size * tilt);
            // Of two extruded solids that lie parallel the way out is measured otherwise.
            const bool round =
                std::holds_alternative<Revolved>(a) || std::holds_alternative<Revolved>(b);
            if (!round) continue;
            ++overlapping;
            CHECK(tilted.gap ==
                  Approx(parallel.gap).margin(size * tilt + tilted.within + parallel.within));
        }
    }
    CHECK(apart > 30);
    CHECK(overlapping > 5);
}

TEST_CASE("a limit changes nothing below it, and stops the search above") {
    Draw draw(24);
    int checked = 0;
    for (int i = 0; i < 80; ++i) {
        const Form a = form_of(random_solid(draw)), b = form_of(random_solid(draw));
        const Frame at_a = frame_of(random_place(draw, i)), at_b = frame_of(random_place(draw, i));
        const Gap whole = gap_between(a, at_a, b, at_b);
        if (whole.gap <= 0) continue;
        ++checked;
        CAPTURE(i, whole.gap, whole.within);
        CHECK(gap_between(a, at_a, b, at_b, whole.gap / 2).gap == whole.gap / 2);
        CHECK(gap_between(a, at_a, b, at_b, whole.gap * 2).gap ==
              Approx(whole.gap).margin(1e-9 + whole.within));
    }
    CHECK(checked > 30);
}

}  // namespace podwright
