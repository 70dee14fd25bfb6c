#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "shape/loops.hpp"
#include "shape/shape_support.hpp"
#include "shape/triangulate.hpp"

using namespace podwright;

namespace {

Mesh plain_mesh(const Solid& solid, double chord_error) {
    return mesh_of(solid, chord_error, asset_mesh);
}

/// Points inside every triangle, by their barycentric coordinates.
std::vector<glm::dvec3> points_on(const Mesh& mesh) {
    std::vector<glm::dvec3> points;
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        const glm::dvec3 a(mesh.vertices[mesh.triangles[i]].position);
        const glm::dvec3 b(mesh.vertices[mesh.triangles[i + 1]].position);
        const glm::dvec3 c(mesh.vertices[mesh.triangles[i + 2]].position);
        for (int u = 0; u <= 6; ++u)
            for (int v = 0; u + v <= 6; ++v)
                points.push_back(a + (b - a) * (u / 6.0) + (c - a) * (v / 6.0));
    }
    return points;
}

/// A profile with lines, a convex and a concave arc, clear of the axis.
const Loop turned_profile{{{0, 4}, 0}, {{10, 4}, 0},   {{10, 7}, 0.41421356237309503},
                          {{8, 9}, 0}, {{6, 9}, -0.3}, {{3, 9}, 0},
                          {{0, 8}, 0}};

}  // namespace

TEST_CASE("meshes of the simple solids are closed, face outward and hold the right volume") {
    const double e = 0.002;
    // Closed forms: cylinder, cone, sphere; torus by Pappus, 2 pi² R r². An inscribed mesh is
    // smaller by at most surface area times chord error (derived).
    struct Case {
        const char* name;
        Solid solid;
        double volume, surface;
    };
    const Case cases[] = {
        {"cylinder", Revolved{rectangle({0, 0}, {8, 5})}, pi * 25 * 8, 2 * pi * 5 * (8 + 5)},
        {"tube", Revolved{rectangle({-2, 2}, {6, 5})}, pi * (25 - 4) * 8, 2 * pi * (5 + 2) * 8},
        {"cone", Revolved{straight({{0, 0}, {6, 0}, {0, 4}})}, pi * 16 * 6 / 3, pi * 4 * (4 + 7.3)},
        {"sphere", Revolved{Loop{{{-3, 0}, 0}, {{3, 0}, 1}}}, 4.0 / 3 * pi * 27, 4 * pi * 9},
        {"torus", Revolved{circle({1, 10}, 2)}, 2 * pi * pi * 10 * 4, 4 * pi * pi * 10 * 2},
        {"box", Box{{-1, -2, -3}, {4, 5, 6}}, 5 * 7 * 9, 0},
        {"plate", Extruded{rectangle({-10, -5}, {10, 5}), {circle_hole({3, 0}, 2)}, 1.5},
         (200 - pi * 4) * 1.5, 2 * pi * 2 * 1.5},
        {"ring", Extruded{circle({5, 5}, 6), {circle_hole({5, 5.5}, 4)}, 3}, pi * (36 - 16) * 3,
         2 * pi * 10 * 3},
    };
    for (const Case& c : cases) {
        INFO(c.name);
        const Mesh mesh = plain_mesh(c.solid, e);
        CHECK(open_edges(mesh) == 0);
        CHECK(worst_normal(mesh) > 0.5);
        CHECK(volume(mesh) == Approx(c.volume).margin(c.surface * e + 1e-3));
        CHECK(mesh.chord_error <= e);
        CHECK(is_finite(mesh));
    }
}

TEST_CASE("a mesh strays from its solid of revolution by no more than it states") {
    for (const double e : {0.1, 0.01}) {
        const Mesh mesh = plain_mesh(Revolved{turned_profile}, e);
        double measured = 0;
        for (const glm::dvec3& p : points_on(mesh))
            measured =
                std::max(measured, distance_to_loop({p.x, std::hypot(p.y, p.z)}, turned_profile));
        INFO("asked " << e << ", stated " << mesh.chord_error << ", measured " << measured);
        CHECK(measured <= mesh.chord_error + 2e-6);  // vertices are float
        CHECK(mesh.chord_error <= e);
        CHECK(measured > 0.4 * e);  // no finer than asked for
    }
}

TEST_CASE("a mesh strays from its extruded outline by no more than it states") {
    const Extruded solid{hull(std::vector<Circle>{{{0, 0}, 5}, {{20, 3}, 2}, {{8, 15}, 4}}),
                         {reversed(slot({2, 1}, {9, 6}, 1.5)), circle_hole({8, 15}, 2.5)},
                         3};
    for (const double e : {0.05, 0.01}) {
        const Mesh mesh = plain_mesh(solid, e);
        CHECK(open_edges(mesh) == 0);
        double measured = 0;
        for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
            if (std::abs(mesh.vertices[mesh.triangles[i]].normal.x) > 0.5F) continue;  // a face
            for (int u = 0; u <= 8; ++u) {
                const glm::dvec3 a(mesh.vertices[mesh.triangles[i]].position);
                const glm::dvec3 b(mesh.vertices[mesh.triangles[i + 1]].position);
                const glm::dvec2 p =
                    glm::dvec2(a.y, a.z) * (1 - u / 8.0) + glm::dvec2(b.y, b.z) * (u / 8.0);
                double least = distance_to_loop(p, solid.outline);
                for (const Loop& hole : solid.holes)
                    least = std::min(least, distance_to_loop(p, hole));
                measured = std::max(measured, least);
            }
        }
        INFO("asked " << e << ", stated " << mesh.chord_error << ", measured " << measured);
        CHECK(measured <= mesh.chord_error + 2e-6);
        CHECK(mesh.chord_error <= e);
        CHECK(measured > 0.4 * e);
    }
}

TEST_CASE("normals of a turned surface are those of the true surface") {
    const Mesh ball = plain_mesh(Revolved{Loop{{{-3, 0}, 0}, {{3, 0}, 1}}}, 0.01);
    for (const Vertex& v : ball.vertices)
        CHECK(glm::length(v.normal - v.position / 3.0F) < 1e-5F);  // normal of a sphere: p / r
}

TEST_CASE("feature edges are the corners and not the facets") {
    // A chamferless cylinder has two round edges; each is a closed ring of segments.
    const Mesh cylinder = plain_mesh(Revolved{rectangle({0, 0}, {8, 5})}, 0.01);
    REQUIRE(!cylinder.edges.empty());
    for (const std::uint32_t i : cylinder.edges) {
        const glm::vec3 p = cylinder.vertices[i].position;
        CHECK(std::hypot(p.y, p.z) == Approx(5).margin(1e-5));
        CHECK((std::abs(p.x) < 1e-6F || std::abs(p.x - 8) < 1e-6F));
    }
    // A box has twelve.
    CHECK(plain_mesh(Box{{0, 0, 0}, {1, 2, 3}}, 0.01).edges.size() == 24);
    // A torus has none.
    CHECK(plain_mesh(Revolved{circle({0, 10}, 2)}, 0.01).edges.empty());
}

TEST_CASE("volume and bounds of a mesh follow a rigid motion and a scale") {
    const Mesh box = plain_mesh(Box{{0, 0, 0}, {1, 2, 3}}, 0.01);
    const glm::dmat4 place{glm::dvec4(0, 2, 0, 0), glm::dvec4(0, 0, 2, 0), glm::dvec4(2, 0, 0, 0),
                           glm::dvec4(10, 20, 30, 1)};
    Mesh moved_box;
    append(moved_box, box, place);
    CHECK(volume(moved_box) == Approx(6 * 8));
    CHECK(bounds(moved_box).low == glm::dvec3(10, 20, 30));
    CHECK(bounds(moved_box).high == glm::dvec3(16, 22, 34));
    CHECK(worst_normal(moved_box) == Approx(1));
    CHECK(bounds(Mesh{}).empty());
}

TEST_CASE("a mesh with a triangle missing or turned round is seen to be open") {
    Mesh box = plain_mesh(Box{{0, 0, 0}, {1, 2, 3}}, 0.01);
    Mesh turned = box;
    std::swap(turned.triangles[0], turned.triangles[1]);
    CHECK(open_edges(turned) == 3);
    box.triangles.resize(box.triangles.size() - 3);
    CHECK(open_edges(box) == 3);
}

TEST_CASE("outlines that cross are refused") {
    const std::vector<glm::dvec2> square{{0, 0}, {4, 0}, {4, 4}, {0, 4}};
    const std::vector<glm::dvec2> across{{3, 1}, {3, 2}, {6, 2}, {6, 1}};
    CHECK_THROWS_AS(triangulate({square, across}), std::runtime_error);
}

TEST_CASE("an imported solid comes from the library, unknown names are refused") {
    CHECK(plain_mesh(Imported{"cap_screw"}, 0.01).triangles == asset_mesh("cap_screw").triangles);
    CHECK_THROWS_AS(plain_mesh(Imported{"nothing"}, 0.01), std::out_of_range);
}
