#include "bench/part_tools.hpp"

#include "bench/keys.hpp"

namespace podwright {

namespace {

void look_buttons(WindowFrame& frame, const std::string& part) {
    Model& model = frame.model;
    StageLook& look = model.look;
    const float between = frame.px(6);
    if (button(frame, "part alone", is_isolated(model) ? "All parts" : "Alone"))
        isolate(model, part);
    if (part.empty()) return;
    ImGui::SameLine(0, between);
    const bool seen_through = contains(look.see_through, part);
    if (button(frame, "part see-through", seen_through ? "Solid" : "See-through"))
        toggle(look.see_through, part);
    ImGui::SameLine(0, between);
    if (button(frame, "part hidden", "Hide")) {
        toggle(look.hidden, part);
        look.picked.clear();
    }
    if (!look.cut) return;
    ImGui::SameLine(0, between);
    const bool whole = contains(look.whole, part);
    if (button(frame, "part whole", whole ? "Cut it too" : "Leave it whole"))
        toggle(look.whole, part);
}

}  // namespace

std::optional<PixelBox> part_tools_box(const WindowFrame& frame, const PixelBox& bench) {
    const Model& model = frame.model;
    if (model.look.picked.empty() && !is_isolated(model)) return {};
    const float width = model.look.picked.empty() ? 100.0F : model.look.cut ? 360.0F : 240.0F;
    const ImVec2 size{frame.px(width), frame.px(48)};
    const float margin = frame.px(grid::medium);
    // The colours' legend stands on the left.
    const float right =
        model.heat ? bench.high.x - margin : (bench.low.x + bench.high.x + size.x) / 2;
    const ImVec2 high{right, bench.high.y - margin};
    return PixelBox{{high.x - size.x, high.y - size.y}, high};
}

void part_tools(WindowFrame& frame, const PixelBox& bench) {
    const Model& model = frame.model;
    const std::optional<PixelBox> box = part_tools_box(frame, bench);
    if (!box) return;
    ImGui::SetNextWindowPos({(box->low.x + box->high.x) / 2, box->high.y}, ImGuiCond_Always,
                            {0.5F, 1});
    ImGui::Begin("part tools", nullptr,
                 ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_AlwaysAutoResize |
                     ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoFocusOnAppearing);
    look_buttons(frame, model.look.picked);
    ImGui::End();
}

}  // namespace podwright
