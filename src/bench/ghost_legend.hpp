#pragma once

#include <string>

#include "bench/canvas.hpp"

namespace podwright {

/// Says under `title` (a plate) what the ghost's colour stands for, and keeps its room free of
/// other words. `whose`: the title of the other setup.
void draw_ghost_legend(Canvas& canvas, const PixelBox& title, const std::string& whose);

}  // namespace podwright
