#include "bench/plot.hpp"

#include <catch2/catch.hpp>

#include "bench/felt_axle.hpp"
#include "core/units.hpp"

// Derived: sums and straight lines between given numbers.
using namespace podwright;

TEST_CASE("a histogram's axis spans its classes and its window, with room beside the limits") {
    HistogramPlot plot;
    plot.low = 0.1;
    plot.high = 0.2;
    CHECK(span_of(plot).low == 0.1);
    CHECK(span_of(plot).high == 0.2);
    plot.most = 0.3;
    CHECK(span_of(plot).low == 0.1);
    CHECK(span_of(plot).high == Approx(0.3 + 0.06 * 0.2));
    plot.least = 0.15;  // inside the classes
    CHECK(span_of(plot).low == 0.1);
    plot.least = 0.05;
    CHECK(span_of(plot).low == Approx(0.05 - 0.06 * 0.25));
}

TEST_CASE("the largest shares come first, the rest as one") {
    const auto shares =
        largest_shares({{"a", 0.1}, {"b", 0.5}, {"c", 0}, {"d", 0.3}, {"e", 0.1}}, 2);
    REQUIRE(shares.size() == 3);
    CHECK(shares[0].label == "b");
    CHECK(shares[1].label == "d");
    CHECK(shares[2].label == "2 others");
    CHECK(shares[2].share == Approx(0.2));
    // One left over is named rather than called others; what has no share is left out.
    const auto all = largest_shares({{"a", 0.1}, {"b", 0.5}, {"c", 0}}, 1);
    REQUIRE(all.size() == 2);
    CHECK(all[1].label == "a");
    CHECK(largest_shares({}, 3).empty());
}

TEST_CASE("the chalk line faces the eye and winds up with its wheel") {
    Assembly assembly;
    assembly.axle_point = {0, 0, 12};
    // Bent up by 2 mm all along, wound up by 0.3 rad at the left hub.
    const BentShape shape{{-80, 0, 2, 0, 0, 0}, {80, 0, 2, 0, 0, 0.3}};
    const ChalkLine line = chalk_line(assembly, shape, 80, 40, 80, 20, {500, 60, 14});
    REQUIRE(line.wound.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        const glm::dvec3 centre(0, i == 0 ? 40 : 80, 14);
        CHECK(glm::length(line.wound[i] - centre) == Approx(20));
        CHECK(glm::length(line.straight[i] - centre) == Approx(20));
        // Forward goes down as the wheel rolls forward.
        CHECK(line.wound[i].z < line.straight[i].z);
        const double turned =
            std::acos(glm::dot(line.wound[i] - centre, line.straight[i] - centre) / 400);
        CHECK(turned == Approx(0.3));
    }
    CHECK(line.straight[0].x > 19);
    // Seen along the axle it stands on top.
    CHECK(chalk_line(assembly, shape, 80, 40, 80, 20, {0, 500, 12}).straight[0].z == Approx(34));
}
