#pragma once

#include <string_view>

namespace podwright {

/// The text of shaders/NAME.glsl as it was when the program was built; empty if there is none.
std::string_view shader_source(std::string_view name);

}  // namespace podwright
