#include "shape/outline.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "shape/loops.hpp"
#include "shape/shape_support.hpp"

using namespace podwright;

TEST_CASE("a circle is cut into as few chords as its error allows, at least 16") {
    // Sagitta of a chord over the angle 2 pi / n: r (1 - cos(pi / n)).
    for (const double r : {0.5, 3.0, 21.5, 60.0}) {
        for (const double e : {0.1, 0.01, 0.001}) {
            const int n = segments_of_circle(r, e);
            CHECK(n >= 16);
            CHECK(r * (1 - std::cos(pi / n)) <= e * (1 + 1e-9));
            if (n > 16) CHECK(r * (1 - std::cos(pi / (n - 1))) > e);
        }
    }
    CHECK(segments_of_circle(0.001, 0.01) == 16);
}

TEST_CASE("flattened loops keep their corners and stay within the error") {
    const Loop loop = kidney(7, 13, 0.2, 1.3);
    const double e = 0.003;
    const std::vector<glm::dvec2> points = flatten(loop, e);
    for (const Corner& corner : loop) {
        double least = 1e9;
        for (const glm::dvec2& p : points) least = std::min(least, glm::length(p - corner.at));
        CHECK(least == 0);
    }
    double worst = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const glm::dvec2 a = points[i], b = points[(i + 1) % points.size()];
        CHECK(distance_to_loop(a, loop) < 1e-12);
        for (int k = 1; k < 8; ++k)
            worst = std::max(worst, distance_to_loop(a + (b - a) * (k / 8.0), loop));
    }
    CHECK(worst <= e);
    CHECK(worst > 0.5 * e);
}

TEST_CASE("an outline knows its corners from its smooth stretches") {
    const auto creases = [](const Loop& loop) {
        int n = 0;
        for (const OutlinePoint& p : flatten_outline(loop, 0.01)) n += p.crease();
        return n;
    };
    CHECK(creases(rectangle({0, 0}, {3, 2})) == 4);
    CHECK(creases(circle({1, 1}, 5)) == 0);
    CHECK(creases(slot({0, 0}, {5, 1}, 2)) == 0);
    CHECK(creases(rounded_rectangle({0, 0}, {9, 6}, 1)) == 0);
    CHECK(creases(kidney(7, 13, 0.2, 1.3)) == 0);
}
