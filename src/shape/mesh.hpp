#pragma once

#include <cstdint>
#include <vector>

#include <glm/glm.hpp>

namespace podwright {

struct Vertex {
    glm::vec3 position;  ///< mm, in the frame of the part
    glm::vec3 normal;    ///< unit, outward
};

/// A closed triangle mesh for display; counter-clockwise seen from outside. Vertices are shared
/// only where the surface is smooth.
struct Mesh {
    std::vector<Vertex> vertices;
    std::vector<std::uint32_t> triangles;  ///< three indices each
    std::vector<std::uint32_t> edges;      ///< feature edges, two indices each
    double chord_error = 0;                ///< greatest distance from the true surface, mm
};

struct Bounds {
    glm::dvec3 low{1e300};
    glm::dvec3 high{-1e300};
    bool empty() const { return low.x > high.x; }
    void add(const glm::dvec3& p) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
};

Bounds bounds(const Mesh& mesh);

/// Appends `other`, moved by `place` (a rigid motion or mirror-free scale), to `mesh`.
void append(Mesh& mesh, const Mesh& other, const glm::dmat4& place);

/// Signed volume (mm³) by the divergence theorem; positive for a closed mesh that faces outward.
double volume(const Mesh& mesh);

/// For every vertex the first vertex at exactly the same position. O(n log n).
std::vector<std::uint32_t> welded(const Mesh& mesh);

/// Number of edges (by position) that are not shared by exactly two opposite triangles; 0 = closed.
/// Triangles of which two corners coincide do not count. O(n log n).
std::size_t open_edges(const Mesh& mesh);

}  // namespace podwright
