#include <algorithm>
#include <cmath>

#include "bench/load_case.hpp"
#include "bench/panels.hpp"
#include "bench/plot.hpp"
#include "bench/value_row.hpp"
#include "core/conflicts.hpp"
#include "core/limits.hpp"
#include "core/other_axle.hpp"

namespace podwright {

namespace {

void gap(const WindowFrame& frame, float units) { ImGui::Dummy({0, frame.px(units)}); }

/// Makes this setup the present; says why not if no car could be like it.
void put(WindowFrame& frame, Setup next, std::string what) {
    Model& model = frame.model;
    if (const auto conflict = find_conflict(next))
        return say(model, "Not possible: " + conflict->text, frame.now);
    model.play.reset();
    model.history.push(std::move(next), std::move(what));
    cancel(model);
}

/// The load cases; the chosen one is shown on the model.
void case_section(WindowFrame& frame) {
    Model& model = frame.model;
    section_title(frame, "Load cases on the model");
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {ImGui::GetStyle().ItemSpacing.x, 0});
    for (const SolvedCase& solved : model.evaluation.feel.shaft.cases) {
        const LoadCase which = solved.loads.which;
        const double safety = solved.state.worst.safety;
        const bool chosen = model.felt && model.felt->which == which;
        const Row row = value_row(frame, "case " + std::string(key(which)),
                                  safety_status(model.setup, safety), std::string(title(which)),
                                  "safety " + number_as(written_as("", model.shown), safety),
                                  frame.colours().ink, chosen);
        if (row.hovered)
            ImGui::SetTooltip(
                "%s\n%s", std::string(title(which)).c_str(),
                (chosen ? "Click to see the axle straight again"
                        : "Click to see it bent and wound up, with moment and torque"));
        if (row.pressed)
            show_load_case(model, chosen ? std::nullopt : std::optional(which), frame.now);
    }
    ImGui::PopStyleVar();
    gap(frame, grid::hair);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (play_button(frame, "play load", model.play && model.play->key == "load"))
        start_play(model, "load", frame.now);
    ImFont* font = frame.type.small;
    ImGui::GetWindowDrawList()->AddText(
        font, font->FontSize,
        {at.x + frame.px(20 + grid::small), at.y + (frame.px(20) - font->FontSize) / 2},
        frame.colours().quiet,
        model.felt ? "let go, and load again   P" : "wind up at launch, and let go   P");
}

void sentence_section(WindowFrame& frame) {
    const Model& model = frame.model;
    section_title(frame, "What it means");
    const Evaluation& e = model.evaluation;
    for (const std::string& sentence : feel_sentences(model.setup, e.stack, e.feel, model.shown)) {
        wrapped(frame.type.text, frame.colours().ink, sentence);
        gap(frame, 2);
    }
}

/// How every length of the float's loop grows, the strongest first.
void warmth_section(WindowFrame& frame) {
    constexpr double um_per_mm = 1000;
    section_title(frame, "What a degree does to the float");
    std::vector<LoopLength> loop = frame.model.evaluation.feel.warmth.loop;
    std::stable_sort(loop.begin(), loop.end(), [](const LoopLength& a, const LoopLength& b) {
        return std::abs(a.per_kelvin()) > std::abs(b.per_kelvin());
    });
    std::vector<SignedBar> bars;
    for (const LoopLength& length : loop) {
        const double growth = um_per_mm * length.per_kelvin();
        if (std::abs(growth) < 0.005) continue;
        bars.push_back({length.name, growth});
    }
    bars.push_back(
        {"all together", um_per_mm * frame.model.evaluation.feel.warmth.float_per_kelvin});
    draw_signed_bars(frame, bars, "\xC2\xB5m");
}

void figure_row(WindowFrame& frame, const ComparedFigure& f) {
    const Palette& c = frame.colours();
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    wrapped(frame.type.small, c.quiet, std::string(f.label));
    for (const BetterAxle which : {BetterAxle::first, BetterAxle::second}) {
        ImGui::TableNextColumn();
        const bool better = f.better == which;
        const double value = which == BetterAxle::first ? f.first : f.second;
        ImFont* font = better ? frame.type.strong_small : frame.type.small;
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const float edge = at.x + ImGui::GetContentRegionAvail().x;
        right_aligned(font, better ? c.ink : c.quiet, shown_figure(f, value, frame.model.shown),
                      edge);
        ImGui::Dummy({0, font->FontSize});
    }
}

/// Whether each keeps every limit of the setup.
void holds_row(WindowFrame& frame, const AxleComparison& c) {
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    wrapped(frame.type.small, frame.colours().quiet, "within all limits");
    for (const AxleFigures* axle : {&c.first, &c.second}) {
        ImGui::TableNextColumn();
        ImFont* font = frame.type.small;
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const float edge = at.x + ImGui::GetContentRegionAvail().x;
        const char* words = axle->holds ? "yes" : "no";
        const float width = font->CalcTextSizeA(font->FontSize, 1e9F, 0, words).x;
        const float sign = frame.px(12);
        draw_status_sign(
            *ImGui::GetWindowDrawList(), frame.colours(),
            axle->holds ? Status::ok : Status::caution,
            {edge - width - frame.px(grid::hair) - sign / 2, at.y + font->FontSize / 2}, sign);
        right_aligned(font, frame.colours().ink, words, edge);
        ImGui::Dummy({0, font->FontSize});
    }
}

/// The heads of the two columns.
void head_row(WindowFrame& frame, const AxleComparison& c) {
    ImGui::TableNextColumn();
    for (const auto& [words, axle] : {std::pair{"today's", &c.first}, {"the other", &c.second}}) {
        ImGui::TableNextColumn();
        const float edge = ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x;
        right_aligned(frame.type.strong_small, frame.colours().ink, words, edge);
        ImGui::Dummy({ImGui::GetContentRegionAvail().x, frame.type.strong_small->FontSize});
        if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", axle->title.c_str());
    }
}

/// What the widest of the numbers needs, so that the labels get the rest.
float number_width(const WindowFrame& frame, const AxleComparison& c) {
    const ImFont& font = *frame.type.strong_small;
    float widest = font.CalcTextSizeA(font.FontSize, 1e9F, 0, "the other").x;
    for (const ComparedFigure& f : compared_figures(c))
        for (const double value : {f.first, f.second}) {
            const std::string text = shown_figure(f, value, frame.model.shown);
            widest = std::max(widest, font.CalcTextSizeA(font.FontSize, 1e9F, 0, text.c_str()).x);
        }
    return widest;
}

void comparison_table(WindowFrame& frame, const AxleComparison& c) {
    wrapped(frame.type.small, frame.colours().quiet, "Today's: " + c.first.title + ".");
    wrapped(frame.type.small, frame.colours().quiet, "The other: " + c.second.title + ".");
    if (!ImGui::BeginTable(frame.model.shown == LengthUnit::mm ? "axles mm" : "axles in", 3))
        return;
    ImGui::TableSetupColumn("figure", ImGuiTableColumnFlags_WidthStretch);
    const float numbers = number_width(frame, c);
    ImGui::TableSetupColumn("first", ImGuiTableColumnFlags_WidthFixed, numbers);
    ImGui::TableSetupColumn("second", ImGuiTableColumnFlags_WidthFixed, numbers);
    head_row(frame, c);
    for (const ComparedFigure& f : compared_figures(c)) figure_row(frame, f);
    holds_row(frame, c);
    ImGui::EndTable();
}

void verdict(WindowFrame& frame, const AxleComparison& c) {
    gap(frame, 2);
    wrapped(frame.type.text, frame.colours().ink, c.verdict);
    gap(frame, 2);
}

/// Starts a comparison with the usual rival: a carbon tube, or steel for a car that has one.
void start_comparison(WindowFrame& frame) {
    Setup next = frame.model.history.now();
    const Material own = next.axle.material;
    const bool carbon = own == Material::carbon_tube || own == Material::carbon_wrapped;
    next.other_axle.material = carbon ? Material::steel_4130 : Material::carbon_wrapped;
    next.other_axle.waist = next.axle.diameter;
    put(frame, std::move(next), "another axle to compare with");
}

/// The axles of the parts box, each to be held against the car's own.
void box_axles(WindowFrame& frame) {
    const std::vector<AxleKind>& axles = frame.model.setup.choosing.box.axles;
    if (axles.empty()) return;
    ImGui::SetNextItemWidth(ImGui::GetContentRegionAvail().x);
    const bool open = ImGui::BeginCombo("##box axles", "one from the parts box");
    frame.note_place("box axles", ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    if (!open) return;
    const AxleKind* chosen = nullptr;
    for (const AxleKind& kind : axles) {
        if (ImGui::Selectable(kind.name.c_str())) chosen = &kind;
        frame.note_place("box axle " + kind.name, ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    }
    ImGui::EndCombo();
    if (!chosen) return;
    Setup next = frame.model.history.now();
    next.other_axle = {};
    next.other_axle.waist = chosen->waist;
    next.other_axle.bore = chosen->bore;
    next.other_axle.material = static_cast<Material>(chosen->material);
    put(frame, std::move(next), "compare with " + chosen->name);
}

void other_axle_rows(WindowFrame& frame) {
    for (const char* key : {"other_axle.material", "other_axle.waist", "other_axle.bore"})
        adjuster_row(frame, key);
    if (!more_switch(frame, "other axle")) return;
    for (const char* key : {"other_axle.diameter", "other_axle.elastic_modulus",
                            "other_axle.shear_modulus", "other_axle.strength"})
        adjuster_row(frame, key);
}

void comparison_section(WindowFrame& frame) {
    Model& model = frame.model;
    section_title(frame, "Two axles side by side");
    if (!model.evaluation.feel.comparison) {
        wrapped(frame.type.text, frame.colours().ink,
                "What would a lighter or a stiffer axle do to this car?");
        gap(frame, 2);
        if (button(frame, "compare", "Compare with another axle")) return start_comparison(frame);
        return box_axles(frame);
    }
    comparison_table(frame, *model.evaluation.feel.comparison);
    verdict(frame, *model.evaluation.feel.comparison);
    if (button(frame, "swap axles", "Swap them"))
        return put(frame, with_axles_swapped(model.history.now()), "swap the axles");
    ImGui::SameLine();
    if (button(frame, "drop axle", "Let it go")) {
        Setup next = model.history.now();
        next.other_axle = {};
        return put(frame, std::move(next), "no other axle");
    }
    gap(frame, grid::hair);
    box_axles(frame);
    gap(frame, grid::hair);
    other_axle_rows(frame);
}

/// Which of the studies is looked at.
void study_choice(WindowFrame& frame, const std::vector<ToleranceStudy>& studies) {
    Model& model = frame.model;
    std::vector<std::string> words;
    words.reserve(studies.size());
    for (const ToleranceStudy& study : studies) {
        const std::string& title = study.stack_up.title;
        words.push_back(title == "overall width" ? "width"
                        : title == "ride height" ? "ride"
                                                 : title);
    }
    int index = static_cast<int>(model.builds_of);
    if (segments_width(frame, words) <= ImGui::GetContentRegionAvail().x) {
        segments(frame, "builds", words, index);
    } else {
        ImGui::SetNextItemWidth(ImGui::GetContentRegionAvail().x);
        if (ImGui::BeginCombo("##builds", words[model.builds_of].c_str())) {
            for (int i = 0; i < static_cast<int>(words.size()); ++i)
                if (ImGui::Selectable(words[static_cast<std::size_t>(i)].c_str(), i == index))
                    index = i;
            ImGui::EndCombo();
        }
        frame.note_place("builds", ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    }
    model.builds_of = static_cast<std::size_t>(index);
}

/// "250,000"
std::string grouped(std::uint64_t number) {
    std::string text = std::to_string(number);
    for (std::size_t at = text.size(); at > 3; at -= 3) text.insert(at - 3, ",");
    return text;
}

/// "0.27 %", with as many decimals as there is to tell.
std::string per_cent(double share) { return fixed(100 * share, share < 0.1 ? 2 : 1) + " %"; }

std::string outside_words(const ToleranceStudy& study) {
    const std::string builds = grouped(study.sample.builds) + " builds";
    const double share = study.sample.outside_share();
    if (share == 0)
        return "None of " + builds + " lies outside the window: less than " +
               fixed(100 * study.outside.high, 3) + " % do, with 95 % confidence.";
    if (share == 1) return "All of " + builds + " lie outside the window.";
    return per_cent(share) + " of " + builds + " lie outside the window; in truth " +
           per_cent(study.outside.low) + " to " + per_cent(study.outside.high) +
           ", with 95 % confidence.";
}

void study_words(WindowFrame& frame, const ToleranceStudy& study) {
    const Model& model = frame.model;
    const double share = study.sample.outside_share();
    if (study.low || study.high) {
        const bool is_float = &study == model.evaluation.feel.tolerances.data();
        const float sign = frame.px(14);
        const ImVec2 at = ImGui::GetCursorScreenPos();
        draw_status_sign(*ImGui::GetWindowDrawList(), frame.colours(),
                         is_float ? share_status(model.setup, share) : Status::none,
                         {at.x + sign / 2, at.y + frame.type.text->FontSize / 2}, sign);
        ImGui::SetCursorScreenPos({at.x + sign + frame.px(grid::small), at.y});
        wrapped(frame.type.text, frame.colours().ink, outside_words(study));
    }
    wrapped(frame.type.small, frame.colours().quiet,
            "Worst case \xC2\xB1" + length(study.worst, model.shown) +
                ", root sum square \xC2\xB1" + length(study.root_sum_square, model.shown) + ".");
}

void scatter_section(WindowFrame& frame) {
    Model& model = frame.model;
    const std::vector<ToleranceStudy>& studies = model.evaluation.feel.tolerances;
    section_title(frame, "How builds scatter within their tolerances");
    if (studies.empty()) return;
    model.builds_of = std::min(model.builds_of, studies.size() - 1);
    study_choice(frame, studies);
    gap(frame, grid::hair);
    const ToleranceStudy& study = studies[model.builds_of];
    HistogramPlot plot;
    plot.low = study.first_bin;
    plot.high = study.last_bin;
    plot.counts.assign(study.sample.histogram.begin(), study.sample.histogram.end());
    plot.nominal = study.stack_up.nominal;
    plot.least = study.low;
    plot.most = study.high;
    draw_histogram(frame, plot, 128);
    study_words(frame, study);
    section_title(frame, "Share of each length in the scatter");
    std::vector<ShareBar> bars;
    for (std::size_t i = 0; i < study.contributions.size(); ++i)
        bars.push_back({study.stack_up.contributors[i].name, study.contributions[i]});
    constexpr std::size_t most = 8;
    draw_bars(frame, largest_shares(std::move(bars), most));
}

}  // namespace

void feel_panel(WindowFrame& frame) {
    case_section(frame);
    sentence_section(frame);
    comparison_section(frame);
    scatter_section(frame);
    warmth_section(frame);
}

}  // namespace podwright
