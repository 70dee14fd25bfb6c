#include "bench/views.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "core/conflicts.hpp"
#include "file/asset_library.hpp"
#include "random_setup.hpp"
#include "shape/mesher.hpp"

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

namespace {

/// Points round a part that turns about the axle.
std::vector<glm::dvec3> ring(const Evaluation& e, double y, double radius) {
    std::vector<glm::dvec3> points;
    for (int i = 0; i < 8; ++i)
        points.emplace_back(radius * std::cos(pi * i / 4), y,
                            e.stance.axle_z(y) + radius * std::sin(pi * i / 4));
    return points;
}

/// Corners of the pod's floor where the exploded view has it.
std::vector<glm::dvec3> floor_corners(const Evaluation& e, double spread) {
    const Part& part = *e.assembly.find("pod.floor");
    std::vector<glm::dvec3> corners;
    for (const Body& body : part.bodies) {
        const Mesh mesh = mesh_of(body.solid, 0.05, asset_library());
        const glm::dmat4 place = placed(e.assembly, part, {0, 0, spread}) * body.place;
        for (const Vertex& vertex : mesh.vertices)
            corners.emplace_back(place * glm::dvec4(vertex.position, 1));
    }
    return corners;
}

/// What the view is there to show.
std::vector<std::vector<glm::dvec3>> of_interest(std::string_view name, const Setup& setup,
                                                 const Evaluation& e) {
    const double left = e.stack.left.wheel;
    const double right = -e.stack.right.wheel;
    const double spur = diameters(e.drive.spur).outside / 2;
    const double pinion = diameters(e.drive.pinion).outside / 2;
    if (name == "left")
        return {ring(e, left, e.stance.left.rolling), ring(e, e.stack.left.thrust, 4)};
    if (name == "right")
        return {ring(e, right, e.stance.right.rolling), ring(e, -e.stack.right.thrust, 4)};
    if (name == "mesh") {
        std::vector<glm::dvec3> round;
        for (int i = 0; i < 8; ++i)
            round.push_back(e.assembly.motor_point +
                            pinion * glm::dvec3(std::cos(pi * i / 4), 0, std::sin(pi * i / 4)));
        return {ring(e, -e.drive.gear_u, spur), round};
    }
    if (name == "float")
        return {ring(e, e.stack.left.bearing, setup.axle.diameter / 2 + 2),
                ring(e, e.stack.left.thrust, setup.axle.diameter / 2 + 2)};
    return {ring(e, left, e.stance.left.rolling), ring(e, right, e.stance.right.rolling)};
}

}  // namespace

TEST_CASE("the whole-car views hold the pod's floor too, exploded or not") {
    RandomSetups random(91);
    for (int n = 0; n < 20; ++n) {
        const Evaluation e = evaluate(random.next());
        for (const std::string_view name : {"axle", "rear", "top"})
            for (const double spread : {0.0, 1.0}) {
                const double aspect = n % 2 == 0 ? 1.78 : 0.8;
                const Camera camera =
                    camera_of(name, e, composed(named_view(name), aspect, spread, false));
                const glm::dvec2 size{1000 * aspect, 1000};
                glm::dvec2 low(1e9);
                glm::dvec2 high(-1e9);
                for (const glm::dvec3& corner : floor_corners(e, spread)) {
                    const glm::dvec2 p(to_screen(camera, corner, size));
                    low = glm::min(low, p);
                    high = glm::max(high, p);
                }
                INFO("setup " << n << ", " << name << ", spread " << spread);
                CHECK(low.x > 0);
                CHECK(low.y > 0);
                CHECK(high.x < size.x);
                CHECK(high.y < size.y);
            }
    }
}

TEST_CASE("every view holds what it is there to show, with and without words") {
    RandomSetups random(90);
    for (int n = 0; n < 60; ++n) {
        const Setup setup = random.next();
        const Evaluation e = evaluate(setup);
        for (const NamedView& view : named_views())
            for (double aspect : {1000.0 / 600, 1280.0 / 720, 720.0 / 1280, 1.0, 3.0})
                for (bool words : {false, true}) {
                    const Camera camera = camera_of(view.name, e, composed(view, aspect, 0, words));
                    const glm::dvec2 size{1000 * aspect, 1000};
                    INFO("setup " << n << ", " << view.name << " at " << aspect);
                    glm::dvec2 low{1e9}, high{-1e9};
                    for (const auto& points : of_interest(view.name, setup, e))
                        for (const glm::dvec3& point : points) {
                            const glm::dvec3 p = to_screen(camera, point, size);
                            CHECK(p.x > 0);
                            CHECK(p.x < size.x);
                            CHECK(p.y > 0);
                            CHECK(p.y < size.y);
                            low = glm::min(low, glm::dvec2(p));
                            high = glm::max(high, glm::dvec2(p));
                        }
                    // And it is large enough to be seen: how large is the program's own choice.
                    // Round the small gap stand the holder and the hub, and the wheels fill their
                    // views but for the words.
                    const glm::dvec2 share = (high - low) / size;
                    CHECK(std::max(share.x, share.y) > (view.name == "float" ? 0.15 : 0.23));
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
