#include "bench/advice_widgets.hpp"

#include <cctype>
#include <cmath>

namespace podwright {

namespace {

float text_width(const ImFont& font, const std::string& words) {
    return font.CalcTextSizeA(font.FontSize, 1e9F, 0, words.c_str()).x;
}

}  // namespace

void progress_row(WindowFrame& frame, Advisor& advisor) {
    constexpr double patience = 0.3;
    if (!advisor.busy() || advisor.seconds() < patience) return;
    std::string doing = advisor.doing();
    if (!doing.empty())
        doing.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(doing.front())));
    wrapped(frame.type.small, frame.colours().ink,
            doing + ", " + fixed(advisor.seconds(), 0) + " s");
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float height = frame.px(4);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled(at, {at.x + width, at.y + height}, frame.colours().line, height / 2);
    // How long it takes is not known: a piece goes to and fro.
    const auto part = static_cast<float>(0.5 - 0.5 * std::cos(advisor.seconds() * 2));
    const float piece = width / 4;
    const float x = at.x + part * (width - piece);
    list.AddRectFilled({x, at.y}, {x + piece, at.y + height}, frame.colours().accent, height / 2);
    ImGui::Dummy({width, height + frame.px(grid::hair)});
    if (button(frame, "stop advice", "Stop")) advisor.stop();
    ImGui::Dummy({0, frame.px(grid::small)});
}

Card begin_card(WindowFrame& frame) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.ChannelsSplit(2);
    list.ChannelsSetCurrent(1);
    Card card;
    card.start = ImGui::GetCursorScreenPos();
    const float pad = frame.px(grid::medium);
    card.width = ImGui::GetContentRegionAvail().x - 2 * pad;
    ImGui::SetCursorScreenPos({card.start.x + pad, card.start.y + pad});
    ImGui::BeginGroup();
    return card;
}

CardState end_card(WindowFrame& frame, const Card& card, const std::string& name, bool chosen) {
    ImGui::EndGroup();
    const Palette& c = frame.colours();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float pad = frame.px(grid::medium);
    const ImVec2 end{card.start.x + card.width + 2 * pad, ImGui::GetItemRectMax().y + pad};
    frame.note_place(name, card.start, end);
    CardState state;
    state.hovered = ImGui::IsWindowHovered() && ImGui::IsMouseHoveringRect(card.start, end);
    state.pressed = state.hovered && ImGui::IsMouseClicked(0) && !ImGui::IsAnyItemHovered();
    list.ChannelsSetCurrent(0);
    const float rounding = frame.px(grid::card_rounding);
    list.AddRectFilled(card.start, end, c.card, rounding);
    list.AddRect(card.start, end, chosen || state.hovered ? c.accent : c.line, rounding, 0,
                 frame.px(chosen ? 2.0F : 1.0F));
    list.ChannelsMerge();
    ImGui::SetCursorScreenPos({card.start.x, end.y + frame.px(grid::small)});
    return state;
}

void card_title(WindowFrame& frame, const Card& card, const std::string& title,
                const std::string& at_right) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImFont& strong = *frame.type.strong;
    ImFont& small = *frame.type.small;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float right = text_width(small, at_right);
    list.AddText(&strong, strong.FontSize, at, frame.colours().ink,
                 shortened(strong, title, card.width - right - frame.px(grid::small)).c_str());
    list.AddText(&small, small.FontSize,
                 {at.x + card.width - right, at.y + strong.FontSize - small.FontSize},
                 frame.colours().quiet, at_right.c_str());
    ImGui::Dummy({card.width, strong.FontSize});
}

void bullet(WindowFrame& frame, float width, const std::string& words) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float indent = frame.px(grid::medium);
    ImFont& font = *frame.type.small;
    ImGui::GetWindowDrawList()->AddCircleFilled({at.x + frame.px(4), at.y + font.FontSize * 0.55F},
                                                frame.px(2), frame.colours().accent);
    ImGui::SetCursorScreenPos({at.x + indent, at.y});
    wrapped(frame.type.small, frame.colours().ink, words, width - indent);
    ImGui::SetCursorScreenPos({at.x, ImGui::GetCursorScreenPos().y});
}

void note(WindowFrame& frame, const std::string& words) {
    wrapped(frame.type.small, frame.colours().quiet, words);
    ImGui::Dummy({0, frame.px(grid::hair)});
}

}  // namespace podwright
