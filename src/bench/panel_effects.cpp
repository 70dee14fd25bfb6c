#include <GLFW/glfw3.h>

#include <algorithm>
#include <cmath>

#include "bench/advice_panels.hpp"
#include "choose/causes.hpp"

namespace podwright {

namespace {

/// Which reading's effects are listed.
void reading_choice(WindowFrame& frame, Advisor& advisor) {
    const auto& readings = frame.model.evaluation.readings;
    const Reading* now = frame.model.evaluation.reading(advisor.effect_reading);
    ImGui::SetNextItemWidth(ImGui::GetContentRegionAvail().x);
    if (ImGui::BeginCombo("##effect reading", now ? std::string(now->label).c_str() : "")) {
        for (const Reading& reading : readings)
            if (ImGui::Selectable(
                    (std::string(reading.label) + "##" + std::string(reading.name)).c_str(),
                    reading.name == advisor.effect_reading))
                advisor.effect_reading = reading.name;
        ImGui::EndCombo();
    }
    frame.note_place("effect reading", ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    ImGui::Dummy({0, frame.px(grid::hair)});
}

std::string change_words(const Effect& effect, LengthUnit shown) {
    const std::string number = shown_effect(effect.change, effect.unit, shown);
    if (number.empty()) return {};
    if (effect.unit == "mm") return number + (shown == LengthUnit::mm ? " mm" : " in");
    if (effect.unit == "deg") return number + "\xC2\xB0";
    return number + (effect.unit.empty() ? "" : " " + effect.unit);
}

const Effect* effect_on(const Adjuster& adjuster, const std::string& reading) {
    for (const Effect& effect : adjuster.effects)
        if (effect.reading == reading) return &effect;
    return nullptr;
}

/// The adjuster, a bar from the middle to the side of its sign, and the change.
void effect_row(WindowFrame& frame, const Adjuster& adjuster, const Effect& effect,
                double greatest) {
    const Palette& c = frame.colours();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float height = frame.px(40);
    ImGui::InvisibleButton(adjuster.key.c_str(), {width, height});
    frame.note_place("effect " + adjuster.key, at, {at.x + width, at.y + height});
    std::string tip = adjuster.text;
    for (const Effect& other : adjuster.effects)
        if (const std::string words = change_words(other, frame.model.shown); !words.empty())
            tip += "\n" + other.label + "  " + words;
    tip_for_last(frame, tip);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (ImGui::IsItemHovered())
        list.AddRectFilled({at.x - frame.px(grid::hair), at.y},
                           {at.x + width + frame.px(grid::hair), at.y + height}, c.field,
                           frame.px(grid::rounding));
    ImFont& font = *frame.type.small;
    const std::string value = change_words(effect, frame.model.shown);
    const float right = font.CalcTextSizeA(font.FontSize, 1e9F, 0, value.c_str()).x;
    const float y = at.y + frame.px(grid::hair);
    list.AddText(&font, font.FontSize, {at.x, y}, c.ink,
                 shortened(font, adjuster.text, width - right - frame.px(grid::small)).c_str());
    list.AddText(&font, font.FontSize, {at.x + width - right, y}, c.ink, value.c_str());
    const float middle = at.x + width / 2;
    const float bar = at.y + height - frame.px(10);
    const float end =
        middle + width / 2 * static_cast<float>(effect.change / std::max(greatest, 1e-12));
    list.AddRectFilled({at.x, bar}, {at.x + width, bar + frame.px(2)}, c.line);
    list.AddRectFilled({std::min(middle, end), bar - frame.px(1)},
                       {std::max(middle, end), bar + frame.px(3)}, c.accent, frame.px(2));
    list.AddLine({middle, bar - frame.px(3)}, {middle, bar + frame.px(5)}, c.quiet, frame.px(1));
}

}  // namespace

void effects_page(WindowFrame& frame, Advisor& advisor) {
    note(frame,
         "What one more of each adjuster does to one reading, the strongest first. Point at a row "
         "for all that it moves. In all of them " +
             std::string(motor_in_effects) + ".");
    if (button(frame, "whole table", "The whole table")) advisor.whole_table = true;
    ImGui::Dummy({0, frame.px(grid::hair)});
    reading_choice(frame, advisor);
    const std::vector<Adjuster>& all = advisor.effects(frame.model);
    std::vector<std::pair<const Adjuster*, const Effect*>> rows;
    for (const Adjuster& adjuster : all)
        if (const Effect* effect = effect_on(adjuster, advisor.effect_reading);
            effect && !change_words(*effect, frame.model.shown).empty())
            rows.emplace_back(&adjuster, effect);
    if (rows.empty()) {
        note(frame, "No adjuster moves this reading by what could be seen.");
        return;
    }
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
        return std::abs(a.second->change) > std::abs(b.second->change);
    });
    for (const auto& [adjuster, effect] : rows)
        effect_row(frame, *adjuster, *effect, std::abs(rows.front().second->change));
}

namespace {

void table_head(WindowFrame& frame) {
    ImGui::TableSetupScrollFreeze(1, 1);
    ImGui::TableSetupColumn("adjuster", ImGuiTableColumnFlags_WidthStretch);
    for (const EffectColumn& column : effect_columns())
        ImGui::TableSetupColumn(column.title, ImGuiTableColumnFlags_WidthFixed, frame.px(68));
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    for (const EffectColumn& column : effect_columns()) {
        ImGui::TableNextColumn();
        right_aligned(frame.type.strong_small, frame.colours().ink, column.title,
                      ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x);
        ImGui::NewLine();
    }
}

void table_row(WindowFrame& frame, const Adjuster& adjuster) {
    std::vector<std::string> cells;
    bool any = false;
    for (const EffectColumn& column : effect_columns()) {
        const Effect* effect = effect_on(adjuster, column.reading);
        cells.push_back(effect ? shown_effect(effect->change, effect->unit, frame.model.shown)
                               : std::string());
        any = any || !cells.back().empty();
    }
    if (!any) return;
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    wrapped(frame.type.small, frame.colours().ink, adjuster.text);
    for (const std::string& cell : cells) {
        ImGui::TableNextColumn();
        right_aligned(frame.type.small, frame.colours().ink, cell,
                      ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x);
        ImGui::NewLine();
    }
}

}  // namespace

void effects_sheet(WindowFrame& frame, Advisor& advisor) {
    if (!advisor.whole_table) return;
    const ImGuiViewport& screen = *ImGui::GetMainViewport();
    const ImVec2 size{std::min(frame.px(820), screen.Size.x - frame.px(40)),
                      std::min(frame.px(640), screen.Size.y - frame.px(80))};
    ImGui::SetNextWindowPos(screen.GetCenter(), ImGuiCond_Always, {0.5F, 0.5F});
    ImGui::SetNextWindowSize(size);
    ImGui::Begin("What one more of each adjuster does", &advisor.whole_table,
                 ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoResize |
                     ImGuiWindowFlags_NoSavedSettings);
    if (frame.pressed(GLFW_KEY_ESCAPE)) advisor.whole_table = false;
    wrapped(frame.type.small, frame.colours().quiet,
            std::string("Lengths in ") + (frame.model.shown == LengthUnit::mm ? "mm" : "inches") +
                ", roll in degrees; " + motor_in_effects + ".");
    ImGui::Dummy({0, frame.px(grid::hair)});
    const int columns = static_cast<int>(effect_columns().size()) + 1;
    if (ImGui::BeginTable(
            "effects", columns,
            ImGuiTableFlags_ScrollY | ImGuiTableFlags_RowBg | ImGuiTableFlags_BordersInnerH)) {
        table_head(frame);
        for (const Adjuster& adjuster : advisor.effects(frame.model)) table_row(frame, adjuster);
        ImGui::EndTable();
    }
    ImGui::End();
}

void cause_lines(WindowFrame& frame) {
    const Model& model = frame.model;
    if (model.ghost.of == Ghost::Of::nothing) return;
    const std::vector<Cause> causes = causes_between(model.ghost.setup, model.setup, model.shown);
    if (causes.empty()) return;
    section_title(frame, "What follows from what");
    const float width = ImGui::GetContentRegionAvail().x;
    for (const Cause& cause : causes) {
        std::string words = cause.text;
        for (const CauseLink& link : cause.links)
            if (!link.text.empty()) words += " \xE2\x86\x92 " + link.text;
        bullet(frame, width, words);
    }
    ImGui::Dummy({0, frame.px(grid::hair)});
}

}  // namespace podwright
