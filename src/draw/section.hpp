#pragma once

#include <cstdint>
#include <vector>

#include <glm/glm.hpp>

namespace podwright {

/// Where the plane dot(normal, p) = offset crosses a triangle mesh: pairs of points. Vertices on
/// the plane count as above it, so that a closed mesh gives closed lines.
std::vector<glm::vec3> section_lines(const std::vector<glm::vec3>& positions,
                                     const std::vector<std::uint32_t>& triangles,
                                     const glm::dvec3& normal, double offset);

}  // namespace podwright
