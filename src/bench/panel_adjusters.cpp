#include <imgui.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>

#include "bench/edit.hpp"
#include "bench/panels.hpp"
#include "bench/typed_number.hpp"
#include "core/shim_search.hpp"

namespace podwright {

namespace {

/// The adjusters of a group that are always in sight, by key; the others stand behind "more".
const std::vector<std::string>& foremost(Group group) {
    static const std::vector<std::string> left = {"left.shims", "left.inset", "left.holder_step",
                                                  "left.holder_way", "left.reach"};
    static const std::vector<std::string> right = {
        "right.shims", "right.inset", "right.holder_step", "right.holder_way", "right.reach"};
    static const std::vector<std::string> gears = {"gears.pinion", "gears.spur", "gears.backlash"};
    static const std::vector<std::string> tyres = {"left.tyre_diameter", "right.tyre_diameter",
                                                   "left.tyre_width", "right.tyre_width"};
    static const std::vector<std::string> axle = {"float.set_by", "float.blade", "float.shoulder",
                                                  "axle.material"};
    static const std::vector<std::string> event = {"event.width_max", "event.ride_low",
                                                   "event.ride_high", "event.rollout_low",
                                                   "event.rollout_high"};
    static const std::vector<std::string> none;
    switch (group) {
        case Group::left: return left;
        case Group::right: return right;
        case Group::gears: return gears;
        case Group::tyres: return tyres;
        case Group::axle: return axle;
        case Group::event: return event;
        case Group::car: break;
    }
    return none;
}

/// Some adjusters mean nothing beside what is chosen elsewhere.
bool is_idle(const Parameter& p, const Setup& setup) {
    if (p.key == "float.blade") return setup.axial_float.set_by != FloatBy::blade;
    if (p.key == "float.shoulder") return setup.axial_float.set_by != FloatBy::shoulder;
    if (p.key == "gears.module") return setup.gears.by_diametral_pitch;
    if (p.key == "gears.diametral_pitch") return !setup.gears.by_diametral_pitch;
    return p.key == "motor.clamped_at" && !setup.motor.clamped_at;
}

/// The other axle is set where it stands beside the car's own.
bool is_of_other_axle(const Parameter& p) { return p.key.rfind("other_axle.", 0) == 0; }

std::string label_of(const Parameter& p) {
    if (p.group != Group::tyres) return p.label;
    return (p.key.front() == 'l' ? "left " : "right ") + p.label;
}

void explain(const Parameter& p, LengthUnit shown) {
    if (!ImGui::IsItemHovered()) return;
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(ImGui::GetFontSize() * 24);
    ImGui::TextUnformatted(p.help.c_str());
    if (p.kind == ValueKind::number)
        ImGui::Text("%s to %s", shown_value(p, p.low, shown).c_str(),
                    shown_value(p, p.high, shown).c_str());
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
}

/// What the value in hand does to the other axle; how many figures that are.
int tell_other_axle(const Model& model) {
    const auto& was = model.before.feel.comparison;
    const auto& now = model.evaluation.feel.comparison;
    if (!was || !now) return 0;
    int told = 0;
    const auto before = compared_figures(*was), after = compared_figures(*now);
    for (std::size_t i = 0; i < after.size(); ++i) {
        const std::string from = shown_figure(before[i], before[i].second, model.shown);
        const std::string to = shown_figure(after[i], after[i].second, model.shown);
        if (from == to) continue;
        ++told;
        ImGui::Text("%s  %s  (was %s)", std::string(after[i].label).c_str(), to.c_str(),
                    from.c_str());
    }
    return told;
}

/// What the value in hand does to the readings, beside the mouse.
void tell_changes(const WindowFrame& frame) {
    const Model& model = frame.model;
    if (!model.provisional) return;
    constexpr int most = 6;
    int told = 0;
    ImGui::BeginTooltip();
    ImGui::PushFont(frame.type.small);
    for (const Reading& now : model.evaluation.readings) {
        const Reading* was = model.before.reading(now.name);
        if (!was || std::abs(now.value - was->value) < shown_difference || told == most) continue;
        ++told;
        ImGui::Text("%s  %s  (%s)", std::string(now.label).c_str(),
                    shown_reading(now, model.shown).c_str(),
                    shown_change(now, now.value - was->value, model.shown).c_str());
    }
    told += tell_other_axle(model);
    if (told == 0) ImGui::TextUnformatted("no reading changes");
    ImGui::PopFont();
    ImGui::EndTooltip();
}

/// The value as text to type over, while it is clicked.
void typed_value(WindowFrame& frame, const Parameter& p, double value, float edge) {
    Model& model = frame.model;
    const std::string text = shown_value(p, value, model.shown);
    const ImVec2 size =
        frame.type.strong->CalcTextSizeA(frame.type.strong->FontSize, 1e9F, 0, text.c_str());
    const ImVec2 at{edge - size.x, ImGui::GetCursorScreenPos().y};
    ImGui::SetCursorScreenPos(at);
    const std::string popup = "type " + p.key;
    if (ImGui::InvisibleButton(("value " + p.key).c_str(), size)) ImGui::OpenPopup(popup.c_str());
    frame.note_place("value " + p.key, at, {at.x + size.x, at.y + size.y});
    const bool hovered = ImGui::IsItemHovered();
    ImGui::GetWindowDrawList()->AddText(frame.type.strong, frame.type.strong->FontSize, at,
                                        hovered ? frame.colours().accent : frame.colours().ink,
                                        text.c_str());
    if (hovered) ImGui::SetTooltip("Click to type a value");
    if (!ImGui::BeginPopup(popup.c_str())) return;
    const bool inches = p.unit == Unit::mm && model.shown == LengthUnit::inch;
    std::string typed = inches ? fixed(value / mm_per_inch, 4) : fixed(value, 3);
    if (ImGui::IsWindowAppearing()) ImGui::SetKeyboardFocusHere();
    ImGui::SetNextItemWidth(frame.px(110));
    const std::string unit = inches ? "in" : unit_text(symbol(p.unit));
    if (ImGui::InputText(
            (unit + "##typed").c_str(), &typed,
            ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_AutoSelectAll)) {
        const TypedNumber read = read_typed(p, label_of(p), typed, model.shown);
        if (read.value) {
            const Change change{p.key, *read.value, {}};
            make_changes(model, {&change, 1}, describe(change, model.shown), frame.now);
        } else {
            say(model, read.refusal, frame.now);
        }
        ImGui::CloseCurrentPopup();
    }
    ImGui::EndPopup();
}

void number_row(WindowFrame& frame, const Parameter& p) {
    Model& model = frame.model;
    const float width = ImGui::GetContentRegionAvail().x;
    const float edge = ImGui::GetCursorScreenPos().x + width;
    const double now = counting_value(p, model.setup);
    ImGui::TextUnformatted(label_of(p).c_str());
    explain(p, model.shown);
    ImGui::SameLine();
    typed_value(frame, p, now, edge);
    double value = now;
    bool done = false;
    const float play_width = frame.px(20 + grid::small);
    if (track(frame, p.key, value, p.low, p.high, p.step, width - play_width, done)) {
        model.play.reset();
        const Change change{p.key, to_step(p, value), {}};
        if (change.number != now) try_changes(model, {&change, 1}, frame.now);
    }
    if (ImGui::IsItemActive()) tell_changes(frame);
    if (done) commit(model);
    ImGui::SameLine(0, frame.px(8));
    if (play_button(frame, "play " + p.key, model.play && model.play->key == p.key))
        start_play(model, p.key, frame.now);
    ImGui::Dummy({0, frame.px(grid::hair)});
}

void choice_row(WindowFrame& frame, const Parameter& p) {
    Model& model = frame.model;
    int index = static_cast<int>(std::lround(counting_value(p, model.setup)));
    const float edge = ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x;
    ImGui::TextUnformatted(label_of(p).c_str());
    explain(p, model.shown);
    bool changed = false;
    if (p.options.size() <= 2) {
        float width = 0;
        for (const std::string& word : p.options)
            width +=
                frame.type.small->CalcTextSizeA(frame.type.small->FontSize, 1e9F, 0, word.c_str())
                    .x +
                frame.px(18);
        ImGui::SameLine();
        ImGui::SetCursorScreenPos({edge - width, ImGui::GetCursorScreenPos().y - frame.px(3)});
        changed = segments(frame, p.key, p.options, index);
    } else {
        ImGui::SetNextItemWidth(ImGui::GetContentRegionAvail().x);
        if (ImGui::BeginCombo(("##" + p.key).c_str(),
                              p.options[static_cast<std::size_t>(index)].c_str())) {
            for (int i = 0; i < static_cast<int>(p.options.size()); ++i)
                if (ImGui::Selectable(p.options[static_cast<std::size_t>(i)].c_str(), i == index)) {
                    changed = i != index;
                    index = i;
                }
            ImGui::EndCombo();
        }
        frame.note_place(p.key, ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    }
    ImGui::Dummy({0, frame.px(grid::hair)});
    if (!changed) return;
    const Change change{p.key, static_cast<double>(index), {}};
    make_changes(model, {&change, 1}, describe(change, model.shown), frame.now);
}

void list_row(WindowFrame& frame, const Parameter& p) {
    Model& model = frame.model;
    const std::vector<double>& list = p.get_list(model.setup);
    std::vector<double> next = list;
    bool changed = false;
    double sum = 0;
    for (double t : list) sum += t;
    const float edge = ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x;
    ImGui::TextUnformatted(label_of(p).c_str());
    explain(p, model.shown);
    ImGui::SameLine();
    right_aligned(frame.type.strong, frame.colours().ink, length(sum, model.shown), edge);
    ImGui::NewLine();
    ImGui::PushID(p.key.c_str());
    ImGui::PushFont(frame.type.small);
    for (std::size_t i = 0; i < list.size(); ++i) {
        const std::string chip = number_as(written_as("mm", model.shown), list[i]);
        ImGui::PushID(static_cast<int>(i));
        if (button(frame, p.key + "." + std::to_string(i + 1), chip.c_str())) {
            next.erase(next.begin() + static_cast<std::ptrdiff_t>(i));
            changed = true;
        }
        if (ImGui::IsItemHovered()) ImGui::SetTooltip("Take this shim out");
        ImGui::PopID();
        ImGui::SameLine(0, frame.px(4));
        if (ImGui::GetCursorScreenPos().x > edge - frame.px(52)) ImGui::NewLine();
    }
    if (button(frame, p.key + ".add", "+", list.size() < p.longest)) ImGui::OpenPopup("add shim");
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("Add a shim");
    if (ImGui::BeginPopup("add shim")) {
        for (double t : usual_shims)
            if (ImGui::Selectable(length(t, model.shown).c_str())) {
                next.push_back(t);
                changed = true;
            }
        ImGui::EndPopup();
    }
    ImGui::PopFont();
    ImGui::PopID();
    ImGui::Dummy({0, frame.px(grid::hair)});
    if (!changed) return;
    const Change change{p.key, 0, next};
    make_changes(model, {&change, 1}, describe(change, model.shown), frame.now);
}

void row(WindowFrame& frame, const Parameter& p) {
    if (p.kind == ValueKind::text || is_idle(p, frame.model.setup)) return;
    ImGui::PushID(p.key.c_str());
    if (p.kind == ValueKind::number) number_row(frame, p);
    if (p.kind == ValueKind::choice) choice_row(frame, p);
    if (p.kind == ValueKind::list) list_row(frame, p);
    ImGui::PopID();
}

/// Only where the mesh was not set again after a holder change.
void mesh_row(WindowFrame& frame) {
    Model& model = frame.model;
    if (!model.setup.motor.clamped_at) return;
    if (button(frame, "set mesh", "Set the mesh again")) {
        Setup next = model.history.now();
        next.motor.clamped_at.reset();
        model.history.push(std::move(next), "set the mesh again");
        model.play.reset();
        cancel(model);
    }
    ImGui::Dummy({0, frame.px(grid::hair)});
}

void group_rows(WindowFrame& frame, Group group) {
    const std::vector<std::string>& front = foremost(group);
    for (const std::string& key : front) row(frame, *find_parameter(key));
    if (group == Group::gears) mesh_row(frame);
    const auto in_front = [&](const Parameter& p) {
        return std::find(front.begin(), front.end(), p.key) != front.end();
    };
    if (!front.empty() && !more_switch(frame, std::string(title(group)))) return;
    for (const Parameter& p : parameters())
        if (p.group == group && !in_front(p) && !is_of_other_axle(p)) row(frame, p);
}

std::string link_words(const Model& model) {
    if (!model.linked) return "each side on its own";
    const std::vector<std::string> unlike = unlike_sides(model.setup);
    if (unlike.empty()) return "both sides alike";
    return "both sides alike but for " + unlike.front() + (unlike.size() > 1 ? " and more" : "");
}

void link_switch(WindowFrame& frame) {
    Model& model = frame.model;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float height = frame.px(grid::icon_button);
    icon_switch(frame, "link", model.linked ? Icon::link : Icon::unlink,
                model.linked ? "A change on one side is made on the other too, where both are alike"
                             : "Each side is changed on its own",
                model.linked);
    ImFont* font = frame.type.small;
    ImGui::GetWindowDrawList()->AddText(
        font, font->FontSize,
        {at.x + height + frame.px(grid::small), at.y + (height - font->FontSize) / 2},
        frame.colours().ink, link_words(model).c_str());
}

}  // namespace

void adjuster_row(WindowFrame& frame, std::string_view key) { row(frame, *find_parameter(key)); }

void adjuster_panel(WindowFrame& frame) {
    link_switch(frame);
    constexpr Group order[] = {Group::left, Group::right, Group::gears, Group::tyres,
                               Group::axle, Group::event, Group::car};
    for (Group group : order) {
        const bool open = group == Group::left || group == Group::gears || group == Group::axle;
        const std::string name(title(group));
        if (!heading(frame, name, open)) continue;
        ImGui::PushID(name.c_str());
        ImGui::Dummy({0, frame.px(grid::hair)});
        group_rows(frame, group);
        ImGui::PopID();
    }
}

}  // namespace podwright
