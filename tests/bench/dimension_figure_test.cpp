#include "bench/dimension_figure.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/units.hpp"

using namespace podwright;

namespace {

double angle_of(const ArrowHead& arrow) {
    const ImVec2 a = unit(arrow.left - arrow.tip);
    const ImVec2 b = unit(arrow.right - arrow.tip);
    return degrees(std::acos(static_cast<double>(a.x * b.x + a.y * b.y)));
}

}  // namespace

// ISO 129-1, from memory: extension lines pass the dimension line by about 8 line widths and may
// leave a gap of about 8; filled arrowheads of about 30 degrees.
TEST_CASE("extension lines have their gap and overrun, arrowheads their angle") {
    for (float line_width : {1.0F, 1.5F, 2.0F, 3.0F}) {
        const DimensionFigure figure =
            figure_of({100, 300}, {500, 300}, {100, 100}, {500, 100}, line_width);
        REQUIRE(figure.extensions.size() == 2);
        for (const Segment& line : figure.extensions) {
            CHECK(300 - line.from.y == Approx(8 * line_width));
            CHECK(100 - line.to.y == Approx(8 * line_width));
        }
        CHECK_FALSE(figure.arrows_outside);
        CHECK(figure.arrows[0].tip.x == Approx(100));
        CHECK(figure.arrows[1].tip.x == Approx(500));
        for (const ArrowHead& arrow : figure.arrows)
            CHECK(angle_of(arrow) == Approx(30).margin(0.01));
        // Inside, pointing outward: the backs lie between the tips.
        CHECK(figure.arrows[0].left.x > 100);
        CHECK(figure.arrows[1].left.x < 500);
    }
}

TEST_CASE("arrowheads stand outside where there is no room between") {
    const DimensionFigure figure = figure_of({100, 300}, {112, 300}, {100, 100}, {112, 100}, 1);
    CHECK(figure.arrows_outside);
    CHECK(figure.arrows[0].left.x < 100);
    CHECK(figure.arrows[1].left.x > 112);
    REQUIRE(figure.tails.size() == 2);
    CHECK(figure.tails[0].from.x < 100 - 10);
    CHECK(figure.tails[1].to.x > 112 + 10);
}

TEST_CASE("a dimension whose feature is nearer than the gap draws the overrun only") {
    const DimensionFigure figure = figure_of({100, 104}, {500, 100}, {100, 100}, {500, 100}, 1);
    REQUIRE(figure.extensions.size() == 1);  // at the other end there is no way at all
    CHECK(figure.extensions[0].from.y == Approx(100));
    CHECK(figure.extensions[0].to.y == Approx(92));
}

TEST_CASE("the text stands above its line at every slope, at the left of an upright one") {
    const ImVec2 text{90, 18};
    for (int i = 0; i < 72; ++i) {
        const double angle = radians(5.0 * i);
        const ImVec2 middle{400, 300};
        const ImVec2 half{static_cast<float>(150 * std::cos(angle)),
                          static_cast<float>(150 * std::sin(angle))};
        const DimensionFigure figure =
            figure_of(middle - half, middle + half, middle - half, middle + half, 1);
        const std::vector<Seat> seats = seats_of(figure, text, 1);
        REQUIRE_FALSE(seats.empty());
        INFO("at " << 5 * i << " degrees");
        const PixelBox box = box_about(seats.front().centre, text);
        CHECK(length_inside(box, figure.line) == 0);  // not on the line
        const ImVec2 off = seats.front().centre - middle;
        if (std::abs(std::cos(angle)) > 0.05)
            CHECK(off.y < 0);
        else
            CHECK(off.x < 0);
        CHECK_FALSE(seats.front().leader);
    }
}

TEST_CASE("beside a short line the text stands past its ends, clear of the arrowheads") {
    const ImVec2 text{90, 18};
    const DimensionFigure figure = figure_of({100, 300}, {112, 300}, {100, 100}, {112, 100}, 1);
    const std::vector<Seat> seats = seats_of(figure, text, 1);
    REQUIRE(seats.size() >= 2);
    for (std::size_t i = 0; i < 2; ++i) {
        const PixelBox box = box_about(seats[i].centre, text);
        for (const Segment& line : lines_of(figure)) CHECK(length_inside(box, line) == 0);
    }
}
