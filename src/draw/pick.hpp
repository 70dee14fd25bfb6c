#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <glm/glm.hpp>

#include "draw/camera.hpp"
#include "draw/renderer.hpp"
#include "shape/mesh.hpp"

namespace podwright {

/// A mesh that can be picked: as Item, in double and without a renderer.
struct PickTarget {
    const Mesh* mesh = nullptr;
    glm::dmat4 place{1.0};  ///< mesh to world, mm
    bool cut = true;        ///< the cutting plane acts on it
};

struct Hit {
    std::size_t index = 0;  ///< of the target
    double distance = 0;    ///< along the ray, mm
    glm::dvec3 point{0};
    glm::dvec3 normal{0};  ///< unit, of the face or of the cut that was hit
};

/// The nearest visible point along the ray. Faces that look away are not hit, except that a cut
/// solid is hit at its cap. The solids are taken to be closed.
std::optional<Hit> pick(const Ray& ray, const std::vector<PickTarget>& targets,
                        const std::optional<Cut>& cut = std::nullopt);

}  // namespace podwright
