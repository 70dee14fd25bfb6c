#include "shape/mesh.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace podwright {

Bounds bounds(const Mesh& mesh) {
    Bounds box;
    for (const Vertex& vertex : mesh.vertices) box.add(glm::dvec3(vertex.position));
    return box;
}

void append(Mesh& mesh, const Mesh& other, const glm::dmat4& place) {
    const auto base = static_cast<std::uint32_t>(mesh.vertices.size());
    const glm::dmat3 linear(place);
    const double scale = std::cbrt(glm::determinant(linear));
    mesh.vertices.reserve(mesh.vertices.size() + other.vertices.size());
    for (const Vertex& vertex : other.vertices) {
        const glm::dvec3 position(place * glm::dvec4(glm::dvec3(vertex.position), 1.0));
        const glm::dvec3 normal = glm::normalize(linear * glm::dvec3(vertex.normal));
        mesh.vertices.push_back({glm::vec3(position), glm::vec3(normal)});
    }
    const auto moved = [base](std::uint32_t index) { return index + base; };
    std::transform(other.triangles.begin(), other.triangles.end(),
                   std::back_inserter(mesh.triangles), moved);
    std::transform(other.edges.begin(), other.edges.end(), std::back_inserter(mesh.edges), moved);
    mesh.chord_error = std::max(mesh.chord_error, other.chord_error * scale);
}

double volume(const Mesh& mesh) {
    double six_volumes = 0;
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        const glm::dvec3 a(mesh.vertices[mesh.triangles[i]].position);
        const glm::dvec3 b(mesh.vertices[mesh.triangles[i + 1]].position);
        const glm::dvec3 c(mesh.vertices[mesh.triangles[i + 2]].position);
        six_volumes += glm::dot(a, glm::cross(b, c));
    }
    return six_volumes / 6.0;
}

std::vector<std::uint32_t> welded(const Mesh& mesh) {
    struct At {
        glm::vec3 position;
        std::uint32_t vertex;
    };
    std::vector<At> order;
    order.reserve(mesh.vertices.size());
    for (const Vertex& v : mesh.vertices)
        order.push_back({v.position, static_cast<std::uint32_t>(order.size())});
    std::sort(order.begin(), order.end(), [](const At& a, const At& b) {
        if (a.position.x != b.position.x) return a.position.x < b.position.x;
        if (a.position.y != b.position.y) return a.position.y < b.position.y;
        if (a.position.z != b.position.z) return a.position.z < b.position.z;
        return a.vertex < b.vertex;
    });
    std::vector<std::uint32_t> first(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        const bool same = i > 0 && order[i].position == order[i - 1].position;
        first[order[i].vertex] = same ? first[order[i - 1].vertex] : order[i].vertex;
    }
    return first;
}

std::size_t open_edges(const Mesh& mesh) {
    // Every directed edge as one number: the lower vertex, the higher one, the direction.
    const std::vector<std::uint32_t> place_of = welded(mesh);
    std::vector<std::uint64_t> uses;
    uses.reserve(mesh.triangles.size());
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        const std::array<std::uint32_t, 3> corner{place_of[mesh.triangles[i]],
                                                  place_of[mesh.triangles[i + 1]],
                                                  place_of[mesh.triangles[i + 2]]};
        if (corner[0] == corner[1] || corner[1] == corner[2] || corner[2] == corner[0]) continue;
        for (std::size_t k = 0; k < 3; ++k) {
            const std::uint64_t from = corner[k], to = corner[(k + 1) % 3];
            uses.push_back(std::min(from, to) << 33U | std::max(from, to) << 1U |
                           (from < to ? 0U : 1U));
        }
    }
    std::sort(uses.begin(), uses.end());
    std::size_t open = 0;
    for (std::size_t i = 0; i < uses.size();) {
        std::size_t end = i + 1;
        while (end < uses.size() && uses[end] >> 1U == uses[i] >> 1U) ++end;
        if (end - i != 2 || uses[i] == uses[i + 1]) ++open;
        i = end;
    }
    return open;
}

}  // namespace podwright
