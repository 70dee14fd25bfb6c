#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "random_setup.hpp"
#include "shape/guides.hpp"
#include "shape/shape_support.hpp"

// Derived: a part that moves along a line stays on it.
using namespace podwright;

namespace {

double off_line(const glm::dvec3& p, const Guide& guide) {
    const glm::dvec3 way = glm::normalize(guide.to - guide.from);
    return glm::length(glm::cross(p - guide.from, way));
}

}  // namespace

TEST_CASE("every part that leaves the axle is still on its guide line") {
    RandomSetups random(71);
    for (int round = 0; round < 20; ++round) {
        const Built built(round == 0 ? Setup{} : random.next());
        const auto lines = guides(built.assembly, 0.7);
        for (const char* key : {"left.hub", "left.wheel", "right.wheel", "carrier", "pinion"}) {
            const Part& part = built.part(key);
            const glm::dvec3 at(placed(built.assembly, part, {0, 0, 0.7})[3]);
            double nearest = 1e9;
            for (const Guide& line : lines) nearest = std::min(nearest, off_line(at, line));
            INFO(key);
            CHECK(nearest < 1e-6);
        }
    }
}

TEST_CASE("a guide leads from home to where the part has gone, and grows with the spread") {
    const Built built{Setup{}};
    CHECK(guides(built.assembly, 0).empty());
    const auto half = guides(built.assembly, 0.5);
    const auto full = guides(built.assembly, 1);
    REQUIRE(half.size() == full.size());
    const Part& posts = built.part("pod.posts");
    const glm::dvec3 home(posts.place * posts.bodies.front().place[3]);
    bool found = false;
    for (std::size_t i = 0; i < full.size(); ++i) {
        CHECK(glm::length(full[i].to - full[i].from) > glm::length(half[i].to - half[i].from));
        if (glm::length(full[i].from - home) > 1e-9) continue;
        found = true;
        CHECK(glm::length(full[i].to - home - posts.explode) < 1e-9);
    }
    CHECK(found);
}

TEST_CASE("a guide knows the parts that it strings") {
    const Built built{Setup{}};
    const auto lines = guides(built.assembly, 1);
    const auto strung = [&](const std::string& key) {
        return std::count_if(lines.begin(), lines.end(), [&](const Guide& line) {
            return std::find(line.parts.begin(), line.parts.end(), key) != line.parts.end();
        });
    };
    for (const char* key : {"left.hub", "right.wheel", "carrier", "pinion", "motor"})
        CHECK(strung(key) == 1);
    const auto posts = static_cast<std::ptrdiff_t>(built.part("pod.posts").bodies.size());
    CHECK(strung("pod.posts") == posts);
    for (const Guide& line : lines) CHECK_FALSE(line.parts.empty());
}
