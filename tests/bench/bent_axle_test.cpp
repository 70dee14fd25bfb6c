#include "bench/bent_axle.hpp"

#include <catch2/catch.hpp>

#include "core/units.hpp"

// Derived: rigid motions and straight lines between given places.
using namespace podwright;

namespace {

Assembly straight() {
    Assembly assembly;
    assembly.axle_point = {0, 0, 12};
    return assembly;
}

glm::dvec3 moved(const glm::dmat4& by, const glm::dvec3& p) {
    return glm::dvec3(by * glm::dvec4(p, 1));
}

}  // namespace

TEST_CASE("between its places the bent axle runs straight, and on beyond its ends") {
    const BentShape shape{{-10, 0, 0, 0, 0.1, 0}, {10, 2, 4, 0, 0.3, 0.2}};
    const BentPoint middle = bent_at(shape, 0);
    CHECK(middle.x == Approx(1));
    CHECK(middle.z == Approx(2));
    CHECK(middle.twist == Approx(0.1));
    CHECK(bent_at(shape, 20).z == Approx(4 + 10 * 0.3));
    CHECK(bent_at(shape, -20).z == Approx(-10 * 0.1));
    CHECK(bent_at(shape, -20).twist == 0);
}

TEST_CASE("what sits on the axle is carried with it, rigidly") {
    const Assembly assembly = straight();
    const BentShape still{{-10}, {10}};
    const glm::dvec3 p{3, 5, 20};
    CHECK(glm::length(moved(carried(assembly, still, 5), p) - p) < 1e-12);

    const BentShape up{{-10, 0, 1, 0, 0, 0}, {10, 0, 1, 0, 0, 0}};
    CHECK(glm::length(moved(carried(assembly, up, 5), p) - glm::dvec3(3, 5, 21)) < 1e-12);

    // A quarter turn forward: the foremost point of a wheel goes to the bottom.
    const BentShape wound{{-10, 0, 0, 0, 0, pi / 2}, {10, 0, 0, 0, 0, pi / 2}};
    CHECK(glm::length(moved(carried(assembly, wound, 5), {8, 5, 12}) - glm::dvec3(0, 5, 4)) <
          1e-12);

    const BentShape any{{-10, 1, 2, 0.1, -0.2, 0.3}, {10, -1, 0, 0.2, 0.1, -0.4}};
    const glm::dmat4 by = carried(assembly, any, 3);
    const glm::dvec3 q{-4, 2, 9};
    CHECK(glm::length(moved(by, p) - moved(by, q)) == Approx(glm::length(p - q)));
    CHECK(glm::determinant(glm::dmat3(by)) == Approx(1));
    // Its place on the axle goes where the axle goes.
    const BentPoint at = bent_at(any, 3);
    CHECK(glm::length(moved(by, {0, 3, 12}) - glm::dvec3(at.x, 3, 12 + at.z)) < 1e-12);
}

TEST_CASE("a bent mesh goes where rigid slices of it go") {
    const Assembly assembly = straight();
    const BentShape any{{-10, 1, 2, 0.1, -0.2, 0.3}, {10, -1, 0, 0.2, 0.1, -0.4}};
    Mesh mesh;
    for (const float y : {-8.0F, 0.0F, 6.0F}) mesh.vertices.push_back({{1, y, 14}, {1, 0, 0}});
    const Mesh result = bent(mesh, glm::dmat4(1), assembly, any);
    for (std::size_t i = 0; i < mesh.vertices.size(); ++i) {
        const glm::dvec3 p(mesh.vertices[i].position);
        const glm::dmat4 by = carried(assembly, any, p.y);
        CHECK(glm::length(moved(by, p) - glm::dvec3(result.vertices[i].position)) < 1e-5);
        CHECK(glm::length(glm::dvec3(by[0]) - glm::dvec3(result.vertices[i].normal)) < 1e-6);
    }
}
