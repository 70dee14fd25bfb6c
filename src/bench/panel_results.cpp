#include <cmath>

#include "bench/edit.hpp"
#include "bench/panels.hpp"
#include "bench/room.hpp"
#include "bench/status_word.hpp"
#include "bench/value_row.hpp"
#include "bench/views.hpp"
#include "core/readings.hpp"
#include "gap/clearance_findings.hpp"

namespace podwright {

namespace {

const char* heading(Level level) {
    switch (level) {
        case Level::stop: return "Stop";
        case Level::caution: return "Caution";
        case Level::note: return "Note";
    }
    return "";
}

void choose(WindowFrame& frame, const Finding& finding, const Stage& stage, double aspect) {
    Model& model = frame.model;
    const bool again = model.chosen_finding == finding.code;
    model.chosen_finding = again ? "" : finding.code;
    model.look.alarmed = again ? std::vector<std::string>{} : finding.parts;
    if (again) return;
    const auto [centre, radius] = stage.sphere_about(model.look, finding.parts);
    if (radius > 0)
        go_to(model, looking_at(model.camera, centre, radius * 1.15, aspect), frame.now);
}

/// The finding's buttons, the fix first; true when the fix was applied, which leaves `finding`
/// dangling: the findings are others then.
bool finding_buttons(WindowFrame& frame, const Finding& finding, const Stage& stage,
                     double aspect) {
    Model& model = frame.model;
    if (!finding.changes.empty()) {
        if (button(frame, "fix " + finding.code, "Apply the fix", true, true)) {
            const bool linked = model.linked;
            model.linked = false;  // the fix names both sides where it means both
            const auto changes = finding.changes;
            make_changes(model, changes, "fix " + finding.code, frame.now);
            model.linked = linked;
            return true;
        }
        ImGui::SameLine();
    }
    const bool chosen = model.chosen_finding == finding.code;
    if (button(frame, "show " + finding.code, chosen ? "Let go" : "Show it"))
        choose(frame, finding, stage, aspect);
    return false;
}

/// Returns true when its fix was applied: the findings are others then.
bool finding_card(WindowFrame& frame, const Finding& finding, const Stage& stage, double aspect) {
    const bool chosen = frame.model.chosen_finding == finding.code;
    const Palette& colours = frame.colours();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.ChannelsSplit(2);
    list.ChannelsSetCurrent(1);
    const ImVec2 start = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float pad = frame.px(grid::medium);
    ImGui::SetCursorScreenPos({start.x + pad, start.y + pad});
    ImGui::BeginGroup();
    const float size = frame.px(20);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    draw_status_sign(list, colours, status_of(finding.level), {at.x + size / 2, at.y + size / 2},
                     size);
    ImGui::SetCursorScreenPos(
        {at.x + size + frame.px(grid::small), at.y + (size - frame.type.strong->FontSize) / 2});
    wrapped(frame.type.strong, colours.ink, heading(finding.level));
    ImGui::Dummy({0, frame.px(2)});
    wrapped(frame.type.text, colours.ink, finding.text, width - 2 * pad);
    ImGui::Dummy({0, frame.px(2)});
    wrapped(frame.type.small, colours.quiet, finding.fix, width - 2 * pad);
    ImGui::Dummy({0, frame.px(grid::hair)});
    const bool applied = finding_buttons(frame, finding, stage, aspect);
    ImGui::EndGroup();
    const float bottom = ImGui::GetItemRectMax().y + pad;
    list.ChannelsSetCurrent(0);
    const float rounding = frame.px(grid::card_rounding);
    list.AddRectFilled(start, {start.x + width, bottom}, colours.card, rounding);
    list.AddRect(start, {start.x + width, bottom}, chosen ? colours.accent : colours.line, rounding,
                 0, frame.px(chosen ? 2.0F : 1.0F));
    list.ChannelsMerge();
    ImGui::SetCursorScreenPos({start.x, bottom + frame.px(grid::small)});
    return applied;
}

void reading_row(WindowFrame& frame, const Reading& r) {
    const Model& model = frame.model;
    const Reading* was = model.before.reading(r.name);
    const double change = was && model.provisional ? r.value - was->value : 0;
    const bool changed = std::abs(change) >= shown_difference;
    std::string words(r.label);
    if (r.status >= Status::caution) words += ", " + std::string(status_word(r));
    const Row row = value_row(frame, "reading " + std::string(r.name), r.status, words,
                              shown_reading(r, model.shown),
                              changed ? frame.colours().accent : frame.colours().ink, false);
    if (!row.hovered) return;
    const std::string limits = limits_text(r, model.shown);
    std::string tip(r.name);
    if (!limits.empty()) tip += "\n" + limits + ": " + std::string(status_word(r));
    ImGui::SetTooltip("%s", tip.c_str());
}

std::string_view area_of(std::string_view name) { return name.substr(0, name.find('.')); }

const char* area_title(std::string_view area) {
    if (area == "float") return "Float";
    if (area == "width") return "Width";
    if (area == "ride") return "Ride height";
    if (area == "axle") return "Axle";
    if (area == "mesh") return "Mesh";
    if (area == "gear") return "Gearing";
    if (area == "shaft") return "Axle under load";
    if (area == "bearing") return "Bearings";
    if (area == "load") return "Load";
    if (area == "fit") return "Fits";
    return "";
}

}  // namespace

void finding_panel(WindowFrame& frame, const Stage& stage, double aspect) {
    const auto& findings = frame.model.evaluation.findings;
    if (findings.empty()) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const float size = frame.px(20);
        draw_status_sign(*ImGui::GetWindowDrawList(), frame.colours(), Status::ok,
                         {at.x + size / 2, at.y + size / 2}, size);
        ImGui::SetCursorScreenPos({at.x + size + frame.px(grid::small), at.y});
        wrapped(frame.type.text, frame.colours().ink, "Nothing binds, rubs or breaks a limit.");
        return;
    }
    for (const Finding& finding : findings)
        if (finding_card(frame, finding, stage, aspect)) return;
}

void room_panel(WindowFrame& frame, const Stage& stage, double aspect) {
    Model& model = frame.model;
    section_title(frame, "Clearances at their worst");
    constexpr std::size_t most = 6;
    if (model.evaluation.clearances.empty())
        wrapped(frame.type.small, frame.colours().quiet, "Nothing comes near.");
    for (const Clearance* c : shown_clearances(model.evaluation, true, most)) {
        const std::string name = c->a + "|" + c->b;
        const std::string pair = spoken(model.evaluation.assembly, c->a) + " / " +
                                 spoken(model.evaluation.assembly, c->b);
        const Row row = value_row(frame, "room " + name, c->worst.status, pair,
                                  length(c->worst.gap, model.shown), frame.colours().ink,
                                  model.looked_at == name);
        if (row.pressed) {
            model.looked_at = name;
            go_to(model, camera_on_gap(*c, model.camera, stage, model.look, aspect), frame.now);
        }
        if (row.hovered)
            ImGui::SetTooltip(
                "%s\n%s as it stands\n%s at its worst: %s\nneeds %s\nClick to look at it",
                pair.c_str(), length(c->now.gap, model.shown).c_str(),
                length(c->worst.gap, model.shown).c_str(), words(c->when).c_str(),
                length(c->need, model.shown).c_str());
    }
}

void reading_panel(WindowFrame& frame) {
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {ImGui::GetStyle().ItemSpacing.x, 0});
    std::string_view area;
    for (const Reading& r : frame.model.evaluation.readings) {
        if (area_of(r.name) != area) {
            area = area_of(r.name);
            section_title(frame, area_title(area));
        }
        reading_row(frame, r);
    }
    ImGui::PopStyleVar();
}

}  // namespace podwright
