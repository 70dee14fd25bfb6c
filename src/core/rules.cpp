#include "core/rules.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>

#include "core/limits.hpp"
#include "core/material.hpp"
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
bool same(double a, double b) { return std::abs(a - b) < 1e-9; }
bool same(const std::optional<double>& of_kind, double b) { return !of_kind || same(*of_kind, b); }

/// What is short, one after the other.
class Shortage {
public:
    explicit Shortage(LengthUnit shown) : shown_(shown) {}

    void add(const std::string& what) { text_ += (text_.empty() ? "" : ", ") + what; }
    void add(int count, double mm, const std::string& what) {
        add(std::to_string(count) + " x " + length(mm, shown_) + " " + what);
    }
    const std::string& text() const { return text_; }
    LengthUnit shown() const { return shown_; }

private:
    LengthUnit shown_;
    std::string text_;
};

/// "1 x 0.50 mm shim" for each size of which more is used than there is.
template <class Kinds, class Size>
void add_short(const std::vector<double>& used, const Kinds& kinds, Size size, const char* what,
               Shortage& shortage) {
    if (kinds.empty()) return;
    std::map<int, int> missing;
    for (const double mm : used) ++missing[micrometres(mm)];
    for (const auto& kind : kinds) missing[micrometres(size(kind))] -= kind.count;
    for (const auto& [micro, count] : missing)
        if (count > 0) shortage.add(count, micro / 1000.0, what);
}

void add_teeth(int teeth, const std::vector<int>& kinds, const char* what, Shortage& shortage) {
    if (kinds.empty() || std::find(kinds.begin(), kinds.end(), teeth) != kinds.end()) return;
    shortage.add("the " + std::to_string(teeth) + "-tooth " + what);
}

/// Which kinds fit each side, and whether each side can have one of its own.
struct Fitting {
    std::vector<std::size_t> left, right;

    template <class Kinds>
    bool enough(const Kinds& kinds) const {
        for (const std::size_t l : left)
            for (const std::size_t r : right)
                if (l != r || kinds[l].count >= 2) return true;
        return false;
    }
};

template <class Kinds, class Fits>
Fitting fitting_of(const Setup& setup, const Kinds& kinds, Fits fits) {
    Fitting fitting;
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        if (fits(kinds[i], setup.left)) fitting.left.push_back(i);
        if (fits(kinds[i], setup.right)) fitting.right.push_back(i);
    }
    return fitting;
}

/// Adds those of which there are not enough, alike ones of both sides together.
template <class Kinds, class Words>
void add_sides(const Setup& setup, const Kinds& kinds, const Fitting& fitting, Words words,
               Shortage& shortage) {
    if (kinds.empty() || fitting.enough(kinds)) return;
    const std::string left = words(setup.left);
    const std::string right = words(setup.right);
    const bool some_left = !fitting.left.empty();
    const bool some_right = !fitting.right.empty();
    if (!some_left && !some_right && left == right) return shortage.add("2 x " + left);
    if (!some_left) shortage.add("1 x " + left);
    if (!some_right || some_left) shortage.add("1 x " + right);
}

void add_wheels(const Setup& setup, Shortage& shortage) {
    const auto& kinds = setup.choosing.box.wheels;
    const auto words = [&](const AxleSide& side) {
        const bool by_rim = std::any_of(kinds.begin(), kinds.end(), [&](const WheelKind& kind) {
            return same(kind.inset, side.inset) && !same(kind.rim_diameter, side.rim_diameter);
        });
        return length(side.inset, shortage.shown()) + " inset wheel" +
               (by_rim ? " of " + length(side.rim_diameter, shortage.shown()) + " at the rim" : "");
    };
    const Fitting fitting =
        fitting_of(setup, kinds, [](const WheelKind& kind, const AxleSide& side) {
            return same(kind.inset, side.inset) && same(kind.rim_diameter, side.rim_diameter);
        });
    add_sides(setup, kinds, fitting, words, shortage);
}

/// Whether such a tyre is glued to another wheel than the side's.
bool glued_elsewhere(const PartsBox& box, const TyreKind& kind, const AxleSide& side) {
    return !kind.wheel.empty() &&
           std::none_of(box.wheels.begin(), box.wheels.end(), [&](const WheelKind& wheel) {
               return wheel.name == kind.wheel && same(wheel.inset, side.inset) &&
                      same(wheel.rim_diameter, side.rim_diameter);
           });
}

void add_tyres(const Setup& setup, Shortage& shortage) {
    const PartsBox& box = setup.choosing.box;
    const auto words = [&](const AxleSide& side) {
        const LengthUnit shown = shortage.shown();
        std::string text = length(side.tyre.diameter, shown) + " tyre";
        const bool known = std::any_of(
            box.tyres.begin(), box.tyres.end(),
            [&](const TyreKind& kind) { return same(kind.diameter, side.tyre.diameter); });
        if (known)
            text += " (" + length(side.tyre.width, shown) + " wide, done below " +
                    length(side.tyre.worn_diameter, shown) + ", on the " +
                    length(side.inset, shown) + " inset wheel)";
        return text;
    };
    const Fitting fitting =
        fitting_of(setup, box.tyres, [&](const TyreKind& kind, const AxleSide& side) {
            return same(kind.diameter, side.tyre.diameter) && same(kind.width, side.tyre.width) &&
                   same(kind.worn_diameter, side.tyre.worn_diameter) &&
                   same(kind.stiffness, side.tyre.stiffness) && !glued_elsewhere(box, kind, side);
        });
    add_sides(setup, box.tyres, fitting, words, shortage);
}

void add_blade_and_axle(const Setup& setup, Shortage& shortage) {
    const PartsBox& box = setup.choosing.box;
    const FloatSetting& now = setup.axial_float;
    const bool blade = now.set_by == FloatBy::shoulder || box.blades.empty() ||
                       std::any_of(box.blades.begin(), box.blades.end(),
                                   [&](double thickness) { return same(thickness, now.blade); });
    if (!blade) shortage.add("the " + length(now.blade, shortage.shown()) + " blade");
    const bool axle = box.axles.empty() ||
                      std::any_of(box.axles.begin(), box.axles.end(), [&](const AxleKind& kind) {
                          return same(kind.waist, setup.axle.waist) &&
                                 same(kind.bore, setup.axle.bore) &&
                                 kind.material == static_cast<int>(setup.axle.material) &&
                                 same(kind.shoulder, now.shoulder);
                      });
    if (!axle)
        shortage.add("the " + std::string(data(setup.axle.material).title) + " axle, waist " +
                     length(setup.axle.waist, shortage.shown()) +
                     (setup.axle.bore > 0 ? ", bore " + length(setup.axle.bore, shortage.shown())
                                          : ", solid"));
}

}  // namespace

void find_box(const Setup& setup, LengthUnit shown, std::vector<Finding>& out) {
    const PartsBox& box = setup.choosing.box;
    std::vector<double> shims = setup.left.shims;
    shims.insert(shims.end(), setup.right.shims.begin(), setup.right.shims.end());
    Shortage shortage(shown);
    add_short(
        shims, box.shims, [](const ShimKind& k) { return k.thickness; }, "shim", shortage);
    add_short(
        {setup.left.holder_step, setup.right.holder_step}, box.holders,
        [](const HolderKind& k) { return k.step; }, "holder", shortage);
    add_wheels(setup, shortage);
    add_tyres(setup, shortage);
    add_teeth(setup.gears.pinion, box.pinions, "pinion", shortage);
    add_teeth(setup.gears.spur, box.spurs, "spur", shortage);
    add_blade_and_axle(setup, shortage);
    if (shortage.text().empty()) return;
    Finding finding;
    finding.level = Level::note;
    finding.code = "box.short";
    finding.text =
        "The parts box does not hold all that this build uses: short of " + shortage.text() + ".";
    finding.fix = "Add to the box what is on the car, or let podwright choose a build from it.";
    out.push_back(std::move(finding));
}

}  // namespace podwright
