#pragma once

#include <vector>

#include "gap/form.hpp"
#include "shape/mesh.hpp"
#include "shape/part.hpp"

// Smallest distances between placed solids, measured on the true shapes. Lengths in mm, pod axes.
//
// Closed forms: everything whose axes are parallel (revolved about, extruded along), and any solid
// to a plane. Axes at an angle: branch and bound (general.hpp), which says how sure it is.
//
// Overlap: the depth is how far the deepest surface point of one lies inside the other, the larger
// of both ways; of two solids extruded along parallel axes the lesser of the ways out along them
// and across. No translation shorter than that parts them.
namespace podwright {

struct Gap {
    double gap = 1e300;     ///< negative: overlap; 0: touching
    glm::dvec3 a{0}, b{0};  ///< points on the surfaces where it occurs
    /// Unit, from a towards b; of an overlap the way in which b must move to get free.
    glm::dvec3 normal{0, 0, 1};
    double within = 0;  ///< the true gap is smaller than `gap` by no more than this
    bool exact = true;  ///< false if a mesh was replaced by the body of revolution that holds it
};

/// What a search for the nearest pair leaves open, mm.
inline constexpr double usual_tolerance = 1e-4;

/// A part made ready for measuring; place it as often as needed.
struct MeasuredPart {
    std::vector<Form> forms;
};

/// Throws std::out_of_range for a mesh that `imports` does not have.
MeasuredPart measured(const Part& part, const MeshLibrary& imports);

/// Gap between forms placed in pod axes. Looks no further than `beyond`: if the gap is not less,
/// the result's gap is `beyond` and its points mean nothing.
Gap gap_between(const Form& a, const Frame& place_a, const Form& b, const Frame& place_b,
                double beyond = 1e300);

/// The least over all pairs of bodies. `place_a` puts the part's frame into pod axes, rigidly.
/// Where the body of revolution that holds a mesh comes nearer than `meshes_below`, the mesh itself
/// is measured, which takes some ms. With a `tolerance` greater than the usual one a search rests
/// when no place is nearer by more than that; Gap::within says how sure it is.
Gap gap_between(const MeasuredPart& a, const glm::dmat4& place_a, const MeasuredPart& b,
                const glm::dmat4& place_b, double beyond = 1e300, double meshes_below = 1,
                double tolerance = usual_tolerance);

/// From the plane through `point` with the unit `normal` to the part, which belongs on the side to
/// which the normal points; negative: how deep it reaches below. In the result `a` lies on the
/// part, `b` on the plane. Exact for all solids.
Gap gap_to_plane(const MeasuredPart& part, const glm::dmat4& place, const glm::dvec3& point,
                 const glm::dvec3& normal);

/// A box in pod axes that holds the form; exact for revolved solids but for their rounded ends.
Bounds bounds(const Form& form, const Frame& place);
/// Less than or equal to the distance between what the boxes hold; -1e300 if they overlap.
double least_distance(const Bounds& a, const Bounds& b);

}  // namespace podwright
