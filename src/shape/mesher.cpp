#include "shape/mesher.hpp"

#include <algorithm>
#include <array>

#include "shape/gear_outline.hpp"
#include "shape/loops.hpp"
#include "shape/outline.hpp"
#include "shape/revolve.hpp"
#include "shape/triangulate.hpp"

namespace podwright {

namespace {

std::uint32_t add_vertex(Mesh& mesh, double x, const glm::dvec2& at, const glm::dvec3& normal) {
    mesh.vertices.push_back({glm::vec3(glm::dvec3(x, at.x, at.y)), glm::vec3(normal)});
    return static_cast<std::uint32_t>(mesh.vertices.size() - 1);
}

/// The face at `x`, looking along +x or -x, and the line round each ring.
void add_cap(Mesh& mesh, const std::vector<Outline>& rings,
             const std::vector<std::uint32_t>& triangles, double x, bool forward) {
    const glm::dvec3 normal(forward ? 1 : -1, 0, 0);
    const auto base = static_cast<std::uint32_t>(mesh.vertices.size());
    for (const Outline& ring : rings) {
        const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
        const auto count = static_cast<std::uint32_t>(ring.size());
        for (std::uint32_t i = 0; i < count; ++i) {
            add_vertex(mesh, x, ring[i].at, normal);
            mesh.edges.insert(mesh.edges.end(), {first + i, first + (i + 1) % count});
        }
    }
    for (std::size_t i = 0; i + 2 < triangles.size(); i += 3) {
        const std::uint32_t a = base + triangles[i];
        const std::uint32_t b = base + triangles[i + 1], c = base + triangles[i + 2];
        mesh.triangles.insert(mesh.triangles.end(), {a, forward ? b : c, forward ? c : b});
    }
}

/// The wall over one ring from `low` to `high`.
void add_wall(Mesh& mesh, const Outline& ring, double low, double high) {
    struct Pair {
        std::uint32_t low, high;
    };
    const auto add = [&](const OutlinePoint& p, const glm::dvec2& normal) {
        const glm::dvec3 n(0, normal.x, normal.y);
        return Pair{add_vertex(mesh, low, p.at, n), add_vertex(mesh, high, p.at, n)};
    };
    std::vector<Pair> arriving, leaving;
    for (const OutlinePoint& point : ring) {
        leaving.push_back(add(point, point.after));
        arriving.push_back(point.crease() ? add(point, point.before) : leaving.back());
        if (point.crease())
            mesh.edges.insert(mesh.edges.end(), {leaving.back().low, leaving.back().high});
    }
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Pair a = leaving[i], b = arriving[(i + 1) % ring.size()];
        mesh.triangles.insert(mesh.triangles.end(), {a.low, b.low, b.high, a.low, b.high, a.high});
    }
}

/// Outline (first ring) and holes extruded along x.
Mesh prism(const std::vector<Outline>& rings, double low, double high) {
    std::vector<std::vector<glm::dvec2>> points;
    for (const Outline& ring : rings) {
        std::vector<glm::dvec2>& out = points.emplace_back();
        out.reserve(ring.size());
        for (const OutlinePoint& p : ring) out.push_back(p.at);
    }
    const std::vector<std::uint32_t> triangles = triangulate(points);
    Mesh mesh;
    add_cap(mesh, rings, triangles, low, false);
    add_cap(mesh, rings, triangles, high, true);
    for (const Outline& ring : rings) add_wall(mesh, ring, low, high);
    return mesh;
}

Mesh extrude(const Extruded& solid, double chord_error) {
    std::vector<Outline> rings{flatten_outline(solid.outline, chord_error)};
    double worst = chord_error_of(solid.outline, chord_error);
    for (const Loop& hole : solid.holes) {
        rings.push_back(flatten_outline(hole, chord_error));
        worst = std::max(worst, chord_error_of(hole, chord_error));
    }
    Mesh mesh = prism(rings, 0, solid.thickness);
    mesh.chord_error = worst;
    return mesh;
}

Mesh toothed_ring(const ToothedRing& solid, double chord_error) {
    std::vector<Outline> rings{gear_outline(solid.gear, chord_error)};
    double worst = gear_chord_error(solid.gear, chord_error);
    if (solid.bore > 0) {
        const Loop bore = circle_hole({0, 0}, solid.bore / 2);
        rings.push_back(flatten_outline(bore, chord_error));
        worst = std::max(worst, chord_error_of(bore, chord_error));
    }
    Mesh mesh = prism(rings, -solid.face / 2, solid.face / 2);
    mesh.chord_error = worst;
    return mesh;
}

Mesh box(const Box& solid) {
    const std::vector<Outline> rings{
        flatten_outline(rectangle({solid.low.y, solid.low.z}, {solid.high.y, solid.high.z}), 1)};
    return prism(rings, solid.low.x, solid.high.x);
}

template <class... F>
struct Overloaded : F... {
    using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

}  // namespace

Mesh mesh_of(const Solid& solid, double chord_error, const MeshLibrary& library) {
    return std::visit(Overloaded{[&](const Revolved& s) { return revolve(s, chord_error); },
                                 [&](const Extruded& s) { return extrude(s, chord_error); },
                                 [&](const ToothedRing& s) { return toothed_ring(s, chord_error); },
                                 [&](const Box& s) { return box(s); },
                                 [&](const Imported& s) { return library(s.name); }},
                      solid);
}

}  // namespace podwright
