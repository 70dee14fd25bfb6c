#include <algorithm>
#include <cctype>
#include <cmath>

#include "bench/advice_panels.hpp"
#include "bench/value_row.hpp"
#include "bench/views.hpp"
#include "core/rules.hpp"

namespace podwright {

namespace {

void rule_row(WindowFrame& frame, const RuleState& state, std::size_t number) {
    const LengthUnit shown = frame.model.shown;
    const EventRule& rule = *state.rule;
    const Status status = !state.value ? Status::none : state.broken() ? Status::stop : Status::ok;
    const auto written = [&](const std::optional<double>& limit) {
        return limit ? amount(*limit, state.unit, shown) : std::string();
    };
    const std::string limits = range_text(written(rule.low), written(rule.high));
    std::string tip = state.label + "\n" + limits + "\n" + rule.from;
    std::string margin = limits;
    if (state.value) {
        // The limit that is nearer, or beyond which it lies.
        const bool low = rule.low && (!rule.high || *state.value - *rule.low == state.margin);
        const double limit = low ? *rule.low : rule.high.value_or(0);
        const bool above = *state.value >= limit;
        margin = amount(std::abs(state.margin), state.unit, shown) +
                 (above ? " above " : " below ") + amount(limit, state.unit, shown);
    }
    value_row(frame, "rule " + std::to_string(number + 1), status,
              state.label + (state.broken() ? ", broken" : ""),
              state.value ? amount(*state.value, state.unit, shown) : "not known",
              frame.colours().ink, false, margin);
    tip_for_last(frame, tip);
}

void rules_section(WindowFrame& frame) {
    const Model& model = frame.model;
    section_title(frame, "Rules");
    if (model.setup.choosing.rules.empty()) {
        note(frame,
             "This scene names no rules. Add [[rule]], or rules = \"FILE.toml\", to its file: "
             "scenes/README.md says how.");
        return;
    }
    const auto states = rule_states(model.setup, model.evaluation.readings);
    for (std::size_t i = 0; i < states.size(); ++i) rule_row(frame, states[i], i);
    note(frame, "As they were typed in; the event's own rulebook decides.");
}

void measured_row(WindowFrame& frame, const Comparison& c, std::size_t number) {
    const LengthUnit shown = frame.model.shown;
    const double difference = c.measured.value - c.predicted;
    const std::string tip = c.label + "\n" + amount(c.measured.value, c.unit, shown) + " measured" +
                            (c.measured.gauge.empty() ? "" : " (" + c.measured.gauge + ")") + "\n" +
                            amount(c.predicted, c.unit, shown) + " calculated\n\xC2\xB1" +
                            amount(c.uncertainty, c.unit, shown) +
                            " standard uncertainty of gauge and build\n" +
                            fixed(std::abs(c.off), 1) + " times that apart";
    const std::string apart = amount(std::abs(difference), c.unit, shown);
    const bool seen = apart.find_first_of("123456789") != std::string::npos;
    const std::string below =
        !seen ? "as calculated" : apart + (difference > 0 ? " more" : " less") + " than calculated";
    value_row(frame, "measured " + std::to_string(number + 1),
              c.disagrees ? Status::caution : Status::ok, c.label,
              amount(c.measured.value, c.unit, shown), frame.colours().ink, false, below);
    tip_for_last(frame, tip);
}

/// The view in which the difference is seen best.
const char* view_of(Mistake mistake) {
    switch (mistake) {
        case Mistake::holder_turned:
        case Mistake::holder_step: return "rear";
        case Mistake::wheels_swapped: return "top";
        case Mistake::shim_missing:
        case Mistake::shim_doubled:
        case Mistake::shim_swapped:
        case Mistake::other_blade:
        case Mistake::bearing_unseated: break;
    }
    return "section";
}

/// Shows the suspect as a ghost, and marks the parts that would differ.
void pick_suspect(WindowFrame& frame, Advisor& advisor, const std::string& name,
                  const Suspect& suspect, double aspect) {
    Model& model = frame.model;
    advisor.pick(name);
    const bool picked = advisor.is_picked(name);
    model.look.alarmed = picked ? suspect.parts : std::vector<std::string>{};
    if (picked) go_to_view(model, view_of(suspect.mistake), aspect, frame.now);
}

void suspect_card(WindowFrame& frame, Advisor& advisor, const Suspect& suspect, std::size_t number,
                  const Diagnosis& diagnosis, double aspect) {
    const bool equal = diagnosis.equal > 1 && number < diagnosis.equal;
    const std::string name = "suspect " + std::to_string(number + 1);
    const bool picked = advisor.is_picked(name);
    const Card card = begin_card(frame);
    std::string words = suspect.text;
    words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const std::string share = diagnosis.explained ? likelihood(suspect.likelihood) : std::string();
    ImFont& font = *frame.type.strong_small;
    const float right = font.CalcTextSizeA(font.FontSize, 1e9F, 0, share.c_str()).x;
    ImGui::GetWindowDrawList()->AddText(&font, font.FontSize, {at.x + card.width - right, at.y},
                                        frame.colours().ink, share.c_str());
    wrapped(frame.type.small, frame.colours().ink, words + ".",
            card.width - right - frame.px(grid::small));
    if (equal)
        wrapped(frame.type.small, frame.colours().quiet,
                "One of several that explain it equally well.", card.width);
    if (button(frame, "show " + name, picked ? "Let go" : "Show it"))
        pick_suspect(frame, advisor, name, suspect, aspect);
    const CardState state = end_card(frame, card, name, picked);
    if (state.pressed) pick_suspect(frame, advisor, name, suspect, aspect);
    advisor.offer(name, suspect.text, suspect.setup, state.hovered);
}

void further_note(WindowFrame& frame, const Diagnosis& diagnosis) {
    if (diagnosis.further) {
        const Further& further = *diagnosis.further;
        wrapped(frame.type.strong_small, frame.colours().ink,
                "Next, measure: " + further.label + ", to within " +
                    length(further.uncertainty, frame.model.shown));
        const float width = ImGui::GetContentRegionAvail().x;
        for (const Further::Expected& e : further.expected)
            bullet(
                frame, width,
                length(e.value, frame.model.shown) + " if " + diagnosis.suspects[e.suspect].text);
    } else if (diagnosis.equal > 1) {
        wrapped(frame.type.strong_small, frame.colours().ink,
                "No gauge tells these apart: take the axle out and look.");
    }
    ImGui::Dummy({0, frame.px(grid::small)});
}

void measured_section(WindowFrame& frame, Advisor& advisor, double aspect) {
    const Model& model = frame.model;
    section_title(frame, "Measured");
    if (model.setup.choosing.measured.empty()) {
        note(frame,
             "Nothing was written down. Add [[measured]] to the scene's file: which reading, what "
             "the gauge showed, and its uncertainty.");
        return;
    }
    const Diagnosis diagnosis = advisor.diagnosis(model);
    for (std::size_t i = 0; i < diagnosis.compared.size(); ++i)
        measured_row(frame, diagnosis.compared[i], i);
    ImGui::Dummy({0, frame.px(grid::hair)});
    if (!diagnosis.disagrees) {
        note(frame, "All of it agrees with what is calculated.");
        return;
    }
    section_title(frame, diagnosis.explained ? "What would explain it" : "What comes nearest");
    if (!diagnosis.explained)
        note(frame, "No single mistake explains all of it: more than one, or a gauge misread.");
    further_note(frame, diagnosis);
    const std::size_t most = std::max<std::size_t>(6, diagnosis.equal);
    for (std::size_t i = 0; i < std::min(diagnosis.suspects.size(), most); ++i)
        suspect_card(frame, advisor, diagnosis.suspects[i], i, diagnosis, aspect);
}

}  // namespace

void checks_page(WindowFrame& frame, Advisor& advisor, double aspect) {
    // What asks for attention comes first.
    const bool disagrees = advisor.diagnosis(frame.model).disagrees;
    if (disagrees) measured_section(frame, advisor, aspect);
    rules_section(frame);
    if (!disagrees) measured_section(frame, advisor, aspect);
}

}  // namespace podwright
