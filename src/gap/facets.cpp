#include "gap/facets.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/units.hpp"

namespace podwright {

namespace {

using glm::dvec3;
using Triangle = Facets::Triangle;

constexpr std::size_t leaf = 4;  // stretches of so few are not kept as nodes
constexpr double far = 2.5;      // radii away a stretch is taken as one dipole

dvec3 middle(const Triangle& t) { return (t[0] + t[1] + t[2]) / 3.0; }
dvec3 vector_area(const Triangle& t) { return glm::cross(t[1] - t[0], t[2] - t[0]) * 0.5; }

/// Of the triangles that `at` gives for the numbers from begin to end.
template <class At>
Facets::Sphere sphere_of(std::size_t begin, std::size_t end, At at) {
    dvec3 low(1e300), high(-1e300);
    for (std::size_t i = begin; i < end; ++i)
        for (const dvec3& p : at(i)) {
            low = glm::min(low, p);
            high = glm::max(high, p);
        }
    const dvec3 centre = (low + high) * 0.5;
    double squared = 0;
    for (std::size_t i = begin; i < end; ++i)
        for (const dvec3& p : at(i)) squared = std::max(squared, glm::dot(p - centre, p - centre));
    return {centre, std::sqrt(squared)};
}

dvec3 nearest_of_triangle(const Triangle& t, const dvec3& p) {
    const dvec3 u = t[1] - t[0], v = t[2] - t[0], across = glm::cross(u, v);
    const double area = glm::dot(across, across);
    if (area > 0) {
        const dvec3 w = p - t[0];
        const double b = glm::dot(glm::cross(w, v), across) / area;
        const double c = glm::dot(glm::cross(u, w), across) / area;
        if (b >= 0 && c >= 0 && b + c <= 1) return t[0] + u * b + v * c;
    }
    dvec3 best = t[0];
    for (std::size_t i = 0; i < 3; ++i) {
        const dvec3 way = t[(i + 1) % 3] - t[i];
        const double whole = glm::dot(way, way);
        const double share =
            whole > 0 ? std::clamp(glm::dot(p - t[i], way) / whole, 0.0, 1.0) : 0.0;
        const dvec3 q = t[i] + way * share;
        if (glm::length(q - p) < glm::length(best - p)) best = q;
    }
    return best;
}

/// Solid angle of a triangle (Van Oosterom and Strackee).
double solid_angle(const Triangle& t, const dvec3& p) {
    const dvec3 a = t[0] - p, b = t[1] - p, c = t[2] - p;
    const double la = glm::length(a), lb = glm::length(b), lc = glm::length(c);
    return 2 * std::atan2(
                   glm::dot(a, glm::cross(b, c)),
                   la * lb * lc + glm::dot(a, b) * lc + glm::dot(b, c) * la + glm::dot(c, a) * lb);
}

}  // namespace

Facets::Facets(std::vector<Triangle> triangles) : triangles_(std::move(triangles)) {
    std::size_t nodes = 2;
    for (std::size_t size = triangles_.size(); size > leaf; size = (size + 1) / 2) nodes *= 2;
    nodes_.resize(nodes);
    std::vector<std::uint32_t> order(triangles_.size());
    std::iota(order.begin(), order.end(), 0U);
    build(all(), order);
    std::vector<Triangle> sorted;
    sorted.reserve(triangles_.size());
    for (const std::uint32_t i : order) sorted.push_back(triangles_[i]);
    triangles_ = std::move(sorted);
}

void Facets::build(const Stretch& stretch, std::vector<std::uint32_t>& order) {
    if (stretch.size() == 0 || stretch.node >= nodes_.size()) return;
    const auto at = [&](std::size_t i) -> const Triangle& { return triangles_[order[i]]; };
    Node& node = nodes_[stretch.node];
    node.sphere = sphere_of(stretch.begin, stretch.end, at);
    dvec3 low(1e300), high(-1e300);
    double total = 0;
    for (std::size_t i = stretch.begin; i < stretch.end; ++i) {
        const dvec3 area = vector_area(at(i)), centre = middle(at(i));
        node.area += area;
        node.centroid += centre * glm::length(area);
        total += glm::length(area);
        low = glm::min(low, centre);
        high = glm::max(high, centre);
    }
    node.centroid = total > 0 ? node.centroid / total : node.sphere.centre;
    if (stretch.size() < 2) return;
    const dvec3 size = high - low;
    const int axis = size.x >= size.y && size.x >= size.z ? 0 : size.y >= size.z ? 1 : 2;
    const auto place = [&](std::uint32_t i) {
        const Triangle& t = triangles_[i];
        return t[0][axis] + t[1][axis] + t[2][axis];
    };
    const auto begin = order.begin() + static_cast<std::ptrdiff_t>(stretch.begin);
    std::nth_element(begin, begin + static_cast<std::ptrdiff_t>(stretch.size() / 2),
                     order.begin() + static_cast<std::ptrdiff_t>(stretch.end),
                     [&](std::uint32_t i, std::uint32_t k) { return place(i) < place(k); });
    build(stretch.first(), order);
    build(stretch.second(), order);
}

Facets::Sphere Facets::sphere(const Stretch& stretch) const {
    if (stretch.node < nodes_.size()) return nodes_[stretch.node].sphere;
    return sphere_of(stretch.begin, stretch.end,
                     [&](std::size_t i) -> const Triangle& { return triangles_[i]; });
}

void Facets::nearest(const Stretch& stretch, const dvec3& p, dvec3& best, double& squared) const {
    if (stretch.size() <= leaf || 2 * stretch.node + 1 >= nodes_.size()) {
        for (std::size_t i = stretch.begin; i < stretch.end; ++i) {
            const dvec3 q = nearest_of_triangle(triangles_[i], p);
            const double d = glm::dot(q - p, q - p);
            if (d < squared) squared = d, best = q;
        }
        return;
    }
    const auto away = [&](const Stretch& s) {
        const Sphere& sphere = nodes_[s.node].sphere;
        return std::max(0.0, glm::length(p - sphere.centre) - sphere.radius);
    };
    Stretch near = stretch.first(), other = stretch.second();
    double first = away(near), second = away(other);
    // Inside of both spheres the nearer centre promises more.
    if (second < first ||
        (first == second && glm::length(p - nodes_[other.node].sphere.centre) <
                                glm::length(p - nodes_[near.node].sphere.centre))) {
        std::swap(near, other);
        std::swap(first, second);
    }
    if (first * first < squared) nearest(near, p, best, squared);
    if (second * second < squared) nearest(other, p, best, squared);
}

dvec3 Facets::nearest(const dvec3& p) const {
    dvec3 best(0);
    double squared = 1e300;
    nearest(all(), p, best, squared);
    return best;
}

double Facets::winding(const Stretch& stretch, const dvec3& p) const {
    if (stretch.size() <= leaf || 2 * stretch.node + 1 >= nodes_.size()) {
        double angle = 0;
        for (std::size_t i = stretch.begin; i < stretch.end; ++i)
            angle += solid_angle(triangles_[i], p);
        return angle;
    }
    const Node& node = nodes_[stretch.node];
    const dvec3 way = node.centroid - p;
    const double distance = glm::length(way);
    const double reach = node.sphere.radius + glm::length(node.centroid - node.sphere.centre);
    if (distance > far * reach) return glm::dot(way, node.area) / (distance * distance * distance);
    return winding(stretch.first(), p) + winding(stretch.second(), p);
}

bool Facets::contains(const dvec3& p) const {
    const Sphere& whole = nodes_[1].sphere;
    if (glm::length(p - whole.centre) > whole.radius) return false;
    return winding(all(), p) > 2 * pi;
}

}  // namespace podwright
