#pragma once

#include <vector>

#include "shape/mesh.hpp"
#include "shape/part.hpp"

namespace podwright {

/// Where one place of the axle goes when it is bent and wound up, as it is to be shown (exaggerated
/// already). Small slopes.
struct BentPoint {
    double along = 0;                 ///< mm along the axle from its middle, to the left
    double x = 0, z = 0;              ///< shift forward and up, mm
    double slope_x = 0, slope_z = 0;  ///< of the axle, shift per mm to the left
    double twist = 0;                 ///< about the axle, rad, positive: turned forward
    bool operator==(const BentPoint&) const = default;
};

/// Places in order from right to left; between them straight lines.
using BentShape = std::vector<BentPoint>;

/// The shape at that place; its end beyond its ends, carried on straight. `shape` must not be
/// empty.
BentPoint bent_at(const BentShape& shape, double along);

/// How a rigid thing that sits on the axle at that place is carried along; pod axes.
glm::dmat4 carried(const Assembly& assembly, const BentShape& shape, double along);

/// A mesh, placed in pod axes by `place`, bent and wound up; the result is in pod axes.
Mesh bent(const Mesh& mesh, const glm::dmat4& place, const Assembly& assembly,
          const BentShape& shape);

}  // namespace podwright
