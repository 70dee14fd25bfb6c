#include "core/rules.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "core/limits.hpp"
#include "core/parameters.hpp"

namespace podwright {

namespace {

/// Of a reading, or of a key of the scene.
RuleState state_of(const EventRule& rule, const Setup& setup, std::span<const Reading> readings) {
    RuleState state;
    state.rule = &rule;
    state.label = rule.of;
    const auto reading = std::find_if(readings.begin(), readings.end(),
                                      [&](const Reading& r) { return r.name == rule.of; });
    const Parameter* parameter = find_parameter(rule.of);
    if (reading != readings.end()) {
        state.value = reading->value;
        state.label = reading->label;
        state.unit = reading->unit;
    } else if (parameter && parameter->get) {
        state.value = parameter->get(setup);
        const std::string side = rule.of.substr(0, rule.of.find('.'));
        state.label = (side == "left" || side == "right" ? side + " " : "") + parameter->label;
        state.unit = symbol(parameter->unit);
    }
    if (!state.value) return state;
    state.margin = std::numeric_limits<double>::infinity();
    if (rule.low) state.margin = std::min(state.margin, *state.value - *rule.low);
    if (rule.high) state.margin = std::min(state.margin, *rule.high - *state.value);
    return state;
}

}  // namespace

bool RuleState::broken() const { return value && below(margin, 0); }

std::vector<RuleState> rule_states(const Setup& setup, std::span<const Reading> readings) {
    std::vector<RuleState> states;
    for (const EventRule& rule : setup.choosing.rules)
        states.push_back(state_of(rule, setup, readings));
    return states;
}

void find_rules(const Setup& setup, std::span<const Reading> readings, LengthUnit shown,
                std::vector<Finding>& out) {
    for (const RuleState& state : rule_states(setup, readings)) {
        if (!state.broken()) continue;
        const EventRule& rule = *state.rule;
        const bool low = rule.low && below(*state.value, *rule.low);
        Finding finding;
        finding.level = Level::stop;
        finding.code = "rule.broken";
        finding.text = "The " + state.label + " of " + amount(*state.value, state.unit, shown) +
                       " is " + amount(-state.margin, state.unit, shown) +
                       (low ? " less than the " : " more than the ") +
                       amount(low ? *rule.low : *rule.high, state.unit, shown) + " of the rules (" +
                       rule.from + ").";
        finding.fix = "Change the build, or look the rule up: the event's own rulebook decides.";
        out.push_back(std::move(finding));
    }
}

namespace {

int micrometres(double mm) { return static_cast<int>(std::lround(mm * 1000)); }

/// "1 x 0.50 mm shim" for each size of which more is used than there is.
template <class Kinds, class Size>
void add_short(const std::vector<double>& used, const Kinds& kinds, Size size, const char* what,
               LengthUnit shown, std::string& text) {
    if (kinds.empty()) return;
    std::map<int, int> missing;
    for (const double mm : used) ++missing[micrometres(mm)];
    for (const auto& kind : kinds) missing[micrometres(size(kind))] -= kind.count;
    for (const auto& [micro, count] : missing)
        if (count > 0)
            text += (text.empty() ? "" : ", ") + std::to_string(count) + " x " +
                    length(micro / 1000.0, shown) + " " + what;
}

void add_teeth(int teeth, const std::vector<int>& kinds, const char* what, std::string& text) {
    if (kinds.empty() || std::find(kinds.begin(), kinds.end(), teeth) != kinds.end()) return;
    text +=
        (text.empty() ? "" : ", ") + std::string("the ") + std::to_string(teeth) + "-tooth " + what;
}

}  // namespace

void find_box(const Setup& setup, LengthUnit shown, std::vector<Finding>& out) {
    const PartsBox& box = setup.choosing.box;
    std::vector<double> shims = setup.left.shims;
    shims.insert(shims.end(), setup.right.shims.begin(), setup.right.shims.end());
    std::string text;
    add_short(
        shims, box.shims, [](const ShimKind& k) { return k.thickness; }, "shim", shown, text);
    add_short(
        {setup.left.holder_step, setup.right.holder_step}, box.holders,
        [](const HolderKind& k) { return k.step; }, "holder", shown, text);
    add_short(
        {setup.left.inset, setup.right.inset}, box.wheels,
        [](const WheelKind& k) { return k.inset; }, "inset wheel", shown, text);
    add_teeth(setup.gears.pinion, box.pinions, "pinion", text);
    add_teeth(setup.gears.spur, box.spurs, "spur", text);
    if (text.empty()) return;
    Finding finding;
    finding.level = Level::note;
    finding.code = "box.short";
    finding.text = "The parts box does not hold all that this build uses: short of " + text + ".";
    finding.fix = "Add to the box what is on the car, or let podwright choose a build from it.";
    out.push_back(std::move(finding));
}

}  // namespace podwright
