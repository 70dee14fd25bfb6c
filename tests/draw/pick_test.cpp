#include "draw/pick.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "test_meshes.hpp"

using namespace podwright;

namespace {

Ray towards(const glm::dvec3& from, const glm::dvec3& to) {
    return {from, glm::normalize(to - from)};
}

}  // namespace

// Expected hits: the quadratic for a ray and a sphere, and planes (derived). A sphere of 256 x 128
// facets lies within r (1 - cos(pi / 128)) = 0.0003 r of the true one along a radius (derived).

TEST_CASE("picking a sphere finds the near point and its normal") {
    const double radius = 20;
    const Mesh mesh = test_meshes::sphere(radius, 256, 128);
    const glm::dvec3 centre(5, 60, -7);
    const std::vector<PickTarget> targets{{&mesh, glm::translate(glm::dmat4(1), centre), true}};
    for (const auto& aim : {glm::dvec3(5, 60, -7), glm::dvec3(12, 63, -2), glm::dvec3(0, 70, 3)}) {
        const Ray ray = towards({300, -40, 90}, aim);
        const auto hit = pick(ray, targets);
        REQUIRE(hit);
        const glm::dvec3 away = ray.from - centre;
        const double b = glm::dot(away, ray.direction);
        const double expected = -b - std::sqrt(b * b - glm::dot(away, away) + radius * radius);
        CHECK(hit->index == 0);
        CHECK(hit->distance == Approx(expected).margin(0.02));
        CHECK(glm::length(hit->point - centre) == Approx(radius).margin(0.01));
        CHECK(glm::dot(hit->normal, glm::normalize(hit->point - centre)) > 0.999);
    }
    CHECK_FALSE(pick(towards({300, -40, 90}, {5, 60, 14}), targets));
    CHECK_FALSE(pick({{300, -40, 90}, glm::normalize(glm::dvec3(1, 1, 1))}, targets));
}

TEST_CASE("picking takes the nearest of several, in world millimetres under any scale") {
    const Mesh box = test_meshes::box({10, 10, 10});
    const glm::dmat4 one(1);
    const std::vector<PickTarget> targets{
        {&box, glm::translate(one, glm::dvec3(0, 0, 0)), true},
        {&box, glm::scale(glm::translate(one, glm::dvec3(50, 0, 0)), glm::dvec3(2)), true}};
    const auto from_right = pick({{200, 1, 1}, {-1, 0, 0}}, targets);
    REQUIRE(from_right);
    CHECK(from_right->index == 1);
    CHECK(from_right->distance == Approx(140));
    CHECK(glm::length(from_right->normal - glm::dvec3(1, 0, 0)) < 1e-9);
    const auto from_left = pick({{-200, 1, 1}, {1, 0, 0}}, targets);
    REQUIRE(from_left);
    CHECK(from_left->index == 0);
    CHECK(from_left->distance == Approx(195));
}

TEST_CASE("picking meets a cut solid at its cap and passes through what is removed") {
    const Mesh ball = test_meshes::sphere(20, 256, 128);
    std::vector<PickTarget> targets{{&ball, glm::dmat4(1), true}};
    const Cut cut{{1, 0, 0}, -5};  // removes x > -5
    const auto cap = pick({{100, 3, 2}, {-1, 0, 0}}, targets, cut);
    REQUIRE(cap);
    CHECK(cap->distance == Approx(105));
    CHECK(glm::length(cap->normal - glm::dvec3(1, 0, 0)) < 1e-9);
    // The cap's radius is sqrt(20^2 - 5^2) = 19.36: 19.6 passes by.
    CHECK_FALSE(pick({{100, 19.6, 0}, {-1, 0, 0}}, targets, cut));
    CHECK(pick({{100, 19.6, 0}, {-1, 0, 0}}, targets));
    const auto behind = pick({{-100, 0, 0}, {1, 0, 0}}, targets, cut);
    REQUIRE(behind);
    CHECK(behind->distance == Approx(80).margin(0.01));
    targets[0].cut = false;
    const auto whole = pick({{100, 3, 2}, {-1, 0, 0}}, targets, cut);
    REQUIRE(whole);
    CHECK(whole->distance < 81);
}

TEST_CASE("picking among a hundred thousand triangles meets the surface where it is") {
    // Derived: a ray along x at (y, z) meets a ball of 20 mm at x = sqrt(400 - y² - z²); the mesh
    // lies inside the ball by its chord error, r (1 - cos(pi/250)) + r (1 - cos(pi/400)), some
    // 0.002 mm, more along the ray where that grazes.
    const Mesh ball = test_meshes::sphere(20, 250, 200);
    REQUIRE(ball.triangles.size() / 3 == 100000);
    const std::vector<PickTarget> targets{{&ball, glm::dmat4(1), true}};
    for (const double y : {-15.0, -7.0, 1.0, 12.0})
        for (const double z : {-9.0, 1.0, 14.0}) {
            const double square = 400 - y * y - z * z;
            INFO(y << " " << z);
            const auto hit = pick({{100, y, z}, {-1, 0, 0}}, targets);
            REQUIRE(hit.has_value() == (square > 0));
            if (hit) CHECK(hit->distance == Approx(100 - std::sqrt(square)).margin(0.02));
        }
}
