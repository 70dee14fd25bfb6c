#include "shape/mesh.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

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

std::size_t open_edges(const Mesh& mesh) {
    std::map<std::array<float, 3>, std::uint32_t> places;
    std::vector<std::uint32_t> place_of;
    place_of.reserve(mesh.vertices.size());
    for (const Vertex& v : mesh.vertices) {
        // Adding zero makes -0 and +0 one place.
        const std::array<float, 3> key{v.position.x + 0.0F, v.position.y + 0.0F,
                                       v.position.z + 0.0F};
        place_of.push_back(
            places.emplace(key, static_cast<std::uint32_t>(places.size())).first->second);
    }
    struct Uses {
        int forward = 0, backward = 0;
    };
    std::map<std::pair<std::uint32_t, std::uint32_t>, Uses> uses;
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        for (std::size_t k = 0; k < 3; ++k) {
            const std::uint32_t from = place_of[mesh.triangles[i + k]];
            const std::uint32_t to = place_of[mesh.triangles[i + (k + 1) % 3]];
            Uses& use = uses[std::minmax(from, to)];
            ++(from < to ? use.forward : use.backward);
        }
    }
    return static_cast<std::size_t>(std::count_if(uses.begin(), uses.end(), [](const auto& entry) {
        return entry.second.forward != 1 || entry.second.backward != 1;
    }));
}

}  // namespace podwright
