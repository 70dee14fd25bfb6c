#include "choose/effects.hpp"

#include <algorithm>
#include <cmath>

#include "core/conflicts.hpp"
#include "core/drive.hpp"
#include "core/traded.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

namespace {

constexpr double shim_step = 0.1;  // mm, the thinnest in trade
constexpr double least = 1e-9;     // below it a reading has not moved

struct Step {
    std::string key, text;
    std::vector<Change> changes;
};

std::string table(Side side) { return side == Side::left ? "left." : "right."; }

Change more_shim(const Setup& setup, Side side) {
    Change change{table(side) + "shims", 0, setup.side(side).shims};
    change.list.push_back(shim_step);
    return change;
}

/// The next holder, that stands higher: up is positive.
std::vector<Change> higher_holder(const Setup& setup, Side side) {
    const double next = holder_offset(setup.side(side)) + holder_grid;
    std::vector<Change> changes = {{table(side) + "holder_step", std::abs(next), {}}};
    if (next != 0)
        changes.push_back(
            {table(side) + "holder_way", static_cast<double>(next > 0 ? Way::up : Way::down), {}});
    return changes;
}

bool is_holder(const std::string& key) { return key.find(".holder_") != std::string::npos; }

std::string signed_amount(double step, Unit unit, LengthUnit shown) {
    if (unit == Unit::mm) return "+" + length(step, shown);
    const bool whole = step == std::round(step);
    return "+" + with_unit(fixed(step, whole ? 0 : 2), symbol(unit));
}

void add_side_steps(const Setup& setup, LengthUnit shown, std::vector<Step>& steps) {
    const auto add = [&](const std::string& name, const std::string& words, auto changes_of) {
        std::vector<Change> both;
        for (const Side side : both_sides) {
            const std::vector<Change> one = changes_of(side);
            both.insert(both.end(), one.begin(), one.end());
        }
        steps.push_back({"both." + name, "both: " + words, both});
        for (const Side side : both_sides) {
            const std::string title = side == Side::left ? "left" : "right";
            steps.push_back({title + "." + name, title + ": " + words, changes_of(side)});
        }
    };
    add("shims", "a " + length(shim_step, shown) + " shim more",
        [&](Side side) { return std::vector<Change>{more_shim(setup, side)}; });
    add("holder", "holder " + length(holder_grid, shown) + " higher",
        [&](Side side) { return higher_holder(setup, side); });
    for (const Parameter& p : parameters()) {
        if (p.key.rfind("left.", 0) != 0 || p.kind != ValueKind::number || is_holder(p.key))
            continue;
        const std::string name = p.key.substr(5);
        // No stiffness is a tyre that does not sag; from there a step is no small one.
        if (name == "tyre_stiffness" && setup.left.tyre.stiffness * setup.right.tyre.stiffness == 0)
            continue;
        add(name, p.label + " " + signed_amount(p.step, p.unit, shown), [&](Side side) {
            const Parameter& there = *find_parameter(table(side) + name);
            return std::vector<Change>{
                {there.key, there.get(setup).value_or(there.fallback) + there.step, {}}};
        });
    }
}

void add_other_steps(const Setup& setup, LengthUnit shown, std::vector<Step>& steps) {
    for (const Parameter& p : parameters()) {
        const bool of_side =
            p.group == Group::left || p.group == Group::right || !other_side_key(p.key).empty();
        const bool limit = p.group == Group::event;
        if (of_side || limit || p.kind != ValueKind::number || p.key == "motor.clamped_at")
            continue;
        const auto now = p.get(setup);
        if (!now) continue;
        steps.push_back({p.key,
                         p.label + " " + signed_amount(p.step, p.unit, shown),
                         {{p.key, *now + p.step, {}}}});
    }
}

}  // namespace

bool sets_mesh_again(const std::string& key) {
    // Along the axle the same gears keep their distance.
    return key.rfind("gears.", 0) == 0 && key != "gears.spur_offset" && key != "gears.face_width";
}

Setup clamped(Setup setup) {
    if (setup.motor.clamped_at) return setup;
    const Stack stack = stack_of(setup);
    const SlotPlace slot = drive_of(setup, stack, stance_of(setup, stack)).slot;
    if (slot.reached) setup.motor.clamped_at = slot.position;
    return setup;
}

double Adjuster::on(std::string_view reading) const {
    for (const Effect& effect : effects)
        if (effect.reading == reading) return effect.change;
    return 0;
}

std::vector<Adjuster> adjusters_of(const Setup& setup, LengthUnit shown) {
    const Setup start = clamped(setup);
    const Evaluation now = evaluate(start);
    std::vector<Step> steps;
    add_side_steps(start, shown, steps);
    add_other_steps(start, shown, steps);
    std::vector<Adjuster> all;
    for (Step& step : steps) {
        Setup moved = with_changes(start, step.changes);
        if (sets_mesh_again(step.key)) moved.motor.clamped_at.reset();
        if (find_conflict(moved)) continue;
        const Evaluation then = evaluate(moved);
        Adjuster adjuster{step.key, step.text, step.changes, {}};
        for (const Reading& reading : then.readings) {
            const Reading* was = now.reading(reading.name);
            if (!was) continue;
            const double change = reading.value - was->value;
            if (!(std::abs(change) > least)) continue;
            adjuster.effects.push_back({std::string(reading.name), std::string(reading.label),
                                        std::string(reading.unit), change});
        }
        if (!adjuster.effects.empty()) all.push_back(std::move(adjuster));
    }
    return all;
}

const std::vector<EffectColumn>& effect_columns() {
    static const std::vector<EffectColumn> columns = {
        {"float.nominal", "float"}, {"width.overall", "width"}, {"width.shift", "shift"},
        {"ride.rear", "ride"},      {"ride.roll", "roll"},      {"mesh.backlash_unset", "backlash"},
        {"gear.rollout", "rollout"}};
    return columns;
}

std::string shown_effect(double change, std::string_view unit, LengthUnit shown) {
    const bool inches = unit == "mm" && shown == LengthUnit::inch;
    const int decimals = inches ? 4 : std::abs(change) < 1 ? 3 : 2;
    const std::string text = fixed(inches ? change / mm_per_inch : change, decimals);
    if (text.find_first_not_of("-0.") == std::string::npos) return {};
    return (change > 0 ? "+" : "") + text;
}

}  // namespace podwright
