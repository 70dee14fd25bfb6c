#pragma once

#include "shape/mesh.hpp"
#include "shape/solid.hpp"

namespace podwright {

/// Profile (x, radius) of a body of revolution about x that contains the mesh: the upper edge of
/// the mesh's shadow in the half-plane (x, radius), steps kept.
Loop hull_profile(const Mesh& mesh);

}  // namespace podwright
