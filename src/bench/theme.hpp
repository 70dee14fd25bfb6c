#pragma once

#include <imgui.h>

#include "core/finding.hpp"
#include "core/reading.hpp"

namespace podwright {

/// Colours of the bench. One accent; status colours are those of the Okabe-Ito palette and never
/// stand without a shape and a word.
namespace theme {
inline constexpr ImU32 ink = IM_COL32(0x1E, 0x25, 0x2E, 255);
inline constexpr ImU32 quiet = IM_COL32(0x56, 0x60, 0x6C, 255);
inline constexpr ImU32 line = IM_COL32(0xD3, 0xD8, 0xDE, 255);
inline constexpr ImU32 paper = IM_COL32(0xF7, 0xF8, 0xF9, 255);
inline constexpr ImU32 field = IM_COL32(0xE9, 0xEC, 0xEF, 255);
inline constexpr ImU32 accent = IM_COL32(0x00, 0x72, 0xB2, 255);
inline constexpr ImU32 accent_soft = IM_COL32(0x00, 0x72, 0xB2, 40);
inline constexpr ImU32 white = IM_COL32(255, 255, 255, 255);
inline constexpr ImU32 good = IM_COL32(0x00, 0x9E, 0x73, 255);
inline constexpr ImU32 warn = IM_COL32(0xE6, 0x9F, 0x00, 255);
inline constexpr ImU32 stop = IM_COL32(0xD5, 0x5E, 0x00, 255);
}  // namespace theme

/// Fonts of one screen scale.
struct Type {
    ImFont* text = nullptr;
    ImFont* strong = nullptr;
    ImFont* small = nullptr;
    ImFont* large = nullptr;
    float scale = 1;  ///< pixels per unit of layout
};

/// Loads the fonts into ImGui's atlas (found with fontconfig; ImGui's own if there is none) and
/// sets the style, for `scale` pixels per unit.
Type set_type_and_style(float scale);

Status status_of(Level level);

/// The sign of a status, centred on `at`, `size` across: disc with a tick (ok), triangle (caution),
/// octagon (stop), small ring (no limit).
void draw_status_sign(ImDrawList& list, Status status, ImVec2 at, float size);

}  // namespace podwright
