#include "bench/label_layout.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "label_checks.hpp"
#include "random_setup.hpp"

using namespace podwright;

namespace {

LabelWish wish(const std::string& name, ImVec2 anchor, ImVec2 size = {100, 20}) {
    LabelWish w;
    w.name = name;
    w.sizes = {size};
    w.anchor = anchor;
    w.seats = {{anchor + ImVec2{0, -20}}, {anchor + ImVec2{0, 20}}};
    return w;
}

LabelGround ground(float width, float height) {
    LabelGround g;
    g.frame = {{0, 0}, {width, height}};
    return g;
}

/// Labels of random sizes about random anchors.
std::vector<LabelWish> crowd(RandomSetups& random, int count, ImVec2 size) {
    std::vector<LabelWish> wishes;
    for (int i = 0; i < count; ++i) {
        const ImVec2 anchor{static_cast<float>(random.between(0.1, 0.9)) * size.x,
                            static_cast<float>(random.between(0.1, 0.9)) * size.y};
        wishes.push_back(
            wish(std::to_string(i), anchor, {static_cast<float>(random.between(40, 180)), 20}));
        wishes.back().rank = random.whole(0, 3);
    }
    return wishes;
}

}  // namespace

TEST_CASE("a label alone takes the seat that it likes best") {
    LabelMemory memory;
    const auto layout = lay_out(std::vector{wish("a", {200, 150})}, ground(400, 300), memory);
    REQUIRE(layout.labels[0].shown);
    CHECK(layout.labels[0].box.centre().y == Approx(130));
    CHECK_FALSE(layout.labels[0].leader);
}

TEST_CASE("crowded labels neither touch nor leave the frame, and leaders do not cross") {
    RandomSetups random(977);
    for (int n = 0; n < 200; ++n) {
        const ImVec2 size = n % 2 ? ImVec2{640, 400} : ImVec2{360, 700};
        LabelGround g = ground(size.x, size.y);
        g.fixed = {{{0, 0}, {200, 30}}, {{size.x - 150, size.y - 150}, {size.x, size.y}}};
        g.lines = {{{0, size.y / 2}, {size.x, size.y / 2}}};
        const auto wishes = crowd(random, 20, size);
        LabelMemory memory;
        check_layout(lay_out(wishes, g, memory), g);
    }
}

TEST_CASE("where there is room for all, none is left out") {
    RandomSetups random(31);
    for (int n = 0; n < 50; ++n) {
        LabelMemory memory;
        const auto layout = lay_out(crowd(random, 20, {1280, 720}), ground(1280, 720), memory);
        CHECK(layout.left_out == 0);
    }
}

TEST_CASE("in a frame too small a label shrinks to its number, and the least important goes") {
    LabelGround g = ground(110, 48);
    auto first = wish("first", {55, 24}, {100, 20});
    auto second = wish("second", {55, 24}, {300, 20});
    second.sizes.push_back({60, 20});
    second.rank = 1;
    auto third = wish("third", {55, 24}, {100, 20});
    third.rank = 2;
    LabelMemory memory;
    const auto layout = lay_out(std::vector{third, second, first}, g, memory);
    check_layout(layout, g);
    CHECK_FALSE(layout.labels[0].shown);
    REQUIRE(layout.labels[1].shown);
    CHECK(layout.labels[1].size == 1);
    REQUIRE(layout.labels[2].shown);
    CHECK(layout.left_out == 1);
}

TEST_CASE("a label keeps its place while its anchor moves a little, and afterwards") {
    RandomSetups random(5);
    auto wishes = crowd(random, 16, {900, 600});
    const LabelGround g = ground(900, 600);
    LabelMemory memory;
    LabelLayout before = lay_out(wishes, g, memory);
    for (int step = 0; step < 60; ++step) {
        for (LabelWish& w : wishes) {
            const ImVec2 move{0.7F, 0.3F};
            w.anchor = w.anchor + move;
            for (Seat& seat : w.seats) seat.centre = seat.centre + move;
        }
        const LabelLayout now = lay_out(wishes, g, memory);
        check_layout(now, g);
        int jumps = 0;
        for (std::size_t i = 0; i < wishes.size(); ++i)
            if (before.labels[i].shown != now.labels[i].shown ||
                size_of(before.labels[i].box.centre() - now.labels[i].box.centre()) > 3)
                ++jumps;
        // All move alike: only what reaches the edge of the frame may have to go elsewhere.
        CHECK(jumps <= 1);
        before = now;
    }
    // The same input and memory give the same layout.
    LabelMemory again = memory;
    const LabelLayout one = lay_out(wishes, g, memory);
    const LabelLayout two = lay_out(wishes, g, again);
    for (std::size_t i = 0; i < wishes.size(); ++i)
        CHECK(size_of(one.labels[i].box.centre() - two.labels[i].box.centre()) == 0);
}

TEST_CASE("a label keeps off what is covered if there is room beside it") {
    CoverMap cover({{0, 0}, {400, 300}}, 8);
    cover.add_hull({{150, 80}, {250, 80}, {250, 220}, {150, 220}});
    cover.finish();
    // Derived: the box covers 100 of 400 by 140 of 300 pixels, to a cell of 8 at each edge.
    CHECK(cover.share({{0, 0}, {400, 300}}) == Approx(100.0 * 140 / (400 * 300)).epsilon(0.1));
    CHECK(cover.share({{160, 90}, {240, 210}}) == 1);
    CHECK(cover.share({{0, 0}, {140, 300}}) == 0);
    LabelGround g = ground(400, 300);
    g.cover = &cover;
    LabelMemory memory;
    const auto layout = lay_out(std::vector{wish("a", {200, 150})}, g, memory);
    REQUIRE(layout.labels[0].shown);
    CHECK(cover.share(layout.labels[0].box) < 0.2);
    CHECK(layout.labels[0].leader.has_value());
}

TEST_CASE("segments cross or not, and are clipped by boxes") {
    CHECK(cross_each_other({{0, 0}, {10, 10}}, {{0, 10}, {10, 0}}));
    CHECK_FALSE(cross_each_other({{0, 0}, {10, 10}}, {{20, 0}, {30, 10}}));
    CHECK_FALSE(cross_each_other({{0, 0}, {10, 10}}, {{10, 10}, {20, 0}}));  // a shared end
    // Derived: the diagonal of a 10 by 10 square.
    CHECK(length_inside({{0, 0}, {10, 10}}, {{-5, -5}, {15, 15}}) == Approx(std::sqrt(200.0)));
    CHECK(length_inside({{0, 0}, {10, 10}}, {{-5, 20}, {15, 20}}) == 0);
}

TEST_CASE("the distance from a box to a segment") {
    const PixelBox box{{0, 0}, {10, 10}};
    // Derived: beside, across and beyond a corner (3-4-5).
    CHECK(distance_between(box, {{20, 2}, {20, 8}}) == Approx(10));
    CHECK(distance_between(box, {{-5, 5}, {15, 5}}) == 0);
    CHECK(distance_between(box, {{13, 14}, {30, 40}}) == Approx(5));
    // From the corner (10, 0) to the line x - y = 20: 10 / sqrt(2).
    CHECK(distance_between(box, {{0, -20}, {40, 20}}) == Approx(10 / std::sqrt(2.0)));
}

TEST_CASE("a dimension's label never stands where it reads as another's") {
    // Two lines so close that one label fits between them, and no other place is free.
    const auto dimension = [](const std::string& name, float y, int rank) {
        LabelWish w;
        w.name = name;
        w.sizes = {{100, 20}};
        w.line = w.measured = Segment{{50, y}, {250, y}};
        w.anchor = {150, y};
        w.seats = {{{150, y - 13}}, {{150, y + 13}}};
        w.rank = rank;
        w.roams = false;
        return w;
    };
    LabelGround g = ground(300, 100);
    g.fixed = {{{0, 0}, {300, 36}}, {{0, 64}, {300, 100}}};
    for (const int first : {0, 1}) {
        LabelMemory memory;
        const auto layout = lay_out(
            std::vector{dimension("a", 37, first), dimension("b", 63, 1 - first)}, g, memory);
        // The more important one stands alone: the other's line would be taken for its own.
        CHECK(layout.labels[0].shown == (first == 0));
        CHECK(layout.labels[1].shown == (first == 1));
        CHECK(layout.left_out == 1);
    }
}

TEST_CASE("the more important dimension is shown, the other gives way with its lines") {
    const auto dimension = [](const std::string& name, float x, int rank) {
        LabelWish w;
        w.name = name;
        w.sizes = {{100, 20}};
        w.line = w.measured = Segment{{x - 20, 50}, {x + 20, 50}};
        w.anchor = {x, 50};
        w.seats = {{{x, 37}}};
        w.rank = rank;
        w.roams = false;
        return w;
    };
    const LabelGround g = ground(400, 100);
    for (const int first : {0, 1}) {
        LabelMemory memory;
        const auto layout = lay_out(
            std::vector{dimension("a", 150, first), dimension("b", 210, 1 - first)}, g, memory);
        CHECK(layout.labels[0].shown == (first == 0));
        CHECK(layout.labels[1].shown == (first == 1));
    }
}
