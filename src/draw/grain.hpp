#pragma once

#include "draw/gl_handle.hpp"

namespace podwright {

/// The grain of foam as a texture of three dimensions that repeats: slope along x, y, z and level,
/// each about one half.
GlTexture make_grain();

}  // namespace podwright
