#include "bench/widgets.hpp"

#include <GLFW/glfw3.h>

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

void draw_track(WindowFrame& frame, ImVec2 low, ImVec2 high, double part, bool lively) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float y = (low.y + high.y) / 2;
    const float knob = frame.px(lively ? 7.0F : 6.0F);
    const float x = low.x + knob + static_cast<float>(part) * (high.x - low.x - 2 * knob);
    const float half = frame.px(2);
    list.AddRectFilled({low.x, y - half}, {high.x, y + half}, frame.colours().line, half);
    list.AddRectFilled({low.x, y - half}, {x, y + half}, frame.colours().accent, half);
    list.AddCircleFilled({x, y}, knob, frame.colours().card, 24);
    list.AddCircle({x, y}, knob, frame.colours().accent, 24, frame.px(lively ? 2.0F : 1.5F));
}

}  // namespace

bool WindowFrame::is_over(const std::string& name) const {
    if (!ImGui::IsWindowHovered()) return false;
    return std::any_of(places.begin(), places.end(), [&](const auto& place) {
        return place.first == name && place.second.holds(ImGui::GetIO().MousePos);
    });
}

bool WindowFrame::return_pressed() const {
    return pressed(GLFW_KEY_ENTER) || pressed(GLFW_KEY_KP_ENTER);
}

bool track(WindowFrame& frame, const std::string& name, double& value, double low, double high,
           double step, float width, bool& done) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 size{width, frame.px(20)};
    ImGui::InvisibleButton(name.c_str(), size);
    const ImVec2 end{at.x + size.x, at.y + size.y};
    frame.note_place(name, at, end);
    const bool active = ImGui::IsItemActive();
    const bool hovered = ImGui::IsItemHovered();
    bool changed = false;
    done = ImGui::IsItemDeactivated();
    if (active && (ImGui::IsMouseDragging(0, 0) || ImGui::IsMouseClicked(0))) {
        const float knob = frame.px(8);
        const double part =
            std::clamp((ImGui::GetIO().MousePos.x - at.x - knob) / (size.x - 2 * knob), 0.0F, 1.0F);
        const double wanted = low + part * (high - low);
        const bool at_end = part <= 0 || part >= 1;  // the ends are reached exactly
        changed = std::abs(wanted - value) > step / 2 || (at_end && wanted != value);
        if (changed) value = wanted;
    } else if (hovered || ImGui::IsItemFocused()) {
        const ImGuiIO& io = ImGui::GetIO();
        for (const ImWchar c : io.InputQueueCharacters) {
            if (c != '+' && c != '-') continue;
            value = std::clamp(value + (c == '+' ? step : -step), low, high);
            changed = done = true;
        }
    }
    const double part = high > low ? std::clamp((value - low) / (high - low), 0.0, 1.0) : 0;
    draw_track(frame, at, end, part, active || hovered);
    if (hovered) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    return changed;
}

void tip_for_last(const WindowFrame& frame, const std::string& tip) {
    if (tip.empty() || !ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled)) return;
    const ImVec2 item = ImGui::GetItemRectMin();
    // In the bar at the foot it would cover the neighbours.
    if (item.y > ImGui::GetIO().DisplaySize.y - frame.px(grid::foot_bar))
        ImGui::SetNextWindowPos({item.x, item.y - frame.px(grid::small)}, ImGuiCond_Always, {0, 1});
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(frame.px(300));
    ImGui::TextUnformatted(tip.c_str());
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
}

bool icon_button(WindowFrame& frame, const std::string& name, Icon icon, const std::string& tip,
                 bool enabled, bool on) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float size = frame.px(grid::icon_button);
    ImGui::BeginDisabled(!enabled);
    const bool pressed = ImGui::InvisibleButton(name.c_str(), {size, size});
    ImGui::EndDisabled();
    const ImVec2 end{at.x + size, at.y + size};
    frame.note_place(name, at, end);
    const bool hovered = enabled && ImGui::IsItemHovered();
    const bool held = ImGui::IsItemActive();
    tip_for_last(frame, tip);
    const Palette& c = frame.colours();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (on)
        list.AddRectFilled(at, end, hovered ? c.accent_over : c.accent, frame.px(grid::rounding));
    else if (hovered || held)
        list.AddRectFilled(at, end, held ? c.field_down : c.field_over, frame.px(grid::rounding));
    if (ImGui::IsItemFocused() && ImGui::GetIO().NavVisible)
        list.AddRect(at, end, c.accent, frame.px(grid::rounding), 0, frame.px(1.5F));
    ImU32 colour = on ? c.on_accent : c.ink;
    if (!enabled) colour = (c.quiet & ~IM_COL32_A_MASK) | (110U << IM_COL32_A_SHIFT);
    draw_icon(list, icon, {at.x + size / 2, at.y + size / 2}, frame.px(20), colour);
    return pressed;
}

void icon_switch(WindowFrame& frame, const std::string& name, Icon icon, const std::string& tip,
                 bool& on) {
    if (icon_button(frame, name, icon, tip, true, on)) on = !on;
}

float segments_width(const WindowFrame& frame, const std::vector<std::string>& words) {
    const ImFont& font = *frame.type.small;
    float width = frame.px(4);
    for (const std::string& word : words)
        width += font.CalcTextSizeA(font.FontSize, 1e9F, 0, word.c_str()).x + frame.px(grid::large);
    return width;
}

bool play_button(WindowFrame& frame, const std::string& name, bool playing) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float size = frame.px(20);
    const bool pressed = ImGui::InvisibleButton(name.c_str(), {size, size});
    const ImVec2 end{at.x + size, at.y + size};
    frame.note_place(name, at, end);
    const bool hovered = ImGui::IsItemHovered();
    tip_for_last(frame, playing ? "Stop" : "Swing it through its range and watch what follows");
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const Palette& c = frame.colours();
    if (hovered || playing)
        list.AddRectFilled(at, end, playing ? c.accent : c.field_over, size / 2);
    draw_icon(list, playing ? Icon::pause : Icon::play, {at.x + size / 2, at.y + size / 2},
              frame.px(14),
              playing   ? c.on_accent
              : hovered ? c.accent
                        : c.quiet);
    return pressed;
}

bool segments(WindowFrame& frame, const std::string& name, const std::vector<std::string>& words,
              int& index) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const Palette& c = frame.colours();
    ImFont& font = *frame.type.small;
    bool changed = false;
    const ImVec2 start = ImGui::GetCursorScreenPos();
    const float height = frame.px(grid::control);
    const float rim = frame.px(2);
    list.AddRectFilled(start, {start.x + segments_width(frame, words), start.y + height}, c.field,
                       frame.px(grid::rounding) + rim);
    float x = start.x + rim;
    for (int i = 0; i < static_cast<int>(words.size()); ++i) {
        const std::string& word = words[static_cast<std::size_t>(i)];
        const float text = font.CalcTextSizeA(font.FontSize, 1e9F, 0, word.c_str()).x;
        const float width = text + frame.px(grid::large);
        ImGui::SetCursorScreenPos({x, start.y});
        const std::string id = name + ":" + word;
        if (ImGui::InvisibleButton(id.c_str(), {width, height}) && index != i) {
            index = i;
            changed = true;
        }
        frame.note_place(id, {x, start.y}, {x + width, start.y + height});
        const bool on = index == i;
        const ImVec2 low{x, start.y + rim};
        const ImVec2 high{x + width, start.y + height - rim};
        if (on || ImGui::IsItemHovered())
            list.AddRectFilled(low, high, on ? c.accent : c.field_over, frame.px(grid::rounding));
        list.AddText(&font, font.FontSize,
                     {x + (width - text) / 2, start.y + (height - font.FontSize) / 2},
                     on ? c.on_accent : c.ink, word.c_str());
        x += width;
    }
    return changed;
}

bool return_on_last(const WindowFrame& frame) {
    return frame.return_pressed() && ImGui::GetIO().NavVisible && ImGui::IsItemFocused();
}

bool button(WindowFrame& frame, const std::string& name, const char* words, bool enabled,
            bool strong) {
    ImGui::BeginDisabled(!enabled);
    if (strong) {
        ImGui::PushStyleColor(ImGuiCol_Button, frame.colours().accent);
        ImGui::PushStyleColor(ImGuiCol_ButtonHovered, frame.colours().accent_over);
        ImGui::PushStyleColor(ImGuiCol_ButtonActive, frame.colours().accent_over);
        ImGui::PushStyleColor(ImGuiCol_Text, frame.colours().on_accent);
    }
    ImGui::PushID(name.c_str());
    const bool pressed = ImGui::Button(words) || (enabled && return_on_last(frame));
    ImGui::PopID();
    if (strong) ImGui::PopStyleColor(4);
    frame.note_place(name, ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    ImGui::EndDisabled();
    return pressed;
}

namespace {

void draw_chevron(const WindowFrame& frame, ImVec2 c, bool open, ImU32 colour) {
    const float r = frame.px(4);
    const float tip = open ? -r / 2 : r / 2;
    const ImVec2 corners[] = {{c.x - r, c.y - tip}, {c.x, c.y + tip}, {c.x + r, c.y - tip}};
    ImGui::GetWindowDrawList()->AddPolyline(corners, 3, colour, 0, frame.px(1.5F));
}

/// A row that opens and closes what stands below it.
bool opening_row(WindowFrame& frame, const std::string& name, float height, bool open_at_first,
                 ImVec2& at, ImU32& colour) {
    ImGuiStorage& storage = *ImGui::GetStateStorage();
    const ImGuiID id = ImGui::GetID(("open " + name).c_str());
    bool open = storage.GetBool(id, open_at_first);
    at = ImGui::GetCursorScreenPos();
    const ImVec2 size{ImGui::GetContentRegionAvail().x, height};
    if (ImGui::InvisibleButton(name.c_str(), size)) open = !open;
    storage.SetBool(id, open);
    frame.note_place(name, at, {at.x + size.x, at.y + size.y});
    if (ImGui::IsItemHovered()) colour = frame.colours().accent;
    draw_chevron(frame, {at.x + size.x - frame.px(8), at.y + size.y / 2}, open, colour);
    return open;
}

}  // namespace

bool heading(WindowFrame& frame, const std::string& words, bool open_at_first) {
    ImGui::Dummy({0, frame.px(grid::hair)});
    const float height = frame.px(grid::control);
    ImVec2 at;
    ImU32 colour = frame.colours().ink;
    const float width = ImGui::GetContentRegionAvail().x;
    const bool open = opening_row(frame, "group " + words, height, open_at_first, at, colour);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    ImFont* font = frame.type.strong;
    list.AddText(font, font->FontSize, {at.x, at.y + (height - font->FontSize) / 2}, colour,
                 words.c_str());
    list.AddLine({at.x, at.y + height}, {at.x + width, at.y + height}, frame.colours().line,
                 frame.px(1));
    ImGui::Dummy({0, frame.px(grid::hair)});
    return open;
}

bool more_switch(WindowFrame& frame, const std::string& group) {
    const float height = frame.px(grid::row);
    ImVec2 at;
    ImU32 colour = frame.colours().quiet;
    const bool open = opening_row(frame, "more " + group, height, false, at, colour);
    ImFont* font = frame.type.small;
    ImGui::GetWindowDrawList()->AddText(font, font->FontSize,
                                        {at.x, at.y + (height - font->FontSize) / 2}, colour,
                                        open ? "fewer" : "more");
    return open;
}

void section_title(WindowFrame& frame, const char* words) {
    ImGui::Dummy({0, frame.px(grid::hair)});
    ImFont* font = frame.type.caption;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float right = at.x + ImGui::GetContentRegionAvail().x;
    const float width = font->CalcTextSizeA(font->FontSize, 1e9F, 0, words).x;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddText(font, font->FontSize, at, frame.colours().quiet, words);
    const float y = at.y + font->FontSize / 2 + frame.px(1);
    list.AddLine({at.x + width + frame.px(grid::small), y}, {right, y}, frame.colours().line,
                 frame.px(1));
    ImGui::Dummy({0, font->FontSize + frame.px(2)});
}

std::string broken(const ImFont& font, const std::string& text, float width) {
    const auto measure = [&](const std::string& line) {
        return font.CalcTextSizeA(font.FontSize, 1e9F, 0, line.c_str()).x;
    };
    std::string lines;
    std::string line;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t space = std::min(text.find(' ', at), text.size());
        const std::string word = text.substr(at, space - at);
        at = space + 1;
        if (!line.empty() && measure(line + " " + word) > width) {
            lines += line + "\n";
            line.clear();
        }
        line += (line.empty() ? "" : " ") + word;
    }
    return lines + line;
}

std::string shortened(const ImFont& font, std::string text, float width) {
    const auto measure = [&] { return font.CalcTextSizeA(font.FontSize, 1e9F, 0, text.c_str()).x; };
    if (measure() <= width) return text;
    while (!text.empty() && measure() > width - font.FontSize) {
        while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0) == 0x80)
            text.pop_back();
        if (!text.empty()) text.pop_back();
    }
    return text + "\xE2\x80\xA6";
}

void wrapped(ImFont* font, ImU32 colour, const std::string& text, float width) {
    if (width <= 0) width = ImGui::GetContentRegionAvail().x;
    ImGui::PushFont(font);
    ImGui::PushStyleColor(ImGuiCol_Text, colour);
    ImGui::TextUnformatted(broken(*font, text, width).c_str());
    ImGui::PopStyleColor();
    ImGui::PopFont();
}

void right_aligned(ImFont* font, ImU32 colour, const std::string& text, float edge) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, 0, text.c_str());
    ImGui::GetWindowDrawList()->AddText(font, font->FontSize, {edge - size.x, at.y}, colour,
                                        text.c_str());
}

}  // namespace podwright
