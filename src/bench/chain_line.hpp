#pragma once

#include "shape/mesh.hpp"

namespace podwright {

/// Dashes that suit a line of `length` mm: at least one.
int dashes_for(double length);

/// A thin long-dashed dotted line (the centre line of drawings) of so many dashes as a mesh, from
/// 0 to 1 along x: to be scaled along x by its length in mm.
Mesh chain_line(int dashes);

}  // namespace podwright
