#include "shape/outline.hpp"

#include <algorithm>
#include <cmath>

#include "core/units.hpp"
#include "shape/mesher.hpp"

namespace podwright {

namespace {

constexpr double straight = 1e-12;         // a bulge below this is a straight line
constexpr double smooth_cosine = 0.99995;  // normals within 0.57° of each other are one surface

glm::dvec2 right_of(const glm::dvec2& way) { return {way.y, -way.x}; }

/// The circular arc from `a` to `b` that sweeps 4·atan(bulge).
struct Arc {
    glm::dvec2 centre;
    double radius, start, sweep;
    int segments;

    glm::dvec2 radial(double share) const {
        const double angle = start + sweep * share;
        return {std::cos(angle), std::sin(angle)};
    }
    /// Normal to the right of the way: outward on a counter-clockwise arc.
    glm::dvec2 normal(double share) const { return radial(share) * (sweep > 0 ? 1.0 : -1.0); }
};

Arc arc_of(const glm::dvec2& a, const glm::dvec2& b, double bulge, double chord_error) {
    const double sweep = 4.0 * std::atan(bulge);
    const glm::dvec2 half = (b - a) * 0.5;
    // From the middle of the chord to the centre, to the left of the way: (1 - bulge²) / (2 bulge)
    // half chords.
    const double to_left = (1.0 - bulge * bulge) / (2.0 * bulge);
    const glm::dvec2 centre = a + half + glm::dvec2(-half.y, half.x) * to_left;
    const glm::dvec2 from = a - centre;
    const double radius = glm::length(from);
    const int circle = segments_of_circle(radius, chord_error);
    const int segments =
        std::max(1, static_cast<int>(std::ceil(circle * std::abs(sweep) / (2 * pi) - 1e-9)));
    return {centre, radius, std::atan2(from.y, from.x), sweep, segments};
}

}  // namespace

bool OutlinePoint::crease() const { return glm::dot(before, after) < smooth_cosine; }

int segments_of_circle(double radius, double chord_error) {
    if (radius <= chord_error) return 16;
    const double half_angle = std::acos(1.0 - chord_error / radius);
    return std::max(16, static_cast<int>(std::ceil(pi / half_angle - 1e-9)));
}

double sagitta(double radius, double segments) { return radius * (1.0 - std::cos(pi / segments)); }

bool has_arc(const Loop& loop) {
    return std::any_of(loop.begin(), loop.end(),
                       [](const Corner& c) { return std::abs(c.bulge) > straight; });
}

Outline flatten_outline(const Loop& loop, double chord_error) {
    Outline points;
    points.reserve(loop.size() * 4);
    glm::dvec2 last_normal{0};  // of the way that ends at the point to come
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const Corner& corner = loop[i];
        const glm::dvec2 next = loop[(i + 1) % loop.size()].at;
        if (std::abs(corner.bulge) <= straight) {
            const glm::dvec2 normal = right_of(glm::normalize(next - corner.at));
            points.push_back({corner.at, last_normal, normal});
            last_normal = normal;
            continue;
        }
        const Arc arc = arc_of(corner.at, next, corner.bulge, chord_error);
        points.push_back({corner.at, last_normal, arc.normal(0)});
        for (int k = 1; k < arc.segments; ++k) {
            const double share = static_cast<double>(k) / arc.segments;
            const glm::dvec2 normal = arc.normal(share);
            points.push_back({arc.centre + arc.radius * arc.radial(share), normal, normal});
        }
        last_normal = arc.normal(1);
    }
    if (!points.empty()) points.front().before = last_normal;
    return points;
}

Outline reversed(const Outline& outline) {
    Outline result(outline.rbegin(), outline.rend());
    for (OutlinePoint& point : result) {
        std::swap(point.before, point.after);
        point.before = -point.before;
        point.after = -point.after;
    }
    return result;
}

double chord_error_of(const Loop& loop, double chord_error) {
    double greatest = 0;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        if (std::abs(loop[i].bulge) <= straight) continue;
        const Arc arc =
            arc_of(loop[i].at, loop[(i + 1) % loop.size()].at, loop[i].bulge, chord_error);
        const double circle = arc.segments * 2 * pi / std::abs(arc.sweep);
        greatest = std::max(greatest, sagitta(arc.radius, circle));
    }
    return greatest;
}

std::vector<glm::dvec2> flatten(const Loop& loop, double chord_error) {
    std::vector<glm::dvec2> points;
    const Outline outline = flatten_outline(loop, chord_error);
    points.reserve(outline.size());
    for (const OutlinePoint& point : outline) points.push_back(point.at);
    return points;
}

}  // namespace podwright
