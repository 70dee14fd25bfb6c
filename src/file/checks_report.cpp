#include "file/checks_report.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "choose/causes.hpp"
#include "choose/diagnose.hpp"
#include "choose/effects.hpp"
#include "core/limits.hpp"
#include "core/rules.hpp"
#include "file/json_text.hpp"
#include "file/page.hpp"

namespace podwright {

namespace {

using nlohmann::ordered_json;

const char* state_word(const RuleState& state) {
    if (!state.value) return "unknown";
    return state.broken() ? "broken" : "met";
}

std::string limits(const RuleState& state, LengthUnit shown) {
    const EventRule& rule = *state.rule;
    const auto shown_limit = [&](const std::optional<double>& limit) -> std::string {
        if (!limit) return {};
        const double value = *limit;
        if (state.unit != "mm" || shown == LengthUnit::inch)
            return amount(value, state.unit, shown);
        return fixed(value, limit_decimals(value, 2)) + " mm";
    };
    return range_text(shown_limit(rule.low), shown_limit(rule.high));
}

/// How far from the nearer limit; nothing where the value has no meaning.
std::string margin_text(const RuleState& state, LengthUnit shown) {
    if (is_endless(state.margin)) return {};
    const std::string size = amount(std::abs(state.margin), state.unit, shown);
    return ", " + size + (state.broken() ? " beyond it" : " of margin");
}

/// A line with hanging indent after `head`.
std::string line(const std::string& head, const std::string& text) {
    return head + wrapped(harmless(text), columns(head)) + "\n";
}

}  // namespace

ordered_json rules_json(const Setup& setup, const Evaluation& evaluation) {
    if (setup.choosing.rules.empty()) return nullptr;
    ordered_json list = ordered_json::array();
    for (const RuleState& state : rule_states(setup, evaluation.readings)) {
        ordered_json rule = {{"of", state.rule->of}, {"label", state.label}};
        rule["value"] = state.value ? json_number(*state.value) : ordered_json(nullptr);
        rule["unit"] = state.unit;
        if (state.rule->low) rule["low"] = *state.rule->low;
        if (state.rule->high) rule["high"] = *state.rule->high;
        rule["margin"] = state.value ? json_number(state.margin) : ordered_json(nullptr);
        rule["state"] = state_word(state);
        rule["from"] = state.rule->from;
        list.push_back(std::move(rule));
    }
    return list;
}

std::string rules_text(const Setup& setup, const Evaluation& evaluation, LengthUnit shown) {
    if (setup.choosing.rules.empty()) return {};
    std::string text = "The rules as they were typed in; the event's own rulebook decides.\n";
    for (const RuleState& state : rule_states(setup, evaluation.readings)) {
        std::string words = state.label + ": ";
        if (state.value)
            words += amount(*state.value, state.unit, shown) + ", " + limits(state, shown) +
                     margin_text(state, shown);
        else
            words += "not known, " + limits(state, shown);
        text += line(padded(state_word(state), 9), words + " (" + state.rule->from + ")");
    }
    return text + "\n";
}

ordered_json measured_json(const Setup& setup) {
    if (setup.choosing.measured.empty()) return nullptr;
    const Diagnosis diagnosis = diagnose(setup);
    ordered_json json = {{"compared", ordered_json::array()}, {"disagrees", diagnosis.disagrees},
                         {"explained", diagnosis.explained},  {"no_mistake", diagnosis.no_mistake},
                         {"suspects", ordered_json::array()}, {"further", nullptr}};
    for (const Comparison& c : diagnosis.compared)
        json["compared"].push_back({{"reading", c.measured.reading},
                                    {"label", c.label},
                                    {"unit", c.unit},
                                    {"measured", c.measured.value},
                                    {"predicted", json_number(c.predicted)},
                                    {"uncertainty", c.uncertainty},
                                    {"off", json_number(c.off)},
                                    {"disagrees", c.disagrees},
                                    {"gauge", c.measured.gauge}});
    for (std::size_t i = 0; i < diagnosis.suspects.size(); ++i) {
        const Suspect& suspect = diagnosis.suspects[i];
        json["suspects"].push_back({{"text", suspect.text},
                                    {"likelihood", suspect.likelihood},
                                    {"chi_square", suspect.chi_square},
                                    {"equal", i < diagnosis.equal},
                                    {"parts", suspect.parts}});
    }
    if (diagnosis.further) {
        json["further"] = {{"reading", diagnosis.further->reading},
                           {"label", diagnosis.further->label},
                           {"uncertainty", diagnosis.further->uncertainty},
                           {"expected", ordered_json::array()}};
        for (const Further::Expected& e : diagnosis.further->expected)
            json["further"]["expected"].push_back({{"suspect", e.suspect}, {"value", e.value}});
    }
    return json;
}

std::string measured_text(const Setup& setup, LengthUnit shown) {
    if (setup.choosing.measured.empty()) return {};
    const Diagnosis diagnosis = diagnose(setup, shown);
    std::string text;
    for (const Comparison& c : diagnosis.compared)
        text +=
            line("measured  ", c.label + ": " + sentence(c, shown) +
                                   (c.measured.gauge.empty() ? "" : " (" + c.measured.gauge + ")"));
    if (!diagnosis.disagrees)
        return text + "All that was measured agrees with what is calculated.\n\n";
    constexpr std::size_t most = 5;
    text +=
        diagnosis.explained
            ? "Single mistakes that would explain it, the likeliest first:\n"
            : "No single mistake explains all of it. What comes nearest, the likeliest first:\n";
    const std::size_t count = std::min(diagnosis.suspects.size(), std::max(most, diagnosis.equal));
    for (std::size_t i = 0; i < count; ++i) {
        const Suspect& suspect = diagnosis.suspects[i];
        const std::string share = diagnosis.explained ? likelihood(suspect.likelihood) : "-";
        text += line(
            padded(share, 8, true) + "  ",
            suspect.text + (diagnosis.equal > 1 && i < diagnosis.equal ? " (equally good)" : ""));
    }
    if (diagnosis.explained)
        text += line(padded(likelihood(diagnosis.no_mistake), 8, true) + "  ", "none of these");
    if (diagnosis.further) {
        text +=
            line("next: ", "measure the " + diagnosis.further->label + " to " + "within " +
                               amount(diagnosis.further->uncertainty, "mm", shown) + "; expect");
        for (const Further::Expected& e : diagnosis.further->expected)
            text += line("      - ",
                         length(e.value, shown) + " if " + diagnosis.suspects[e.suspect].text);
    } else if (diagnosis.equal > 1) {
        text += "next: nothing that a gauge reads tells these apart; take the axle out and look.\n";
    }
    return text + "\n";
}

ordered_json effects_json(const Setup& setup) {
    ordered_json json = ordered_json::object();
    for (const Adjuster& adjuster : adjusters_of(setup)) {
        ordered_json readings = ordered_json::object();
        for (const Effect& effect : adjuster.effects)
            readings[effect.reading] = json_number(effect.change);
        json[adjuster.key] = {{"text", adjuster.text}, {"readings", std::move(readings)}};
    }
    return json;
}

std::string effects_text(const Setup& setup, LengthUnit shown) {
    constexpr std::size_t first = 34;
    constexpr std::size_t other = 9;
    std::string text = wrapped("What one more of each adjuster does, lengths in " +
                                   std::string(shown == LengthUnit::mm ? "mm" : "inches") + "; " +
                                   motor_in_effects + ":",
                               0) +
                       "\n";
    std::string head(first, ' ');
    for (const EffectColumn& column : effect_columns()) head += padded(column.title, other, true);
    text += head + "\n";
    for (const Adjuster& adjuster : adjusters_of(setup, shown)) {
        std::string row = padded(harmless(adjuster.text), first);
        bool any = false;
        for (const EffectColumn& column : effect_columns()) {
            std::string cell;
            for (const Effect& effect : adjuster.effects)
                if (effect.reading == column.reading)
                    cell = shown_effect(effect.change, effect.unit, shown);
            any = any || !cell.empty();
            row += padded(cell, other, true);
        }
        row.erase(row.find_last_not_of(' ') + 1);
        if (any) text += row + "\n";
    }
    return text + "\n";
}

ordered_json against_json(const Setup& other, const Setup& setup) {
    ordered_json json = {{"from", other.title},
                         {"causes", ordered_json::array()},
                         {"readings", ordered_json::object()}};
    for (const Cause& cause : causes_between(other, setup, LengthUnit::mm)) {
        ordered_json links = ordered_json::array();
        for (const CauseLink& link : cause.links)
            links.push_back({{"reading", link.reading},
                             {"change", json_number(link.change)},
                             {"text", link.text}});
        json["causes"].push_back({{"text", sentence(cause)}, {"links", std::move(links)}});
    }
    const Evaluation was = evaluate(other);
    for (const Reading& reading : evaluate(setup).readings)
        if (const Reading* before = was.reading(reading.name);
            before && std::abs(before->value - reading.value) > 1e-9)
            json["readings"][std::string(reading.name)] = {{"was", json_number(before->value)},
                                                           {"is", json_number(reading.value)}};
    return json;
}

std::string against_text(const Setup& other, const Setup& setup, LengthUnit shown) {
    std::string text = line("", "Compared with \"" + other.title + "\":");
    const std::vector<Cause> causes = causes_between(other, setup, shown);
    for (const Cause& cause : causes) text += line("- ", sentence(cause));
    if (causes.empty()) text += "nothing differs.\n";
    return text + "\n";
}

}  // namespace podwright
