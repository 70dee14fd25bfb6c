#include "file/creases.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace podwright {

namespace {

struct HalfEdge {
    std::uint32_t low, high;  ///< positions, low < high
    std::uint32_t from, to;   ///< vertices
    std::size_t order;
    glm::dvec3 normal;
};

/// For every vertex the first vertex at the same position.
std::vector<std::uint32_t> merged(const Mesh& mesh) {
    const auto before = [&](std::uint32_t a, std::uint32_t b) {
        const glm::vec3& p = mesh.vertices[a].position;
        const glm::vec3& q = mesh.vertices[b].position;
        if (p.x != q.x) return p.x < q.x;
        if (p.y != q.y) return p.y < q.y;
        if (p.z != q.z) return p.z < q.z;
        return a < b;
    };
    std::vector<std::uint32_t> order(mesh.vertices.size());
    std::iota(order.begin(), order.end(), 0U);
    std::sort(order.begin(), order.end(), before);
    std::vector<std::uint32_t> first(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        const bool same =
            i > 0 && mesh.vertices[order[i]].position == mesh.vertices[order[i - 1]].position;
        first[order[i]] = same ? first[order[i - 1]] : order[i];
    }
    return first;
}

std::vector<HalfEdge> half_edges(const Mesh& mesh) {
    const std::vector<std::uint32_t> first = merged(mesh);
    std::vector<HalfEdge> edges;
    edges.reserve(mesh.triangles.size());
    for (std::size_t t = 0; t + 2 < mesh.triangles.size(); t += 3) {
        const std::uint32_t* corner = &mesh.triangles[t];
        const glm::dvec3 a = mesh.vertices[corner[0]].position;
        const glm::dvec3 b = mesh.vertices[corner[1]].position;
        const glm::dvec3 c = mesh.vertices[corner[2]].position;
        const glm::dvec3 area = glm::cross(b - a, c - a);
        const double size = glm::length(area);
        if (!(size > 0)) continue;
        for (std::size_t k = 0; k < 3; ++k) {
            const std::uint32_t from = corner[k];
            const std::uint32_t to = corner[(k + 1) % 3];
            edges.push_back({std::min(first[from], first[to]), std::max(first[from], first[to]),
                             from, to, t + k, area / size});
        }
    }
    return edges;
}

}  // namespace

std::vector<std::uint32_t> crease_edges(const Mesh& mesh, double angle) {
    std::vector<HalfEdge> edges = half_edges(mesh);
    std::sort(edges.begin(), edges.end(), [](const HalfEdge& a, const HalfEdge& b) {
        if (a.low != b.low) return a.low < b.low;
        return a.high != b.high ? a.high < b.high : a.order < b.order;
    });
    const double least = std::cos(angle);
    std::vector<HalfEdge> creases;
    for (std::size_t i = 0; i < edges.size();) {
        std::size_t end = i + 1;
        bool sharp = false;
        for (; end < edges.size() && edges[end].low == edges[i].low &&
               edges[end].high == edges[i].high;
             ++end)
            sharp = sharp || glm::dot(edges[i].normal, edges[end].normal) < least;
        if (sharp || end == i + 1) creases.push_back(edges[i]);
        i = end;
    }
    std::sort(creases.begin(), creases.end(),
              [](const HalfEdge& a, const HalfEdge& b) { return a.order < b.order; });
    std::vector<std::uint32_t> indices;
    for (const HalfEdge& crease : creases) {
        indices.push_back(crease.from);
        indices.push_back(crease.to);
    }
    return indices;
}

}  // namespace podwright
