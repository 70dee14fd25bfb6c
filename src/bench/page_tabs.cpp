#include <array>
#include <string>

#include "bench/panels.hpp"
#include "bench/widgets.hpp"

namespace podwright {

namespace {

struct PageName {
    Page page;
    const char* name;
    const char* tip;
};
constexpr std::array<PageName, 6> pages = {
    {{Page::car, "Car", "Findings, clearances and readings of the car as it stands"},
     {Page::feel, "Feel", "What the axle feels: loads, builds, another axle   E"},
     {Page::choose, "Choose", "The best builds from the parts box"},
     {Page::day, "Day", "What to change before each run of the day"},
     {Page::checks, "Checks", "The event's rules, and what was measured"},
     {Page::effects, "Effects", "What one more of each adjuster does"}}};

float text_width(const ImFont& font, const char* words) {
    return font.CalcTextSizeA(font.FontSize, 1e9F, 0, words).x;
}

/// Whether the tab carries the sign of the worst finding, which must not be missed while another
/// page is open.
bool has_sign(const Model& model, const PageName& page) {
    return page.page == Page::car && model.page != Page::car &&
           model.evaluation.worst() > Level::note;
}

float sign_width(const WindowFrame& frame) { return frame.px(17); }

float content_width(const WindowFrame& frame, const PageName& page) {
    return text_width(*frame.type.small, page.name) +
           (has_sign(frame.model, page) ? sign_width(frame) : 0);
}

/// Between two places of the bar: chooses a page.
void tab(WindowFrame& frame, const PageName& page, ImVec2 low, ImVec2 high) {
    Page& chosen = frame.model.page;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const Palette& c = frame.colours();
    ImFont& font = *frame.type.small;
    const float rim = frame.px(2);
    ImGui::SetCursorScreenPos(low);
    const std::string id = "page:" + std::string(page.name);
    if (ImGui::InvisibleButton(id.c_str(), {high.x - low.x, high.y - low.y})) chosen = page.page;
    frame.note_place(id, low, high);
    const bool on = chosen == page.page;
    if (!on) tip_for_last(frame, page.tip);
    if (on || ImGui::IsItemHovered())
        list.AddRectFilled({low.x, low.y + rim}, {high.x, high.y - rim},
                           on ? c.accent : c.field_over, frame.px(grid::rounding));
    if (ImGui::IsItemFocused() && ImGui::GetIO().NavVisible)
        list.AddRect({low.x, low.y + rim}, {high.x, high.y - rim}, c.accent,
                     frame.px(grid::rounding), 0, frame.px(1.5F));
    const float middle = (low.y + high.y) / 2;
    float x = (low.x + high.x - content_width(frame, page)) / 2;
    if (has_sign(frame.model, page)) {
        draw_status_sign(list, c, status_of(frame.model.evaluation.worst()),
                         {x + frame.px(6), middle}, frame.px(13));
        x += sign_width(frame);
    }
    list.AddText(&font, font.FontSize, {x, middle - font.FontSize / 2}, on ? c.on_accent : c.ink,
                 page.name);
}

}  // namespace

const char* page_name(Page which) {
    for (const PageName& page : pages)
        if (page.page == which) return page.name;
    return "";
}

void page_tabs(WindowFrame& frame) {
    ImGui::SetCursorPos(
        {ImGui::GetStyle().WindowPadding.x, frame.px((grid::page_bar - grid::control) / 2)});
    const ImVec2 start = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float height = frame.px(grid::control);
    const float rim = frame.px(2);
    ImGui::GetWindowDrawList()->AddRectFilled(start, {start.x + width, start.y + height},
                                              frame.colours().field,
                                              frame.px(grid::rounding) + rim);
    float words = 0;
    for (const PageName& page : pages) words += content_width(frame, page);
    const float pad = (width - 2 * rim - words) / static_cast<float>(pages.size());
    float x = start.x + rim;
    for (const PageName& page : pages) {
        const float next = x + content_width(frame, page) + pad;
        tab(frame, page, {x, start.y}, {next, start.y + height});
        x = next;
    }
}

}  // namespace podwright
