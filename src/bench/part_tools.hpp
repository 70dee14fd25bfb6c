#pragma once

#include <optional>

#include "bench/widgets.hpp"

namespace podwright {

/// What can be done with the picked part's look: alone, see-through, hidden, whole in the cut. A
/// row of buttons at the foot of the bench while a part is picked or something is hidden.
void part_tools(WindowFrame& frame, const PixelBox& bench);
/// The room that they take, where no label belongs; nothing if they are not shown.
std::optional<PixelBox> part_tools_box(const WindowFrame& frame, const PixelBox& bench);

}  // namespace podwright
