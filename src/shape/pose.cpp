#include <algorithm>
#include <cmath>

#include "shape/part.hpp"

namespace podwright {

namespace {

glm::dmat4 shifted(const glm::dmat4& place, const glm::dvec3& by) {
    glm::dmat4 result = place;
    result[3] += glm::dvec4(by, 0);
    return result;
}

/// `place` turned by `angle` about the line through `point` along the unit vector `axis`
/// (Rodrigues).
glm::dmat4 turned(const glm::dmat4& place, const glm::dvec3& point, const glm::dvec3& axis,
                  double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    const auto rotate = [&](const glm::dvec3& v) {
        return v * c + glm::cross(axis, v) * s + axis * (glm::dot(axis, v) * (1 - c));
    };
    glm::dmat4 result;
    for (int i = 0; i < 3; ++i) result[i] = glm::dvec4(rotate(glm::dvec3(place[i])), 0);
    result[3] = glm::dvec4(point + rotate(glm::dvec3(place[3]) - point), 1);
    return result;
}

}  // namespace

const Part* Assembly::find(std::string_view key) const {
    const auto found =
        std::find_if(parts.begin(), parts.end(), [&](const Part& p) { return p.key == key; });
    return found == parts.end() ? nullptr : &*found;
}

glm::dmat4 placed(const Assembly& assembly, const Part& part, const Pose& pose) {
    glm::dmat4 place = part.place;
    const bool with_axle = part.moves == Moves::axle || part.moves == Moves::ring;
    if (with_axle && pose.turn != 0)
        place = turned(place, assembly.axle_point, assembly.axle_direction, pose.turn);
    if (part.moves == Moves::motor && pose.turn != 0)
        place = turned(place, assembly.motor_point, {0, 1, 0}, -pose.turn * assembly.gear_ratio);
    if (part.moves == Moves::axle) {
        // An axle that binds has nowhere to go.
        const double travel = std::max(0.0, assembly.axial_float) / 2;
        place = shifted(place, assembly.axle_direction * (pose.along * travel));
    }
    return shifted(place, part.explode * pose.spread);
}

}  // namespace podwright
