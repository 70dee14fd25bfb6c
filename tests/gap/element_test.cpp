#include <algorithm>
#include <cmath>
#include <vector>

#include <catch2/catch.hpp>

#include "core/units.hpp"
#include "gap/element.hpp"
#include "gap/region.hpp"
#include "gap_support.hpp"
#include "shape/loops.hpp"

// Closed forms of plane curves against points laid densely along them (derived).
namespace podwright {

namespace {

constexpr int samples = 400;

std::vector<glm::dvec2> points_of(const Element& e) {
    std::vector<glm::dvec2> points;
    for (int i = 0; i <= samples; ++i) points.push_back(e.at(static_cast<double>(i) / samples));
    return points;
}

Element random_element(Draw& draw) {
    const glm::dvec2 a(draw.between(-4, 4), draw.between(-4, 4));
    const glm::dvec2 b(draw.between(-4, 4), draw.between(-4, 4));
    const double kind = draw.between(0, 3);
    if (kind < 1) return line_element(a, b);
    if (kind < 2) return arc_element(a, b, draw.between(-2, 2));
    const double first = draw.between(0, 0.8), last = draw.between(0, 0.8);
    return involute_element(a, draw.between(1, 6), draw.between(0, 7),
                            draw.between(0, 1) < 0.5 ? 1 : -1, first, last);
}

double sampled_distance(const Element& e, const Element& f) {
    double least = 1e300;
    const std::vector<glm::dvec2> of_f = points_of(f);
    for (const glm::dvec2& p : points_of(e))
        for (const glm::dvec2& q : of_f) least = std::min(least, glm::length(p - q));
    return least;
}

}  // namespace

TEST_CASE("distances between lines, arcs and involutes agree with dense points") {
    Draw draw(11);
    for (int i = 0; i < 400; ++i) {
        CAPTURE(i);
        const Element e = random_element(draw), f = random_element(draw);
        Closest closest;
        offer_closest(e, f, closest);
        const double found = std::sqrt(closest.squared), sampled = sampled_distance(e, f);
        const double spacing = (e.length() + f.length()) / samples;
        CHECK(found <= sampled + 1e-12);
        CHECK(found >= sampled - spacing);
        // Both points lie on their elements.
        CHECK(glm::length(nearest(e, closest.a) - closest.a) < 1e-9);
        CHECK(glm::length(nearest(f, closest.b) - closest.b) < 1e-9);
    }
}

TEST_CASE("the nearest, the farthest and the extreme point of an element") {
    Draw draw(12);
    for (int i = 0; i < 600; ++i) {
        CAPTURE(i);
        const Element e = random_element(draw);
        const glm::dvec2 p(draw.between(-6, 6), draw.between(-6, 6));
        double least = 1e300, most = 0, reach = -1e300;
        for (const glm::dvec2& q : points_of(e)) {
            least = std::min(least, glm::length(q - p));
            most = std::max(most, glm::length(q - p));
            reach = std::max(reach, glm::dot(q, p));
        }
        const double slack = e.length() / samples;
        CHECK(glm::length(nearest(e, p) - p) == Approx(least).margin(slack));
        CHECK(glm::length(nearest(e, p) - p) <= least + 1e-12);
        CHECK(glm::length(farthest(e, p) - p) == Approx(most).margin(slack));
        CHECK(glm::length(farthest(e, p) - p) >= most - 1e-12);
        CHECK(glm::dot(extreme(e, p), p) == Approx(reach).margin(slack * glm::length(p)));
        CHECK(glm::dot(extreme(e, p), p) >= reach - 1e-12);
    }
}

TEST_CASE("a moved element runs through the moved points") {
    Draw draw(13);
    for (int i = 0; i < 200; ++i) {
        CAPTURE(i);
        const Element e = random_element(draw);
        const double angle = draw.between(0, 7), side = i % 2 ? 1 : -1;
        const double c = std::cos(angle), s = std::sin(angle);
        const PlaneMotion motion{glm::dmat2(c, s, -s * side, c * side), {1, 2}};
        const Element result = moved(e, motion);
        CHECK(motion.mirrors() == (side < 0));
        for (const double share : {0.0, 0.3, 0.5, 1.0})
            CHECK(glm::length(result.at(share) - motion(e.at(share))) < 1e-12);
        CHECK(glm::length(nearest(result, motion(e.at(0.4))) - motion(e.at(0.4))) < 1e-9);
    }
}

TEST_CASE("inside and outside of round outlines, on their chords too") {
    Region disc;
    disc.add(circle({1, 2}, 3));
    disc.add(circle_hole({1, 2}, 1));
    disc.finish();
    for (int i = 0; i < 64; ++i) {
        const double angle = pi / 32 * i;
        const glm::dvec2 way(std::cos(angle), std::sin(angle)), centre(1, 2);
        CHECK_FALSE(disc.contains(centre + way * 0.5));
        CHECK(disc.contains(centre + way * 2.0));
        CHECK_FALSE(disc.contains(centre + way * 3.5));
    }
    // Exactly on the diameters where the half circles meet.
    CHECK_FALSE(disc.contains({1, 2}));
    CHECK(disc.contains({3, 2}));
    CHECK(disc.contains({-1, 2}));
    CHECK_FALSE(disc.contains({5, 2}));
}

}  // namespace podwright
