#include "shape/dimension.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "core/readings.hpp"
#include "random_setup.hpp"
#include "shape/shape_support.hpp"

using namespace podwright;

TEST_CASE("a dimension's points are as far apart as its value") {
    RandomSetups random(52000);
    for (int n = 0; n < 300; ++n) {
        const Setup setup = random.next();
        const Stack stack = stack_of(setup);
        const Stance stance = stance_of(setup, stack);
        const Drive drive = drive_of(setup, stack, stance);
        for (const Dimension& d : dimensions(setup, stack, stance, drive)) {
            INFO("setup " << n << ", " << d.name);
            REQUIRE(glm::length(d.to - d.from) == Approx(std::abs(d.value)).margin(1e-9));
            REQUIRE_FALSE(d.offsets.empty());
            for (const glm::dvec3& offset : d.offsets) {
                REQUIRE(glm::length(offset) >= 8);
                REQUIRE(std::abs(glm::dot(glm::normalize(offset), glm::normalize(d.to - d.from))) <
                        0.2);
            }
        }
    }
}

TEST_CASE("every dimension is there once, with the value of its reading or of its part") {
    // Nothing of this car is alike at the left and at the right.
    Setup setup;
    setup.left.shims = {0.3, 0.25};
    setup.right.reach = 27;
    setup.left.inset = -4.0;
    setup.right.tyre.width = 38;
    setup.right.holder_step = 0.25;
    const Built built{setup};
    const auto all = dimensions(built.setup, built.stack, built.stance, built.drive);
    std::set<std::string> names;
    for (const Dimension& d : all) CHECK(names.insert(d.name).second);
    CHECK(names == std::set<std::string>{
                       "float.nominal", "left.shims", "right.shims", "left.reach", "right.reach",
                       "left.inset", "right.inset", "width.overall", "width.track", "width.left",
                       "width.right", "ride.left", "ride.right", "mesh.working_distance"});
    std::map<std::string, double> expected = {{"left.shims", 0.3 + 0.25}, {"right.shims", 0.5},
                                              {"left.reach", 28},         {"right.reach", 27},
                                              {"left.inset", -4.0},       {"right.inset", -4.5}};
    for (const Reading& r : readings_of(built.setup, built.stack, built.stance, built.drive))
        expected.emplace(r.name, r.value);
    for (const Dimension& d : all) {
        INFO(d.name);
        REQUIRE(expected.count(d.name) == 1);
        CHECK(d.value == Approx(expected.at(d.name)).epsilon(1e-12));
    }
    // Two that were taken for each other would show.
    for (const Dimension& a : all)
        for (const Dimension& b : all)
            if (a.name < b.name) CHECK(a.value != Approx(b.value));
}

TEST_CASE("width lines lie clear of the tyres and of each other") {
    const Built built{Setup{}};
    std::set<double> levels;
    for (const Dimension& d : dimensions(built.setup, built.stack, built.stance, built.drive)) {
        if (d.name.rfind("width.", 0) != 0) continue;
        for (const glm::dvec3& offset : d.offsets)
            CHECK(glm::length(offset) >= built.setup.left.tyre.diameter / 2 + 8);
        levels.insert(glm::length(d.offsets.front()));
    }
    // Left and right share a line.
    CHECK(levels.size() == 3);
}
