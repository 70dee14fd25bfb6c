#include "bench/edit.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/conflicts.hpp"

namespace podwright {

namespace {

bool ends_with(std::string_view text, std::string_view end) {
    return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

bool changes_holder(std::string_view key) {
    return ends_with(key, ".holder_step") || ends_with(key, ".holder_way");
}

bool changes_gears(std::string_view key) {
    return key == "gears.pinion" || key == "gears.spur" || key == "gears.module" ||
           key == "gears.diametral_pitch" || key == "gears.backlash" ||
           key == "gears.pressure_angle";
}

bool alike(const Setup& setup, const Parameter& p, const Parameter& q) {
    if (p.kind == ValueKind::list) return p.get_list(setup) == q.get_list(setup);
    if (p.kind == ValueKind::text) return p.get_text(setup) == q.get_text(setup);
    return p.get(setup) == q.get(setup);
}

/// What is not alike stays so: nobody wants a whole stack replaced unseen.
std::vector<Change> with_other_side(const Setup& setup, std::span<const Change> changes) {
    std::vector<Change> all(changes.begin(), changes.end());
    for (const Change& change : changes) {
        std::string other = other_side_key(change.key);
        if (other.empty() || !alike(setup, *find_parameter(change.key), *find_parameter(other)))
            continue;
        const bool given = std::any_of(changes.begin(), changes.end(),
                                       [&](const Change& c) { return c.key == other; });
        if (!given) all.push_back({std::move(other), change.number, change.list, change.text});
    }
    return all;
}

/// Another way of setting the float leaves the axle as it is built.
void keep_float(const Setup& setup, const Evaluation& evaluation, Setup& next) {
    const auto tidy = [](double mm) { return std::round(mm * 1e6) / 1e6; };
    if (next.axial_float.set_by == setup.axial_float.set_by) return;
    if (next.axial_float.set_by == FloatBy::shoulder)
        next.axial_float.shoulder = tidy(evaluation.stack.thrust_faces);
    else if (evaluation.stack.axial_float >= find_parameter("float.blade")->low)
        next.axial_float.blade = tidy(evaluation.stack.axial_float);
}

int decimals_of(const Parameter& p) {
    if (p.unit == Unit::count || p.unit == Unit::rev_per_min) return 0;
    if (p.unit == Unit::percent || p.unit == Unit::arc_minute) return 1;
    if (p.unit == Unit::degree) return p.step < 1 ? 2 : 0;
    if (p.unit == Unit::newton_mm || p.unit == Unit::newton_per_mm) return 0;
    if (p.unit == Unit::newton) return 1;
    return p.step < 0.01 ? 3 : 2;
}

}  // namespace

EditResult edited(const Setup& setup, const Evaluation& evaluation, std::span<const Change> changes,
                  bool linked) {
    const std::vector<Change> all = linked ? with_other_side(setup, changes)
                                           : std::vector<Change>(changes.begin(), changes.end());
    Setup next = with_changes(setup, all);
    for (const Change& change : all) {
        if (changes_holder(change.key) && !setup.motor.clamped_at && evaluation.drive.slot.reached)
            next.motor.clamped_at = evaluation.drive.slot.position;
        if (changes_gears(change.key)) next.motor.clamped_at.reset();
        if (change.key == "float.set_by") keep_float(setup, evaluation, next);
        if (change.key == "gears.module") next.gears.by_diametral_pitch = false;
        if (change.key == "gears.diametral_pitch") next.gears.by_diametral_pitch = true;
    }
    if (const auto conflict = find_conflict(next)) return {setup, conflict->text};
    return {std::move(next), {}};
}

std::vector<std::string> unlike_sides(const Setup& setup) {
    std::vector<std::string> labels;
    for (const Parameter& p : parameters()) {
        if (p.key.rfind("left.", 0) != 0) continue;
        const Parameter* other = find_parameter(other_side_key(p.key));
        if (other && !alike(setup, p, *other)) labels.push_back(p.label);
    }
    return labels;
}

double to_step(const Parameter& parameter, double value) {
    const double stepped =
        parameter.step > 0 ? std::round(value / parameter.step) * parameter.step : value;
    // A step of 0.05 is no binary fraction: keep what is written to a sensible number of digits.
    const double tidy = std::round(stepped * 1e6) / 1e6;
    return std::clamp(tidy, parameter.low, parameter.high);
}

std::string shown_value(const Parameter& p, double value, LengthUnit shown) {
    if (p.kind == ValueKind::choice) {
        const auto index = static_cast<std::size_t>(std::lround(value));
        return index < p.options.size() ? p.options[index] : "";
    }
    if (p.unit == Unit::mm && shown == LengthUnit::inch) return length(value, shown);
    return with_unit(fixed(value, decimals_of(p)), symbol(p.unit));
}

std::string shown_reading(const Reading& reading, LengthUnit shown) {
    const Written as = written_as(reading.unit, shown);
    const std::string number = number_as(as, reading.value);
    return number + (as.unit.empty() || as.unit == "°" ? "" : " ") + as.unit;
}

std::string shown_change(const Reading& reading, double change, LengthUnit shown) {
    Reading difference = reading;
    difference.value = change;
    const std::string text = shown_reading(difference, shown);
    return change > 0 ? "+" + text : text;
}

std::string describe(const Change& change, LengthUnit shown) {
    const Parameter* p = find_parameter(change.key);
    if (!p) return change.key;
    if (p->kind == ValueKind::text) return p->label + " " + change.text;
    if (p->kind != ValueKind::list) return p->label + " " + shown_value(*p, change.number, shown);
    if (change.list.empty()) return "no " + p->label;
    std::string text = p->label;
    for (double t : change.list) text += " " + length(t, shown);
    return text;
}

}  // namespace podwright
