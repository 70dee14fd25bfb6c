#include "assets-generic/asset_shapes.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/units.hpp"
#include "shape/loops.hpp"
#include "shape/mesher.hpp"

namespace podwright {

namespace {

constexpr int around = 24;  // points of a ring; a multiple of six, for the socket

/// A ring of points about the x axis: a circle, or a hexagon of that inscribed radius.
struct Ring {
    double x, radius;
    bool hexagon = false;

    glm::dvec3 at(int k) const {
        const double angle = 2 * pi * (k % around) / around;
        double r = radius;
        if (hexagon) {
            // Angle from the middle of this flat.
            const double off = std::remainder(angle - pi / 6, pi / 3);
            r = radius / std::cos(off);
        }
        return {x, -r * std::sin(angle), r * std::cos(angle)};
    }
};

glm::vec3 unit(const glm::dvec3& v) { return glm::vec3(glm::normalize(v)); }

/// The band between two rings; smooth where both are circles, flat facets otherwise.
void add_band(Mesh& mesh, const Ring& a, const Ring& b) {
    const bool round = !a.hexagon && !b.hexagon;
    for (int k = 0; k < around; ++k) {
        const glm::dvec3 corner[] = {a.at(k), b.at(k), b.at(k + 1), a.at(k + 1)};
        const glm::dvec3 facet = glm::cross(corner[3] - corner[1], corner[2] - corner[0]);
        const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
        for (int i = 0; i < 4; ++i) {
            const double angle = 2 * pi * (i < 2 ? k : k + 1) / around;
            const glm::dvec3 radial(0, -std::sin(angle), std::cos(angle));
            const glm::dvec3 sloped = radial * (b.x - a.x) + glm::dvec3(a.radius - b.radius, 0, 0);
            mesh.vertices.push_back({glm::vec3(corner[i]), unit(round ? sloped : facet)});
        }
        mesh.triangles.insert(mesh.triangles.end(), {first, first + 2, first + 1});
        mesh.triangles.insert(mesh.triangles.end(), {first, first + 3, first + 2});
    }
}

/// Closes a ring with a flat face that looks along +x or -x.
void add_face(Mesh& mesh, const Ring& ring, bool forward) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    const glm::vec3 normal(forward ? 1 : -1, 0, 0);
    for (int k = 0; k < around; ++k) mesh.vertices.push_back({glm::vec3(ring.at(k)), normal});
    for (std::uint32_t k = 1; k + 1 < around; ++k) {
        const std::uint32_t b = first + k, c = first + k + 1;
        mesh.triangles.insert(mesh.triangles.end(), {first, forward ? b : c, forward ? c : b});
    }
}

void add_line(Mesh& mesh, const Ring& ring) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    for (int k = 0; k < around; ++k)
        mesh.vertices.push_back({glm::vec3(ring.at(k)), glm::vec3(1, 0, 0)});
    for (std::uint32_t k = 0; k < around; ++k)
        mesh.edges.insert(mesh.edges.end(), {first + k, first + (k + 1) % around});
}

/// Rings joined one after another, from a face that looks along -x to the floor of a socket, which
/// looks along +x.
Mesh turned_part(const std::vector<Ring>& rings) {
    Mesh mesh;
    add_face(mesh, rings.front(), false);
    for (std::size_t i = 0; i + 1 < rings.size(); ++i) add_band(mesh, rings[i], rings[i + 1]);
    add_face(mesh, rings.back(), true);
    for (const Ring& ring : rings) {
        add_line(mesh, ring);
        if (!ring.hexagon)
            mesh.chord_error =
                std::max(mesh.chord_error, ring.radius * (1 - std::cos(pi / around)));
    }
    return mesh;
}

}  // namespace

Mesh cap_screw_mesh() {
    return turned_part({{-6, 1.1},
                        {-5.6, 1.5},
                        {0, 1.5},
                        {0, 2.75},
                        {2.6, 2.75},
                        {3, 2.35},
                        {3, 1.25, true},
                        {1.5, 1.25, true}});
}

Mesh set_screw_mesh() {
    return turned_part(
        {{-3, 0.8}, {-2.4, 1.5}, {-0.2, 1.5}, {0, 1.3}, {0, 0.75, true}, {-1.3, 0.75, true}});
}

Mesh end_bell_mesh() {
    const double error = 0.03;
    const auto none = [](std::string_view) -> const Mesh& { throw std::out_of_range("no mesh"); };
    Mesh mesh;
    const auto add = [&](const Solid& solid, const glm::dmat4& place) {
        append(mesh, mesh_of(solid, error, none), place);
    };
    const auto at = [](double x) {
        glm::dmat4 m(1.0);
        m[3].x = x;
        return m;
    };
    // Wall of the cup.
    add(Revolved{straight({{-7.4, 15.6},
                           {0, 15.6},
                           {0, 17.9},
                           {-1.2, 17.9},
                           {-1.2, 17.5},
                           {-6.2, 17.5},
                           {-7.4, 16.3}})},
        at(0));
    // Its back, with vents.
    Extruded back{circle({0, 0}, 15.6), {}, 1.4};
    for (int i = 0; i < 6; ++i) {
        const double middle = pi / 3 * i + pi / 6;
        back.holes.push_back(reversed(kidney(7.2, 13.2, middle - 0.30, middle + 0.30)));
    }
    add(back, at(-6.9));
    // Bearing housing and brush towers.
    add(Revolved{straight({{-8.6, 0}, {-3, 0}, {-3, 5}, {-7.8, 5}, {-8.6, 4.2}})}, at(0));
    for (const double side : {1.0, -1.0}) {
        const Loop tower = rectangle({side * 10.6 - 4.2, -2.6}, {side * 10.6 + 4.2, 2.6}, 0.6);
        add(Extruded{tower, {}, 2.6}, at(-9));
        const Loop spring = rectangle({side * 10.6 - 1.6, -3.9}, {side * 10.6 + 1.6, 3.9}, 0.4);
        add(Extruded{spring, {}, 2.0}, at(-8.6));
    }
    return mesh;
}

Mesh own_hub_mesh() {
    const auto none = [](std::string_view) -> const Mesh& { throw std::out_of_range("no mesh"); };
    const Revolved hub{straight({{0, 3.175},
                                 {30, 3.175},
                                 {30, 4.5},
                                 {29.7, 4.8},
                                 {28, 4.8},
                                 {28, 9.9},
                                 {27.7, 10.2},
                                 {25.8, 10.2},
                                 {25.5, 9.9},
                                 {25.5, 7.4},
                                 {23.5, 5.6},
                                 {11, 5.2},
                                 {9, 6},
                                 {1, 6},
                                 {0.6, 5.6},
                                 {0.6, 4.6},
                                 {0, 4.6}})};
    return mesh_of(hub, 0.01, none);
}

std::vector<NamedMesh> asset_meshes() {
    std::vector<NamedMesh> all;
    all.push_back({"cap_screw", cap_screw_mesh()});
    all.push_back({"set_screw", set_screw_mesh()});
    all.push_back({"end_bell", end_bell_mesh()});
    return all;
}

std::vector<NamedMesh> scene_meshes() {
    std::vector<NamedMesh> all;
    all.push_back({"own-hub", own_hub_mesh()});
    return all;
}

}  // namespace podwright
