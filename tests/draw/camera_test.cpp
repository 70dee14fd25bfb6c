#include <catch2/catch.hpp>
#include <cmath>

#include "draw/camera.hpp"

using namespace podwright;

namespace {

// Some camera that looks at nothing special.
Camera oblique() {
    Camera camera;
    camera.target = {3, -12, 21};
    camera.distance = 412;
    camera.azimuth = 2.3;
    camera.elevation = 0.37;
    return camera;
}

}  // namespace

TEST_CASE("camera axes are right-handed and follow the angles' definition") {
    // Derived from the definition in camera.hpp: azimuth 0 is seen from +x, z is up.
    Camera camera;
    camera.elevation = 0;
    camera.distance = 100;
    CHECK(glm::length(camera.eye() - glm::dvec3(100, 0, 0)) < 1e-12);
    CHECK(glm::length(camera.right() - glm::dvec3(0, 1, 0)) < 1e-12);
    CHECK(glm::length(camera.up() - glm::dvec3(0, 0, 1)) < 1e-12);
    camera.azimuth = std::acos(0.0);
    CHECK(glm::length(camera.eye() - glm::dvec3(0, 100, 0)) < 1e-12);
    camera.elevation = std::acos(0.0);  // from straight above nothing degenerates
    CHECK(glm::length(camera.eye() - glm::dvec3(0, 0, 100)) < 1e-12);
    CHECK(glm::length(camera.up()) == Approx(1));

    const Camera other = oblique();
    const glm::dvec3 back = glm::normalize(other.eye() - other.target);
    CHECK(glm::length(glm::cross(other.right(), other.up()) - back) < 1e-12);
    CHECK(glm::length(glm::dvec3(other.view() * glm::dvec4(other.target, 1)) -
                      glm::dvec3(0, 0, -412)) < 1e-9);
}

TEST_CASE("the target is in the middle of the picture and up is up") {
    const Camera camera = oblique();
    const glm::dvec2 size(1280, 720);
    const auto middle = to_screen(camera, camera.target, size);
    CHECK(middle.x == Approx(640));
    CHECK(middle.y == Approx(360));
    CHECK(to_screen(camera, camera.target + glm::dvec3(0, 0, 10), size).y < 360);
    CHECK(to_screen(camera, camera.target + camera.right() * 10.0, size).x > 640);
    CHECK(to_screen(camera, camera.eye() + (camera.eye() - camera.target), size).z > 1);
}

TEST_CASE("a ray through the pixel of a point passes through the point") {
    const Camera camera = oblique();
    for (const glm::dvec2 size : {glm::dvec2(1280, 720), glm::dvec2(400, 900)})
        for (const auto& point : {glm::dvec3(0, 0, 0), glm::dvec3(20, -60, 43),
                                  glm::dvec3(-31, 86, 5), glm::dvec3(3, -12, 21)}) {
            const auto pixel = to_screen(camera, point, size);
            const Ray ray = ray_through(camera, {pixel.x, pixel.y}, size);
            const auto away = point - ray.from;
            CHECK(glm::length(ray.direction) == Approx(1));
            CHECK(glm::length(glm::cross(ray.direction, away)) < 1e-9);
            CHECK(glm::dot(ray.direction, away) > 0);
        }
}

TEST_CASE("depth grows with distance and stays within the clip range over the scene") {
    const Camera camera = oblique();
    const glm::dvec3 forward = glm::normalize(camera.target - camera.eye());
    double before = -1;
    for (const double offset : {-390.0, -100.0, 0.0, 100.0, 399.0}) {
        const auto p = to_screen(camera, camera.target + forward * offset, {1280, 720});
        CHECK(p.z >= before);
        CHECK(p.z <= 1);
        before = p.z;
    }
}

TEST_CASE("framing keeps the sphere inside, and not far inside, at any shape of picture") {
    // The outline of a sphere of radius R at distance d is the cone of half angle asin(R/d): the
    // points of the sphere on that cone are the ones that leave the picture first (derived).
    const glm::dvec3 centre(4, 5, 6);
    const double radius = 70;
    for (const double aspect : {0.4, 1.0, 1.78, 3.2}) {
        const Camera camera = framed(oblique(), centre, radius, aspect);
        const glm::dvec2 size(900 * aspect, 900);
        const double spread = std::asin(radius / camera.distance);
        const glm::dvec3 back = glm::normalize(camera.eye() - centre);
        double widest = 0;
        for (int i = 0; i < 72; ++i) {
            const double turn = i * 0.08726646;
            const glm::dvec3 out = std::cos(turn) * camera.right() + std::sin(turn) * camera.up();
            const auto p = to_screen(
                camera, centre + radius * (std::sin(spread) * back + std::cos(spread) * out), size);
            CHECK((p.x > 0 && p.x < size.x && p.y > 0 && p.y < size.y));
            widest = std::max({widest, std::abs(p.x / size.x - 0.5), std::abs(p.y / size.y - 0.5)});
        }
        CHECK(widest > 0.5 * 0.85);
    }
}
