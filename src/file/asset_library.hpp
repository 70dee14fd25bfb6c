#pragma once

#include "shape/mesher.hpp"

namespace podwright {

/// The meshes of assets-generic by their names and the user's own by their absolute paths, read
/// when first asked for; an own one again when its file has changed and can be used, until when a
/// reference to it holds. Copies of the library share what they have read. Throws FileError for a
/// mesh that is missing or cannot be used.
MeshLibrary asset_library();

}  // namespace podwright
