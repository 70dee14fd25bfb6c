#include "bench/bent_axle.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

double mixed(double a, double b, double share) { return a + (b - a) * share; }

/// The frame of the axle: forward, along it to the left, and across both.
struct AxleFrame {
    glm::dvec3 forward, left, up;
    explicit AxleFrame(const Assembly& assembly)
        : forward(1, 0, 0),
          left(assembly.axle_direction),
          up(glm::normalize(glm::cross(forward, left))) {}
};

/// Turned about the axle, then tilted by the slopes.
glm::dmat3 turn_of(const AxleFrame& frame, const BentPoint& at) {
    const double c = std::cos(at.twist), s = std::sin(at.twist);
    // Forward goes down as the wheel rolls forward: about the axis to the left.
    const glm::dvec3 forward = frame.forward * c - frame.up * s;
    const glm::dvec3 up = frame.up * c + frame.forward * s;
    const glm::dvec3 left =
        glm::normalize(frame.left + frame.forward * at.slope_x + frame.up * at.slope_z);
    const glm::dvec3 tilted_up = glm::normalize(up - left * glm::dot(up, left));
    const glm::dvec3 tilted_forward = glm::normalize(forward - left * glm::dot(forward, left) -
                                                     tilted_up * glm::dot(forward, tilted_up));
    const glm::dmat3 to(tilted_forward, left, tilted_up);
    const glm::dmat3 from(frame.forward, frame.left, frame.up);
    return to * glm::transpose(from);
}

glm::dvec3 shift_of(const AxleFrame& frame, const BentPoint& at) {
    return frame.forward * at.x + frame.up * at.z;
}

}  // namespace

BentPoint bent_at(const BentShape& shape, double along) {
    const auto next = std::lower_bound(shape.begin(), shape.end(), along,
                                       [](const BentPoint& p, double y) { return p.along < y; });
    if (next == shape.begin() || next == shape.end()) {
        BentPoint end = next == shape.begin() ? shape.front() : shape.back();
        end.x += (along - end.along) * end.slope_x;
        end.z += (along - end.along) * end.slope_z;
        end.along = along;
        return end;
    }
    const BentPoint& a = *(next - 1);
    const BentPoint& b = *next;
    const double t = (along - a.along) / (b.along - a.along);
    return {along,
            mixed(a.x, b.x, t),
            mixed(a.z, b.z, t),
            mixed(a.slope_x, b.slope_x, t),
            mixed(a.slope_z, b.slope_z, t),
            mixed(a.twist, b.twist, t)};
}

glm::dmat4 carried(const Assembly& assembly, const BentShape& shape, double along) {
    const AxleFrame frame(assembly);
    const BentPoint at = bent_at(shape, along);
    const glm::dvec3 home = assembly.axle_point + assembly.axle_direction * along;
    const glm::dmat3 turn = turn_of(frame, at);
    glm::dmat4 result(turn);
    result[3] = glm::dvec4(home + shift_of(frame, at) - turn * home, 1);
    return result;
}

Mesh bent(const Mesh& mesh, const glm::dmat4& place, const Assembly& assembly,
          const BentShape& shape) {
    const AxleFrame frame(assembly);
    const glm::dmat3 turned(place);
    Mesh result = mesh;
    for (Vertex& vertex : result.vertices) {
        const glm::dvec3 p(place * glm::dvec4(glm::dvec3(vertex.position), 1));
        const double along = glm::dot(p - assembly.axle_point, assembly.axle_direction);
        const BentPoint at = bent_at(shape, along);
        const glm::dvec3 home = assembly.axle_point + assembly.axle_direction * along;
        const glm::dmat3 turn = turn_of(frame, at);
        vertex.position = glm::vec3(home + shift_of(frame, at) + turn * (p - home));
        vertex.normal = glm::vec3(turn * (turned * glm::dvec3(vertex.normal)));
    }
    return result;
}

}  // namespace podwright
