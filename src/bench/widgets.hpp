#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "bench/canvas.hpp"
#include "bench/icons.hpp"
#include "bench/model.hpp"
#include "bench/theme.hpp"

// The bench's own controls, drawn with Dear ImGui's lists.
namespace podwright {

/// A key that went down since the last frame, however short it was held.
struct KeyPress {
    int key = 0;  ///< GLFW's number
    bool control = false;
    bool shift = false;
};

/// What a frame of the window is built with.
struct WindowFrame {
    Model& model;
    const Type& type;
    double now = 0;  ///< seconds
    std::vector<KeyPress> keys;
    std::vector<std::pair<std::string, PixelBox>>
        places;  ///< where each control stands, for --tell

    float px(float units) const { return units * type.scale; }
    const Palette& colours() const { return *type.colours; }
    bool pressed(int key) const {
        return std::any_of(keys.begin(), keys.end(),
                           [&](const KeyPress& k) { return k.key == key; });
    }
    bool return_pressed() const;
    /// Whether the pointer is over the control of that name, already built in this frame.
    bool is_over(const std::string& name) const;
    void note_place(const std::string& name, ImVec2 low, ImVec2 high) {
        places.emplace_back(name, PixelBox{low, high});
    }
};

/// A track with a knob; true while it is dragged or stepped with + and -. `done` is set when it is
/// let go. `name` is its own.
bool track(WindowFrame& frame, const std::string& name, double& value, double low, double high,
           double step, float width, bool& done);

/// A button with a sign on it; true when pressed. `on` shows that what it stands for is on.
bool icon_button(WindowFrame& frame, const std::string& name, Icon icon, const std::string& tip,
                 bool enabled = true, bool on = false);

/// An icon button that turns something on and off.
void icon_switch(WindowFrame& frame, const std::string& name, Icon icon, const std::string& tip,
                 bool& on);

/// A tooltip beside the pointer for the control just built, after a moment.
void tip_for_last(const WindowFrame& frame, const std::string& tip);

/// Small round play (or stop) button; true when pressed.
bool play_button(WindowFrame& frame, const std::string& name, bool playing);

/// Words side by side of which one is chosen; true when `index` changed.
bool segments(WindowFrame& frame, const std::string& name, const std::vector<std::string>& words,
              int& index);

/// How wide they are together.
float segments_width(const WindowFrame& frame, const std::vector<std::string>& words);

/// Whether the control just built has the keyboard and Return went down. (ImGui presses controls
/// with Space alone.)
bool return_on_last(const WindowFrame& frame);

/// A button with words; true when pressed.
bool button(WindowFrame& frame, const std::string& name, const char* words, bool enabled = true,
            bool strong = false);

/// A heading that opens and closes what stands below it; true while open.
bool heading(WindowFrame& frame, const std::string& words, bool open_at_first);

/// The quiet switch at the end of a group: whether its other adjusters are shown as well.
bool more_switch(WindowFrame& frame, const std::string& group);

/// A small title with a line to the edge of the panel.
void section_title(WindowFrame& frame, const char* words);

/// The text with line breaks between words, so that no line is longer than `width` pixels.
std::string broken(const ImFont& font, const std::string& text, float width);

/// The text, cut off with dots where it is longer than `width` pixels.
std::string shortened(const ImFont& font, std::string text, float width);

/// Text with a font, broken between words at `width` pixels (0 = the panel's).
void wrapped(ImFont* font, ImU32 colour, const std::string& text, float width = 0);

/// Text at the right edge of the panel, on the present line.
void right_aligned(ImFont* font, ImU32 colour, const std::string& text, float edge);

}  // namespace podwright
