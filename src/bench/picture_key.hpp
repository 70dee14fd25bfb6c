#pragma once

#include <cstddef>

#include "bench/stage.hpp"

namespace podwright {

/// Everything that a picture of the stage depends on: while it is the same, so is the picture.
struct PictureKey {
    std::size_t revision = 0;  ///< of the assembly on the stage
    StageLook look;
    Camera camera;
    int width = 0, height = 0;
};

bool same(const PictureKey& a, const PictureKey& b);

}  // namespace podwright
