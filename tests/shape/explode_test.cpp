#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "shape/shape_support.hpp"

using namespace podwright;

namespace {

/// Parts of one side in the order in which they come off.
void check_order(const Built& built, const std::vector<std::string>& order, double sign) {
    double last = -1e9;
    for (const std::string& key : order) {
        const Mesh mesh = part_mesh(built.assembly, built.part(key), {0, 0, 1}, 0.1);
        const Reach u =
            reach_along(mesh, built.assembly.axle_point, built.assembly.axle_direction * sign);
        INFO(key << " from " << u.low << " to " << u.high << ", the one before ends at " << last);
        CHECK(u.low > last + 0.5);
        last = u.high;
    }
}

}  // namespace

TEST_CASE("at full spread every part stands clear of the one before") {
    Setup many;
    many.left.shims = {0.1, 0.2, 0.3, 0.4};
    many.right.shims = {};
    many.right.inset = 6;
    for (const Setup& setup : {Setup{}, many}) {
        const Built built(setup);
        std::vector<std::string> left{"motor", "left.holder", "left.bearing"}, right{};
        for (std::size_t i = 1; i <= setup.left.shims.size(); ++i)
            left.push_back("left.shim." + std::to_string(i));
        left.insert(left.end(), {"blade", "left.hub", "left.wheel", "left.tyre", "left.screws"});
        right = {"right.holder", "right.bearing"};
        for (std::size_t i = 1; i <= setup.right.shims.size(); ++i)
            right.push_back("right.shim." + std::to_string(i));
        right.insert(right.end(), {"spur", "carrier", "right.wheel", "right.tyre", "right.screws"});
        check_order(built, left, 1);
        check_order(built, right, -1);
        check_order(built, {"motor", "pinion"}, -1);
    }
}

TEST_CASE("half way the parts are half as far, at rest they are in place") {
    const Built built{Setup{}};
    const Part& wheel = built.part("left.wheel");
    CHECK(placed(built.assembly, wheel, {}) == wheel.place);
    const glm::dvec3 half(placed(built.assembly, wheel, {0, 0, 0.5})[3] - wheel.place[3]);
    CHECK(glm::length(half - wheel.explode * 0.5) < 1e-12);
    CHECK(glm::dot(wheel.explode, built.assembly.axle_direction) > 10);
}
