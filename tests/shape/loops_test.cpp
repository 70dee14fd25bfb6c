#include "shape/loops.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "random_setup.hpp"
#include "shape/shape_support.hpp"

using namespace podwright;

namespace {

double loop_area(const Loop& loop) { return area(flatten(loop, 1e-6)); }

}  // namespace

TEST_CASE("loops enclose the area of the figure they are named for") {
    // Closed forms; polygons of chord error 1e-6 fall short by at most perimeter x 1e-6.
    CHECK(loop_area(circle({3, -2}, 5)) == Approx(pi * 25).margin(1e-4));
    CHECK(loop_area(circle_hole({3, -2}, 5)) == Approx(-pi * 25).margin(1e-4));
    CHECK(loop_area(rectangle({-1, 2}, {4, 5})) == Approx(15));
    CHECK(loop_area(rectangle({-1, 2}, {4, 5}, 0.5)) == Approx(15 - 4 * 0.125));
    CHECK(loop_area(rounded_rectangle({-1, 2}, {4, 5}, 1)) == Approx(15 - (4 - pi)).margin(1e-4));
    CHECK(loop_area(slot({1, 1}, {4, 5}, 2)) == Approx(5 * 4 + pi * 4).margin(1e-4));
    CHECK(loop_area(reversed(slot({1, 1}, {4, 5}, 2))) == Approx(-(5 * 4 + pi * 4)).margin(1e-4));
    CHECK(loop_area(mirrored(slot({1, 1}, {4, 5}, 2))) == Approx(5 * 4 + pi * 4).margin(1e-4));
}

TEST_CASE("a kidney is a bent slot that keeps within its radii and angles") {
    const Loop loop = kidney(7, 13, 0.2, 1.3);
    // Its middle line has length 10 x (1.1 - 2 asin(3 / 10)); a bent slot of width w along a line
    // of length l has area w l plus the two half discs (Pappus).
    CHECK(loop_area(loop) == Approx(6 * 10 * (1.1 - 2 * std::asin(0.3)) + pi * 9).margin(1e-4));
    for (const glm::dvec2& p : flatten(loop, 1e-4)) {
        CHECK(glm::length(p) >= 7 - 1e-9);
        CHECK(glm::length(p) <= 13 + 1e-9);
        CHECK(std::atan2(p.y, p.x) >= 0.2 - 1e-9);
        CHECK(std::atan2(p.y, p.x) <= 1.3 + 1e-9);
    }
}

TEST_CASE("the hull of circles is convex, holds them all and touches no more than it must") {
    // Two equal circles: a slot. Three in a row: the middle one does not matter.
    CHECK(loop_area(hull(std::vector<Circle>{{{0, 0}, 2}, {{5, 0}, 2}})) ==
          Approx(5 * 4 + pi * 4).margin(1e-4));
    CHECK(loop_area(hull(std::vector<Circle>{{{5, 0}, 2}, {{2, 0}, 1}, {{0, 0}, 2}})) ==
          Approx(5 * 4 + pi * 4).margin(1e-4));
    CHECK(loop_area(hull(std::vector<Circle>{{{1, 1}, 3}, {{1.5, 1}, 1}})) ==
          Approx(pi * 9).margin(1e-4));

    RandomSetups random(20261);  // only its numbers
    for (int n = 0; n < 200; ++n) {
        std::vector<Circle> circles;
        const int count = random.whole(2, 9);
        circles.reserve(static_cast<std::size_t>(count));
        for (int i = 0; i < count; ++i)
            circles.push_back(
                {{random.between(-20, 20), random.whole(-5, 5) * 2.0}, random.whole(1, 4) * 1.0});
        const std::vector<glm::dvec2> polygon = flatten(hull(circles), 1e-3);
        // Support in every direction is that of the circles: max of centre . n + radius.
        for (int k = 0; k < 90; ++k) {
            const glm::dvec2 normal(std::cos(k * pi / 45), std::sin(k * pi / 45));
            double circles_reach = -1e9, polygon_reach = -1e9;
            for (const Circle& c : circles)
                circles_reach = std::max(circles_reach, glm::dot(c.centre, normal) + c.radius);
            for (const glm::dvec2& p : polygon)
                polygon_reach = std::max(polygon_reach, glm::dot(p, normal));
            REQUIRE(polygon_reach == Approx(circles_reach).margin(1.1e-3));
        }
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const glm::dvec2 a = polygon[i], b = polygon[(i + 1) % polygon.size()],
                             c = polygon[(i + 2) % polygon.size()];
            REQUIRE((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) > -1e-9);
        }
    }
}
