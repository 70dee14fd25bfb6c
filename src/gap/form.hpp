#pragma once

#include <memory>
#include <vector>

#include "gap/facets.hpp"
#include "gap/region.hpp"
#include "shape/mesher.hpp"
#include "shape/part.hpp"

namespace podwright {

/// A rigid motion: p -> origin + turn·p.
struct Frame {
    glm::dmat3 turn{1.0};
    glm::dvec3 origin{0};

    glm::dvec3 operator()(const glm::dvec3& p) const { return origin + turn * p; }
    glm::dvec3 back(const glm::dvec3& p) const { return glm::transpose(turn) * (p - origin); }
    /// `inner` seen from outside.
    Frame operator*(const Frame& inner) const { return {turn * inner.turn, (*this)(inner.origin)}; }
    /// `other` seen from this one.
    Frame to(const Frame& other) const {
        return {glm::transpose(turn) * other.turn, back(other.origin)};
    }
};

/// A solid made ready for measuring, in its own frame: everything is revolved about x or extruded
/// along x. An imported mesh is held as the smallest body of revolution about its x axis that
/// contains it, so that distances to it are never too large, beside its triangles.
struct Form {
    enum class Kind { revolved, prism };
    Kind kind = Kind::revolved;
    Region region;  ///< revolved: profile in (x, radius) without the axis; prism: outline in (y, z)
    double low = 0, high = 0;  ///< along x
    double radius = 0;         ///< about x
    bool hull = false;         ///< stands for an imported mesh
    /// Of a hull: the triangles that it holds, as a form of their own in the same place.
    std::shared_ptr<const Form> mesh;
    std::shared_ptr<const Facets> facets;  ///< if set, these are measured and nothing else
    Frame place;                           ///< in the frame of the part

    glm::dvec3 box_low{0}, box_high{0};  ///< in its own frame

    double middle() const { return (low + high) / 2; }
};

/// Signed distance of a point from a form, exact, negative inside, with the nearest surface point.
struct SurfacePoint {
    glm::dvec3 at{0};
    double distance = 1e300;
};
SurfacePoint signed_distance(const Form& form, const glm::dvec3& p);

/// `body` ready for measuring. Throws std::out_of_range for a mesh that `imports` does not have,
/// and std::runtime_error for one without triangles.
Form form_of(const Body& body, const MeshLibrary& imports);

/// The rigid part of a placement; its scale goes to `scale`.
Frame frame_of(const glm::dmat4& place, double* scale = nullptr);

}  // namespace podwright
