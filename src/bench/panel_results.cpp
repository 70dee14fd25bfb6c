#include <cmath>

#include "bench/edit.hpp"
#include "bench/panels.hpp"
#include "bench/room.hpp"
#include "bench/views.hpp"
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

/// Returns true when its fix was applied: the findings are others then.
bool finding_card(WindowFrame& frame, const Finding& finding, const Stage& stage, double aspect) {
    Model& model = frame.model;
    const bool chosen = model.chosen_finding == finding.code;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.ChannelsSplit(2);
    list.ChannelsSetCurrent(1);
    const ImVec2 start = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float pad = frame.px(10);
    ImGui::SetCursorScreenPos({start.x + pad, start.y + pad});
    ImGui::BeginGroup();
    const float size = frame.px(18);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    draw_status_sign(list, frame.colours(), status_of(finding.level),
                     {at.x + size / 2, at.y + size / 2}, size);
    ImGui::SetCursorScreenPos({at.x + size + frame.px(8), at.y});
    ImGui::PushFont(frame.type.strong);
    ImGui::TextUnformatted(heading(finding.level));
    ImGui::PopFont();
    wrapped(frame.type.text, frame.colours().ink, finding.text, width - 2 * pad);
    wrapped(frame.type.text, frame.colours().quiet, finding.fix, width - 2 * pad);
    bool applied = false;
    if (button(frame, "show " + finding.code, chosen ? "Shown" : "Show it"))
        choose(frame, finding, stage, aspect);
    if (!finding.changes.empty()) {
        ImGui::SameLine();
        if (button(frame, "fix " + finding.code, "Apply the fix", true, true)) {
            const bool linked = model.linked;
            model.linked = false;  // the fix names both sides where it means both
            const auto changes = finding.changes;
            make_changes(model, changes, "fix " + finding.code, frame.now);
            model.linked = linked;
            applied = true;
        }
    }
    ImGui::EndGroup();
    const float bottom = ImGui::GetItemRectMax().y + pad;
    list.ChannelsSetCurrent(0);
    list.AddRectFilled(start, {start.x + width, bottom}, frame.colours().card, frame.px(6));
    list.AddRect(start, {start.x + width, bottom},
                 chosen ? frame.colours().accent : frame.colours().line, frame.px(6), 0,
                 frame.px(chosen ? 2.0F : 1.0F));
    list.ChannelsMerge();
    ImGui::SetCursorScreenPos({start.x, bottom + frame.px(8)});
    return applied;
}

std::string limits_of(const Reading& r, LengthUnit shown) {
    const auto number = [&](double value) {
        if (r.unit == "mm" && shown == LengthUnit::inch) return fixed(value / mm_per_inch, 3);
        return fixed(value, 2);
    };
    if (r.low && r.high) return number(*r.low) + " \xE2\x80\xA6 " + number(*r.high);
    if (r.low) return "at least " + number(*r.low);
    if (r.high) return "at most " + number(*r.high);
    return {};
}

void reading_row(WindowFrame& frame, const Reading& r) {
    const Model& model = frame.model;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float edge = at.x + ImGui::GetContentRegionAvail().x;
    const float size = frame.px(12);
    draw_status_sign(*ImGui::GetWindowDrawList(), frame.colours(), r.status,
                     {at.x + size / 2, at.y + frame.type.small->FontSize * 0.62F}, size);
    ImGui::SetCursorScreenPos({at.x + size + frame.px(8), at.y});
    ImGui::PushFont(frame.type.small);
    ImGui::TextUnformatted(std::string(r.label).c_str());
    const bool hovered = ImGui::IsItemHovered();
    ImGui::PopFont();
    ImGui::SetCursorScreenPos(at);
    const Reading* was = model.before.reading(r.name);
    const double change = was && model.provisional ? r.value - was->value : 0;
    const bool changed = std::abs(change) >= 0.005;
    right_aligned(frame.type.small, changed ? frame.colours().accent : frame.colours().ink,
                  shown_reading(r, model.shown), edge);
    ImGui::SetCursorScreenPos({at.x, at.y + frame.type.small->FontSize + frame.px(5)});
    if (hovered) {
        const std::string limits = limits_of(r, model.shown);
        ImGui::SetTooltip("%s%s%s%s%s", std::string(r.name).c_str(), limits.empty() ? "" : "\n",
                          limits.c_str(), r.status == Status::none ? "" : "\n",
                          r.status == Status::none ? "" : std::string(word(r.status)).c_str());
    }
}

std::string_view area_of(std::string_view name) { return name.substr(0, name.find('.')); }

const char* area_title(std::string_view area) {
    if (area == "float") return "Float";
    if (area == "width") return "Width";
    if (area == "ride") return "Ride height";
    if (area == "axle") return "Axle";
    if (area == "mesh") return "Mesh";
    if (area == "gear") return "Gearing";
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
        ImGui::SetCursorScreenPos({at.x + size + frame.px(10), at.y});
        wrapped(frame.type.text, frame.colours().ink, "Nothing binds, rubs or breaks a limit.");
        return;
    }
    for (const Finding& finding : findings)
        if (finding_card(frame, finding, stage, aspect)) return;
}

void room_panel(WindowFrame& frame, const Stage& stage, double aspect) {
    Model& model = frame.model;
    ImGui::Dummy({0, frame.px(4)});
    wrapped(frame.type.strong, frame.colours().ink, "Room");
    constexpr std::size_t most = 6;
    if (model.evaluation.clearances.empty())
        wrapped(frame.type.small, frame.colours().quiet,
                model.provisional ? "Measured when you let go." : "Nothing comes near.");
    for (const Clearance* c : shown_clearances(model.evaluation, true, most)) {
        const std::string name = c->a + "|" + c->b;
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const float edge = at.x + ImGui::GetContentRegionAvail().x;
        const float height = frame.type.small->FontSize + frame.px(5);
        if (ImGui::InvisibleButton(name.c_str(), {edge - at.x, height})) {
            model.looked_at = name;
            go_to(model, camera_on_gap(*c, model.camera, stage, model.look, aspect), frame.now);
        }
        frame.note_place("room " + name, at, {edge, at.y + height});
        const bool hovered = ImGui::IsItemHovered();
        const ImU32 colour =
            hovered || model.looked_at == name ? frame.colours().accent : frame.colours().ink;
        ImDrawList& list = *ImGui::GetWindowDrawList();
        const float size = frame.px(12);
        draw_status_sign(list, frame.colours(), c->worst.status,
                         {at.x + size / 2, at.y + frame.type.small->FontSize * 0.62F}, size);
        const std::string pair = spoken(model.evaluation.assembly, c->a) + " / " +
                                 spoken(model.evaluation.assembly, c->b);
        list.AddText(frame.type.small, frame.type.small->FontSize,
                     {at.x + size + frame.px(8), at.y}, colour, pair.c_str());
        ImGui::SetCursorScreenPos(at);
        right_aligned(frame.type.small, colour, length(c->worst.gap, model.shown), edge);
        ImGui::SetCursorScreenPos({at.x, at.y + height});
        if (hovered)
            ImGui::SetTooltip("%s as it stands\n%s at its worst: %s\nneeds %s\nClick to look at it",
                              length(c->now.gap, model.shown).c_str(),
                              length(c->worst.gap, model.shown).c_str(), words(c->when).c_str(),
                              length(c->need, model.shown).c_str());
    }
}

void reading_panel(WindowFrame& frame) {
    std::string_view area;
    for (const Reading& r : frame.model.evaluation.readings) {
        if (area_of(r.name) != area) {
            area = area_of(r.name);
            ImGui::Dummy({0, frame.px(4)});
            wrapped(frame.type.strong, frame.colours().ink, area_title(area));
        }
        reading_row(frame, r);
    }
}

}  // namespace podwright
