#include "draw/section.hpp"

namespace podwright {

std::vector<glm::vec3> section_lines(const std::vector<glm::vec3>& positions,
                                     const std::vector<std::uint32_t>& triangles,
                                     const glm::dvec3& normal, double offset) {
    std::vector<double> heights;
    heights.reserve(positions.size());
    for (const auto& p : positions) heights.push_back(glm::dot(normal, glm::dvec3(p)) - offset);

    std::vector<glm::vec3> lines;
    for (std::size_t i = 0; i + 2 < triangles.size(); i += 3) {
        for (std::size_t corner = 0; corner < 3; ++corner) {
            const auto a = triangles[i + corner];
            const auto b = triangles[i + (corner + 1) % 3];
            if ((heights[a] < 0) == (heights[b] < 0)) continue;
            const double share = heights[a] / (heights[a] - heights[b]);
            lines.emplace_back(glm::mix(glm::dvec3(positions[a]), glm::dvec3(positions[b]), share));
        }
    }
    return lines;
}

}  // namespace podwright
