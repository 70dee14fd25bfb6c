#pragma once

#include "shape/mesh.hpp"

namespace podwright {

/// Pairs of vertex indices: edges between facets whose normals differ by more than `angle` (rad),
/// and edges of a single facet. Vertices at the same position count as one. Each edge once, in the
/// order in which the triangles first name it.
std::vector<std::uint32_t> crease_edges(const Mesh& mesh, double angle);

}  // namespace podwright
