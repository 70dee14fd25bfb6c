#include "draw/pick.hpp"

#include <cmath>
#include <limits>

namespace podwright {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// The part of a ray that may be hit, as distances from its start.
struct Span {
    double from = 0;
    double to = infinity;
};

Span kept_span(const Ray& ray, const Cut& cut) {
    const glm::dvec3 normal(cut.normal);
    const double slope = glm::dot(normal, ray.direction);
    const double away = glm::dot(normal, ray.from) - double{cut.offset};  // > 0: removed side
    if (slope == 0) return away > 0 ? Span{infinity, -infinity} : Span{};
    const double crossing = -away / slope;
    if (slope < 0) return {std::max(crossing, 0.0), infinity};
    return {0, crossing};
}

bool meets(const Bounds& box, const glm::dvec3& from, const glm::dvec3& inverse, Span span) {
    for (int i = 0; i < 3; ++i) {
        const double a = (box.low[i] - from[i]) * inverse[i];
        const double b = (box.high[i] - from[i]) * inverse[i];
        span.from = std::fmax(span.from, std::fmin(a, b));
        span.to = std::fmin(span.to, std::fmax(a, b));
    }
    return span.from <= span.to;
}

Bounds box_of(const Mesh& mesh) {
    glm::vec3 low(std::numeric_limits<float>::max());
    glm::vec3 high(-low);
    for (const Vertex& vertex : mesh.vertices) {
        low = glm::min(low, vertex.position);
        high = glm::max(high, vertex.position);
    }
    return {low, high};
}

struct Crossing {
    double distance = infinity;
    glm::dvec3 normal{0};  // as long as twice the triangle's area
};

// Nearest triangle, whichever way it faces (the method of Moeller and Trumbore, 1997).
Crossing nearest(const Mesh& mesh, const glm::dvec3& from, const glm::dvec3& direction, Span span) {
    Crossing best;
    best.distance = span.to;
    bool found = false;
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        const glm::dvec3 a(mesh.vertices[mesh.triangles[i]].position);
        const glm::dvec3 ab = glm::dvec3(mesh.vertices[mesh.triangles[i + 1]].position) - a;
        const glm::dvec3 ac = glm::dvec3(mesh.vertices[mesh.triangles[i + 2]].position) - a;
        const glm::dvec3 across = glm::cross(direction, ac);
        const double determinant = glm::dot(ab, across);
        const glm::dvec3 away = from - a;
        const double u = glm::dot(away, across);
        // Both sides of the test are scaled by the determinant, so that most triangles need no
        // division.
        const double size = std::abs(determinant);
        const double sign = determinant < 0 ? -1 : 1;
        if (size == 0 || u * sign < 0 || u * sign > size) continue;
        const glm::dvec3 turned = glm::cross(away, ab);
        const double v = glm::dot(direction, turned) * sign;
        if (v < 0 || u * sign + v > size) continue;
        const double distance = glm::dot(ac, turned) / determinant;
        if (distance < span.from || distance >= best.distance) continue;
        best = {distance, glm::cross(ab, ac)};
        found = true;
    }
    return found ? best : Crossing{};
}

}  // namespace

std::optional<Hit> pick(const Ray& ray, const std::vector<PickTarget>& targets,
                        const std::optional<Cut>& cut) {
    std::optional<Hit> best;
    for (std::size_t index = 0; index < targets.size(); ++index) {
        const PickTarget& target = targets[index];
        const bool is_cut = cut.has_value() && target.cut;
        Span span = is_cut ? kept_span(ray, *cut) : Span{};
        if (best && best->distance < span.from) continue;
        // In the mesh's frame, with the direction left unscaled: distances stay those of the world.
        const glm::dmat4 back = glm::inverse(target.place);
        const glm::dvec3 from(back * glm::dvec4(ray.from, 1));
        const glm::dvec3 direction(back * glm::dvec4(ray.direction, 0));
        if (!meets(box_of(*target.mesh), from, 1.0 / direction, span)) continue;
        const Crossing crossing = nearest(*target.mesh, from, direction, span);
        if (crossing.distance == infinity) continue;
        Hit hit;
        hit.index = index;
        if (glm::dot(crossing.normal, direction) < 0) {
            hit.distance = crossing.distance;
            hit.normal = glm::normalize(glm::transpose(glm::dmat3(back)) * crossing.normal);
        } else if (is_cut && span.from > 0) {
            hit.distance = span.from;
            hit.normal = glm::normalize(glm::dvec3(cut->normal));
        } else {
            continue;
        }
        if (best && best->distance <= hit.distance) continue;
        hit.point = ray.from + hit.distance * ray.direction;
        best = hit;
    }
    return best;
}

}  // namespace podwright
