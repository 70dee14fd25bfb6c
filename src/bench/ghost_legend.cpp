#include "bench/ghost_legend.hpp"

#include "bench/widgets.hpp"
#include "draw/finish.hpp"

namespace podwright {

static ImU32 colour_of(const glm::vec3& c) {
    return ImGui::ColorConvertFloat4ToU32({c.r, c.g, c.b, 1});
}

void draw_ghost_legend(Canvas& canvas, const PixelBox& title, const std::string& whose) {
    const ImFont* font = canvas.type->small;
    const ImVec2 pad{canvas.px(grid::small), canvas.px(grid::hair)};
    const ImVec2 swatch{canvas.px(22), font->FontSize};
    const float before_text = swatch.x + canvas.px(grid::small);
    const ImVec2 low{title.low.x, title.high.y + canvas.px(grid::hair)};
    const float widest = canvas.box.high.x - canvas.px(grid::large) - low.x;
    const std::string text = broken(*font, "ghost: " + whose, widest - 2 * pad.x - before_text);
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, 0, text.c_str());
    const PixelBox plate{low, low + size + pad * 2 + ImVec2{before_text, 0}};

    ImDrawList& list = *canvas.list;
    list.AddRectFilled(plate.low, plate.high, canvas.colours().plate, canvas.px(4));
    const PixelBox shade{low + pad, low + pad + swatch};
    list.AddRectFilled(shade.low, shade.high, colour_of(ghost_colour), canvas.px(3));
    list.AddRect(shade.low, shade.high, colour_of(ghost_colour * 0.7F), canvas.px(3), 0,
                 canvas.line_width());
    list.AddText(font, font->FontSize, low + pad + ImVec2{before_text, 0}, canvas.colours().ink,
                 text.c_str());
    canvas.taken.push_back(plate);
}

}  // namespace podwright
