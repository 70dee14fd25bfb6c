#include "bench/views.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "core/conflicts.hpp"
#include "random_setup.hpp"

using namespace podwright;

TEST_CASE("the whole-car views hold both wheels at any shape of window") {
    RandomSetups random(4711);
    for (int n = 0; n < 30; ++n) {
        const Evaluation e = evaluate(random.next());
        for (double aspect : {0.7, 1.0, 1.6, 2.4})
            for (std::string_view name : {"axle", "rear", "top", "section"}) {
                const Camera camera = camera_of(name, e, {aspect});
                const glm::dvec2 size{1000 * aspect, 1000};
                INFO(name << " at " << aspect);
                for (double y : {e.stack.left.outer, -e.stack.right.outer}) {
                    const glm::dvec3 p = to_screen(camera, {0, y, e.stance.axle_in_pod}, size);
                    CHECK(p.x > 0);
                    CHECK(p.x < size.x);
                    CHECK(p.y > 0);
                    CHECK(p.y < size.y);
                }
            }
    }
}

TEST_CASE("every named view has its key, and an unknown one is refused") {
    const Evaluation e = evaluate(Setup{});
    int key = 0;
    for (const NamedView& view : named_views()) {
        CHECK(view.key == ++key);
        CHECK(camera_of(view.name, e, {1.5}).distance > 0);
    }
    CHECK_THROWS_AS(camera_of("nowhere", e, {}), std::out_of_range);
}

TEST_CASE("between two cameras the way is the short one") {
    Camera a;
    Camera b;
    a.azimuth = 3.0;
    b.azimuth = -3.0;
    CHECK(std::abs(between(a, b, 0.5).azimuth) > 3.0);
    CHECK(between(a, b, 0).azimuth == Approx(3.0));
    CHECK(std::remainder(between(a, b, 1).azimuth - b.azimuth, 2 * pi) == Approx(0).margin(1e-12));
}
