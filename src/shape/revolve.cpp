#include "shape/revolve.hpp"

#include <algorithm>
#include <cmath>

#include "core/units.hpp"
#include "shape/outline.hpp"

namespace podwright {

namespace {

constexpr double on_axis = 1e-9;  // radius below which a point lies on the axis, mm

/// Turns profile points into rings of vertices; a point on the axis is a ring of one.
class Rings {
public:
    Rings(Mesh& mesh, int segments) : mesh_(mesh), segments_(segments) {
        for (int k = 0; k < segments; ++k) {
            const double angle = 2 * pi * k / segments;
            round_.emplace_back(-std::sin(angle), std::cos(angle));
        }
    }

    struct Ring {
        std::uint32_t first;
        bool pole;
    };

    Ring add(const glm::dvec2& at, const glm::dvec2& normal) {
        const Ring ring{static_cast<std::uint32_t>(mesh_.vertices.size()), at.y <= on_axis};
        if (ring.pole) {
            mesh_.vertices.push_back(
                {glm::vec3(at.x, 0, 0), glm::vec3(normal.x < 0 ? -1.0 : 1.0, 0, 0)});
            return ring;
        }
        for (const glm::dvec2& r : round_)
            mesh_.vertices.push_back(
                {glm::vec3(glm::dvec3(at.x, at.y * r.x, at.y * r.y)),
                 glm::vec3(glm::dvec3(normal.x, normal.y * r.x, normal.y * r.y))});
        return ring;
    }

    /// The band from ring `a` to ring `b`, in the order of the profile.
    void band(Ring a, Ring b) {
        if (a.pole && b.pole) return;
        for (int k = 0; k < segments_; ++k) {
            const std::uint32_t a0 = at(a, k), a1 = at(a, k + 1);
            const std::uint32_t b0 = at(b, k), b1 = at(b, k + 1);
            if (!b.pole) mesh_.triangles.insert(mesh_.triangles.end(), {a0, b0, b1});
            if (!a.pole) mesh_.triangles.insert(mesh_.triangles.end(), {a0, b1, a1});
        }
    }

    void feature(Ring a) {
        if (a.pole) return;
        for (int k = 0; k < segments_; ++k)
            mesh_.edges.insert(mesh_.edges.end(), {at(a, k), at(a, k + 1)});
    }

private:
    std::uint32_t at(Ring ring, int k) const {
        return ring.pole ? ring.first : ring.first + static_cast<std::uint32_t>(k % segments_);
    }

    Mesh& mesh_;
    int segments_;
    std::vector<glm::dvec2> round_;  // unit radial in (y, z), from +z
};

}  // namespace

Mesh revolve(const Revolved& solid, double chord_error) {
    const double along = has_arc(solid.profile) ? chord_error / 2 : 0;
    const double around = chord_error - along;
    const Outline profile = flatten_outline(solid.profile, along > 0 ? along : chord_error);
    const auto largest = std::max_element(
        profile.begin(), profile.end(),
        [](const OutlinePoint& a, const OutlinePoint& b) { return a.at.y < b.at.y; });
    const double radius = largest == profile.end() ? 0 : largest->at.y;
    const int segments = segments_of_circle(radius, around);

    Mesh mesh;
    Rings rings(mesh, segments);
    std::vector<Rings::Ring> arriving, leaving;  // ring of each point on the way in and out
    for (const OutlinePoint& point : profile) {
        // Where the profile runs along the axis there is no surface, only the face beside it.
        const bool pole = point.at.y <= on_axis;
        const bool after_axis = pole && std::abs(point.before.x) < on_axis;
        const bool before_axis = pole && std::abs(point.after.x) < on_axis;
        leaving.push_back(rings.add(point.at, before_axis ? point.before : point.after));
        arriving.push_back(point.crease()
                               ? rings.add(point.at, after_axis ? point.after : point.before)
                               : leaving.back());
        if (point.crease()) rings.feature(leaving.back());
    }
    for (std::size_t i = 0; i < profile.size(); ++i)
        rings.band(leaving[i], arriving[(i + 1) % profile.size()]);
    mesh.chord_error = sagitta(radius, segments);
    if (along > 0) mesh.chord_error += chord_error_of(solid.profile, along);
    return mesh;
}

}  // namespace podwright
