#include <cmath>

#include "bench/advice_panels.hpp"
#include "bench/edit.hpp"
#include "bench/panels.hpp"

namespace podwright {

namespace {

void change_row(WindowFrame& frame, const Reading& was, const Reading& is, bool roomy) {
    const Model& model = frame.model;
    ImGui::TableNextColumn();
    wrapped(frame.type.small, frame.colours().ink, std::string(is.label));
    if (roomy) {
        ImGui::TableNextColumn();
        wrapped(frame.type.small, frame.colours().quiet, shown_reading(was, model.shown));
    }
    ImGui::TableNextColumn();
    wrapped(frame.type.small, frame.colours().accent,
            shown_change(is, is.value - was.value, model.shown));
}

}  // namespace

void ghost_panel(WindowFrame& frame) {
    Model& model = frame.model;
    if (model.ghost.of == Ghost::Of::nothing) return;
    const bool kept = model.ghost.of == Ghost::Of::kept;
    ImGui::Dummy({0, frame.px(4)});
    wrapped(frame.type.strong, frame.colours().ink,
            kept ? "Ghost: " + model.ghost.title : "Ghost: before");
    cause_lines(frame);
    bool any = false;
    // In a narrow panel the change says more than what was.
    const bool roomy = ImGui::GetContentRegionAvail().x > frame.px(260);
    if (ImGui::BeginTable("ghost", roomy ? 3 : 2)) {
        ImGui::TableSetupColumn("reading", ImGuiTableColumnFlags_WidthStretch);
        if (roomy) ImGui::TableSetupColumn("was", ImGuiTableColumnFlags_WidthFixed, frame.px(76));
        ImGui::TableSetupColumn("change", ImGuiTableColumnFlags_WidthFixed, frame.px(84));
        for (const Reading& is : model.evaluation.readings) {
            const Reading* was = model.ghost.evaluation.reading(is.name);
            if (!was || std::abs(is.value - was->value) < shown_difference) continue;
            change_row(frame, *was, is, roomy);
            any = true;
        }
        ImGui::EndTable();
    }
    if (!any)
        wrapped(frame.type.small, frame.colours().quiet,
                kept ? "Nothing differs from it." : "Nothing has changed yet.");
    if (!kept && button(frame, "keep ghost", "Keep today's as the ghost"))
        keep_ghost(model, model.history.now());
    if (kept && button(frame, "drop ghost", "Let it go")) toggle_ghost(model);
}

}  // namespace podwright
