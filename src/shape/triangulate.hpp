#pragma once

#include <cstdint>
#include <vector>

#include <glm/glm.hpp>

namespace podwright {

/// Triangles (three indices each, counter-clockwise) that fill a counter-clockwise polygon less its
/// holes. Indices count through all rings, the outline first. No points are added, and every edge
/// of a ring is an edge of one triangle. Throws std::runtime_error for rings that cross each other.
std::vector<std::uint32_t> triangulate(const std::vector<std::vector<glm::dvec2>>& rings);

}  // namespace podwright
