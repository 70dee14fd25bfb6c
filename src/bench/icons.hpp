#pragma once

#include <imgui.h>

namespace podwright {

/// Signs on buttons, drawn with lines.
enum class Icon {
    open,
    save,
    save_as,
    undo,
    redo,
    play,
    pause,
    link,
    unlink,
    dimensions,
    loupe,
    room,
    heat,
    explode,
    cutaway,
    envelope,
    slide,
    ghost,
    isolate,
    sun,
    moon,
    help,
    plus,
    camera,
    eye,
    wrench
};

/// In a square of `size`, centred on `at`.
void draw_icon(ImDrawList& list, Icon icon, ImVec2 at, float size, ImU32 colour);

}  // namespace podwright
