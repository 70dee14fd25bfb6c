#pragma once

#include <imgui.h>

#include <vector>

#include "core/finding.hpp"
#include "core/reading.hpp"

namespace podwright {

/// Colours of the bench, light or dark. One accent; status colours are those of the Okabe-Ito
/// palette (Okabe and Ito, 2008) and never stand without a shape and a word.
struct Palette {
    bool dark;
    ImU32 ink;                 ///< text, and lines on the model
    ImU32 quiet;               ///< text of less weight
    ImU32 line;                ///< between things
    ImU32 paper;               ///< ground of the panels
    ImU32 card;                ///< ground of cards, popups and knobs
    ImU32 field;               ///< ground of buttons and fields
    ImU32 field_over;          ///< the same under the pointer
    ImU32 field_down;          ///< the same while pressed
    ImU32 accent;              ///< what is chosen or can be done; as ground and as text
    ImU32 accent_over;         ///< the same under the pointer
    ImU32 on_accent;           ///< text and signs on the accent
    ImU32 chosen;              ///< ground of a chosen row
    ImU32 plate;               ///< behind words on the model; lets a little through
    ImU32 halo;                ///< round lines on the model
    ImU32 tip;                 ///< ground of the message line
    ImU32 on_tip;              ///< its text
    ImU32 good, warn, stop;    ///< status signs
    ImU32 on_status, on_warn;  ///< the strokes in them
};
extern const Palette light_palette, dark_palette;

/// A text colour and the ground that it is written on somewhere.
struct TextOnGround {
    const char* where;
    ImU32 text, ground;
};
/// Every such pair of a palette. The plate on the model stands with the worst that may lie behind
/// it, black or white.
std::vector<TextOnGround> texts_on_grounds(const Palette& colours);

/// Contrast of two opaque colours, 1 to 21 (WCAG 2, relative luminance).
double contrast(ImU32 a, ImU32 b);
/// What is seen where `over` lies on the opaque colour `ground`.
ImU32 blended(ImU32 over, ImU32 ground);

/// The layout's steps, in units of layout: everything stands on a grid of 4.
namespace grid {
inline constexpr float hair = 4, small = 8, medium = 12, large = 16, wide = 24;
inline constexpr float row = 24, double_row = 40, control = 28, icon_button = 32;
inline constexpr float rounding = 4, card_rounding = 8;
inline constexpr float top_bar = 48, foot_bar = 64, tool_strip = 44, page_bar = 44;
}  // namespace grid

/// Fonts of one screen scale.
struct Type {
    ImFont* text = nullptr;
    ImFont* strong = nullptr;
    ImFont* small = nullptr;
    ImFont* large = nullptr;
    ImFont* strong_small = nullptr;
    ImFont* caption = nullptr;  ///< over groups and under icons
    float scale = 1;            ///< pixels per unit of layout
    const Palette* colours = &light_palette;
};

/// Loads the fonts into ImGui's atlas (found with fontconfig; ImGui's own if there is none) and
/// sets the style, for `scale` pixels per unit.
Type set_type_and_style(float scale, bool dark = false);
/// Goes from light to dark or back; the fonts stay.
void set_dark(Type& type, bool dark);

Status status_of(Level level);

/// The sign of a status, centred on `at`, `size` across: disc with a tick (ok), triangle (caution),
/// octagon (stop), small ring (no limit).
void draw_status_sign(ImDrawList& list, const Palette& colours, Status status, ImVec2 at,
                      float size);

}  // namespace podwright
