#pragma once

#include "shape/mesher.hpp"

namespace podwright {

/// The meshes of assets-generic, read when first asked for. Throws FileError if one is missing.
MeshLibrary asset_library();

}  // namespace podwright
