#include "bench/part_facts.hpp"

#include <locale>
#include <sstream>

#include "bench/edit.hpp"
#include "gap/clearance_findings.hpp"
#include "gap/fit.hpp"

namespace podwright {

namespace {

struct Rule {
    /// Key without side, or its first word: "shim" stands for all shims.
    std::string_view part;
    std::vector<std::string_view> parameters;  ///< a leading '.' takes the side of the part
    std::vector<std::string_view> readings;
};

const std::vector<Rule>& rules() {
    static const std::vector<Rule> all = {
        {"holder", {".holder_step", ".holder_way", ".seat"}, {"ride.rear"}},
        {"bearing", {".standout", "bearing.bore", "bearing.outside", "bearing.width"}, {}},
        {"shim", {".shims"}, {"float.nominal", "width.overall"}},
        {"hub", {".reach", ".hub_diameter", "float.set_by"}, {"float.nominal"}},
        {"wheel", {".inset", ".rim_diameter"}, {"width.overall", "width.track"}},
        {"tyre", {".tyre_diameter", ".tyre_width", ".tyre_worn"}, {"ride.rear", "gear.rollout"}},
        {"screws", {".reach"}, {}},
        {"blade", {"float.blade"}, {"float.nominal"}},
        {"carrier", {"right.reach", "gears.spur_offset"}, {"float.nominal"}},
        {"spur",
         {"gears.spur", "gears.face_width"},
         {"gear.spur_outside", "mesh.backlash", "gear.final_drive"}},
        {"pinion",
         {"gears.pinion"},
         {"gear.pinion_outside", "mesh.backlash", "mesh.contact_ratio"}},
        {"motor",
         {"motor.can_diameter", "motor.slot_length"},
         {"mesh.slot_position", "mesh.working_distance"}},
        {"axle",
         {"axle.diameter", "axle.waist", "axle.bore", "axle.material"},
         {"axle.height", "axle.tilt"}},
        {"pod.floor", {"pod.floor_thickness", "pod.plate_inner", "pod.bore_height"}, {"ride.rear"}},
        {"pod", {"pod.bore_height", "pod.plate_inner", "pod.plate_thickness"}, {"ride.rear"}},
    };
    return all;
}

std::string_view side_of(std::string_view part) {
    if (part.substr(0, 5) == "left.") return "left";
    if (part.substr(0, 6) == "right.") return "right";
    return {};
}

const Rule* rule_for(std::string_view part) {
    const std::string_view side = side_of(part);
    std::string_view name = side.empty() ? part : part.substr(side.size() + 1);
    const std::string_view kind = name.substr(0, name.find('.'));
    for (const Rule& rule : rules())
        if (rule.part == name || rule.part == kind) return &rule;
    return nullptr;
}

std::string full_key(std::string_view part, std::string_view parameter) {
    if (parameter.front() != '.') return std::string(parameter);
    return std::string(side_of(part)) + std::string(parameter);
}

/// As in the part's title: thousandths only where there are any.
std::string written(const Parameter& p, double value, LengthUnit shown) {
    if (p.unit != Unit::mm || shown == LengthUnit::inch) return shown_value(p, value, shown);
    std::string text = fixed(value, 3);
    if (text.back() == '0') text.pop_back();
    return text + " mm";
}

std::string list_text(const std::vector<double>& list, LengthUnit shown) {
    if (list.empty()) return "none";
    std::string text;
    for (double t : list) text += (text.empty() ? "" : " + ") + length(t, shown);
    return text;
}

/// What the part is meant to touch, and how: a line for each kind of fit.
void add_fits(std::string_view part, const Assembly& assembly, std::vector<Fact>& facts) {
    const Part* self = assembly.find(part);
    if (!self) return;
    constexpr int most = 2;  // named; of the rest their number is said
    for (const Fit fit : {Fit::fixed, Fit::sliding, Fit::touching, Fit::meshing}) {
        std::string names;
        int count = 0;
        for (const Part& other : assembly.parts) {
            if (&other == self || other.key == "blade" ||
                fit_between(assembly, *self, other) != fit)
                continue;
            if (++count <= most) names += (names.empty() ? "" : ", ") + spoken(assembly, other.key);
        }
        if (count > most) names += " and " + std::to_string(count - most) + " more";
        if (count > 0) facts.push_back({std::string(word(fit)), names});
    }
}

}  // namespace

std::vector<std::string> part_parameters(std::string_view part) {
    std::vector<std::string> keys;
    if (const Rule* rule = rule_for(part))
        for (std::string_view p : rule->parameters) keys.push_back(full_key(part, p));
    return keys;
}

std::string shown_title(const Part& part, LengthUnit shown) {
    const std::string& title = part.title;
    const std::size_t unit = title.find(" mm");
    if (shown == LengthUnit::mm || unit == std::string::npos) return title;
    const std::size_t start = title.find_last_not_of("-0123456789.", unit - 1) + 1;
    if (start >= unit) return title;
    std::istringstream number(title.substr(start, unit - start));
    number.imbue(std::locale::classic());
    double mm = 0;
    if (!(number >> mm)) return title;
    return title.substr(0, start) + length(mm, shown) + title.substr(unit + 3);
}

std::vector<Fact> part_facts(std::string_view part, const Setup& setup,
                             const Evaluation& evaluation, LengthUnit shown) {
    std::vector<Fact> facts;
    for (const std::string& key : part_parameters(part)) {
        const Parameter* p = find_parameter(key);
        if (!p) continue;
        if (p->kind == ValueKind::list)
            facts.push_back({p->label, list_text(p->get_list(setup), shown)});
        else if (const auto value = p->get(setup))
            facts.push_back({p->label, written(*p, *value, shown)});
    }
    if (const Rule* rule = rule_for(part))
        for (std::string_view name : rule->readings)
            if (const Reading* r = evaluation.reading(name))
                facts.push_back({std::string(r->label), shown_reading(*r, shown)});
    if (part != "blade") add_fits(part, evaluation.assembly, facts);
    return facts;
}

}  // namespace podwright
