#include "shape/dimension.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

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

TEST_CASE("the first setup has every dimension once, with the value of its reading") {
    const Built built{Setup{}};
    const auto all = dimensions(built.setup, built.stack, built.stance, built.drive);
    std::set<std::string> names;
    for (const Dimension& d : all) CHECK(names.insert(d.name).second);
    CHECK(names == std::set<std::string>{
                       "float.nominal", "left.shims", "right.shims", "left.reach", "right.reach",
                       "left.inset", "right.inset", "width.overall", "width.track", "width.left",
                       "width.right", "ride.left", "ride.right", "mesh.working_distance"});
    const auto value = [&](const char* name) {
        return std::find_if(all.begin(), all.end(),
                            [&](const Dimension& d) { return d.name == name; })
            ->value;
    };
    CHECK(value("float.nominal") == Approx(0.15));
    CHECK(value("left.inset") == Approx(-4.5));
    CHECK(value("width.overall") == Approx(built.stack.overall_width));
    CHECK(value("ride.left") == Approx(built.stance.left.ride));
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
