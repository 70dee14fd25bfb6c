#include "file/creases.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace podwright {

namespace {

/// One side of a triangle: which edge by position, and where it stands in Mesh::triangles.
struct HalfEdge {
    std::uint64_t edge;  ///< lower vertex, higher vertex
    std::uint32_t order;
};

/// Unit normal of every triangle; nothing for one without area.
std::vector<glm::dvec3> facet_normals(const Mesh& mesh) {
    std::vector<glm::dvec3> normals;
    normals.reserve(mesh.triangles.size() / 3);
    for (std::size_t t = 0; t + 2 < mesh.triangles.size(); t += 3) {
        const glm::dvec3 a = mesh.vertices[mesh.triangles[t]].position;
        const glm::dvec3 b = mesh.vertices[mesh.triangles[t + 1]].position;
        const glm::dvec3 c = mesh.vertices[mesh.triangles[t + 2]].position;
        const glm::dvec3 area = glm::cross(b - a, c - a);
        const double size = glm::length(area);
        normals.push_back(size > 0 ? area / size : glm::dvec3(0));
    }
    return normals;
}

std::uint32_t next_corner(std::uint32_t order) { return order % 3 == 2 ? order - 2 : order + 1; }

/// Sorted, so that the sides of one edge follow each other.
std::vector<HalfEdge> half_edges(const Mesh& mesh, const std::vector<glm::dvec3>& normals) {
    const std::vector<std::uint32_t> first = welded(mesh);
    std::vector<HalfEdge> edges;
    edges.reserve(mesh.triangles.size());
    const std::size_t whole = normals.size() * 3;
    for (std::uint32_t i = 0; i < whole; ++i) {
        if (normals[i / 3] == glm::dvec3(0)) continue;
        const std::uint64_t from = first[mesh.triangles[i]];
        const std::uint64_t to = first[mesh.triangles[next_corner(i)]];
        edges.push_back({std::min(from, to) << 32U | std::max(from, to), i});
    }
    std::sort(edges.begin(), edges.end(), [](const HalfEdge& a, const HalfEdge& b) {
        return a.edge != b.edge ? a.edge < b.edge : a.order < b.order;
    });
    return edges;
}

}  // namespace

std::vector<std::uint32_t> crease_edges(const Mesh& mesh, double angle) {
    const std::vector<glm::dvec3> normals = facet_normals(mesh);
    const std::vector<HalfEdge> edges = half_edges(mesh, normals);
    const double least = std::cos(angle);
    std::vector<std::uint32_t> creases;
    for (std::size_t i = 0; i < edges.size();) {
        std::size_t end = i + 1;
        bool sharp = false;
        for (; end < edges.size() && edges[end].edge == edges[i].edge; ++end)
            sharp = sharp ||
                    glm::dot(normals[edges[i].order / 3], normals[edges[end].order / 3]) < least;
        if (sharp || end == i + 1) creases.push_back(edges[i].order);
        i = end;
    }
    std::sort(creases.begin(), creases.end());
    std::vector<std::uint32_t> indices;
    indices.reserve(2 * creases.size());
    for (const std::uint32_t order : creases) {
        indices.push_back(mesh.triangles[order]);
        indices.push_back(mesh.triangles[next_corner(order)]);
    }
    return indices;
}

}  // namespace podwright
