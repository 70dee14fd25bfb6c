#pragma once

#include <imgui.h>

#include <cstdint>

#include "draw/framebuffer.hpp"

namespace podwright {

/// The framebuffer's colours as ImGui names textures: its backend for OpenGL puts the number into a
/// pointer.
inline ImTextureID texture_id(const Framebuffer& framebuffer) {
    // NOLINTNEXTLINE(performance-no-int-to-ptr)
    return reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(framebuffer.texture()));
}

}  // namespace podwright
