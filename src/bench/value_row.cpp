#include "bench/value_row.hpp"

namespace podwright {

Row value_row(WindowFrame& frame, const std::string& name, Status status, const std::string& words,
              const std::string& value, ImU32 value_colour, bool chosen, const std::string& below) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float height = frame.px(below.empty() ? grid::row : grid::double_row);
    Row row;
    row.pressed = ImGui::InvisibleButton(name.c_str(), {width, height});
    frame.note_place(name, at, {at.x + width, at.y + height});
    row.hovered = ImGui::IsItemHovered();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float bleed = frame.px(grid::hair);
    if (chosen || row.hovered)
        list.AddRectFilled({at.x - bleed, at.y}, {at.x + width + bleed, at.y + height},
                           chosen ? frame.colours().chosen : frame.colours().field,
                           frame.px(grid::rounding));
    const float sign = frame.px(12);
    ImFont* font = status >= Status::caution ? frame.type.strong_small : frame.type.small;
    const float middle =
        below.empty() ? at.y + height / 2 : at.y + frame.px(grid::hair) + font->FontSize / 2;
    draw_status_sign(list, frame.colours(), status, {at.x + sign / 2, middle}, sign);
    const float y = middle - font->FontSize / 2;
    const float value_width = font->CalcTextSizeA(font->FontSize, 1e9F, 0, value.c_str()).x;
    const float left = at.x + sign + frame.px(grid::small);
    const float room = width - value_width - sign - frame.px(2 * grid::small);
    list.AddText(font, font->FontSize, {left, y}, frame.colours().ink,
                 shortened(*font, words, room).c_str());
    list.AddText(font, font->FontSize, {at.x + width - value_width, y}, value_colour,
                 value.c_str());
    if (below.empty()) return row;
    ImFont* quiet = frame.type.small;
    list.AddText(quiet, quiet->FontSize, {left, y + font->FontSize + frame.px(2)},
                 frame.colours().quiet,
                 shortened(*quiet, below, width - sign - frame.px(grid::small)).c_str());
    return row;
}

}  // namespace podwright
