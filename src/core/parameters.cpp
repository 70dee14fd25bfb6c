#include "core/parameters.hpp"

#include <algorithm>

#include "core/parameter_table.hpp"

namespace podwright {

namespace {

std::vector<Parameter> make_table() {
    Table t;
    t.text(
        "title", "title", 80, "Name of the setup.", [](auto& s) -> auto& { return s.title; });
    t.text(
        "note", "note", 2000, "What is worth remembering about it.",
        [](auto& s) -> auto& { return s.note; });
    add_car_parameters(t);
    add_event_parameters(t);
    return std::move(t.rows);
}

}  // namespace

std::string_view symbol(Unit unit) {
    switch (unit) {
        case Unit::mm: return "mm";
        case Unit::degree: return "deg";
        case Unit::arc_minute: return "arcmin";
        case Unit::newton: return "N";
        case Unit::newton_per_mm: return "N/mm";
        case Unit::newton_mm: return "N mm";
        case Unit::rev_per_min: return "rev/min";
        case Unit::gram_per_cm3: return "g/cm3";
        case Unit::gram_cm2: return "g cm2";
        case Unit::kilogram: return "kg";
        case Unit::gigapascal: return "GPa";
        case Unit::newton_per_mm2: return "N/mm2";
        case Unit::celsius: return "degC";
        case Unit::gravity: return "g";
        case Unit::hour: return "h";
        case Unit::percent: return "%";
        case Unit::none:
        case Unit::count: break;
    }
    return "";
}

std::string_view title(Group group) {
    switch (group) {
        case Group::left: return "Left";
        case Group::right: return "Right";
        case Group::gears: return "Gears";
        case Group::tyres: return "Tyres";
        case Group::axle: return "Axle";
        case Group::event: return "Event";
        case Group::car: return "Car";
    }
    return "";
}

std::span<const Parameter> parameters() {
    static const std::vector<Parameter> table = make_table();
    return table;
}

const Parameter* find_parameter(std::string_view key) {
    const auto all = parameters();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Parameter& p) { return p.key == key; });
    return found == all.end() ? nullptr : &*found;
}

double counting_value(const Parameter& parameter, const Setup& setup) {
    if (const auto given = parameter.get(setup)) return *given;
    return parameter.implied ? parameter.implied(setup) : parameter.low;
}

std::string other_side_key(std::string_view key) {
    if (key.substr(0, 5) == "left.") return "right." + std::string(key.substr(5));
    if (key.substr(0, 6) == "right.") return "left." + std::string(key.substr(6));
    return {};
}

Setup with_changes(Setup setup, std::span<const Change> changes) {
    for (const Change& change : changes) {
        const Parameter* p = find_parameter(change.key);
        if (!p) continue;
        if (p->kind == ValueKind::list)
            p->set_list(setup, change.list);
        else if (p->kind == ValueKind::text)
            p->set_text(setup, change.text);
        else
            p->set(setup, std::clamp(change.number, p->low, p->high));
    }
    return setup;
}

}  // namespace podwright
