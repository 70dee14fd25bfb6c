#include "file/choosing_fields.hpp"

#include <cmath>
#include <map>
#include <type_traits>

#include "core/material.hpp"
#include "core/measured.hpp"
#include "core/parameters.hpp"
#include "evaluate/evaluate.hpp"
#include "file/value_read.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace {

struct Range {
    double low, high;
};

constexpr Range count_range{1, 99};
constexpr Range name_length{1, 60};
constexpr Range source_length{1, 200};

Range range_of(const char* key) {
    const Parameter& parameter = *find_parameter(key);
    return {parameter.low, parameter.high};
}

FieldFacts facts(const char* name, FieldKind kind, Range range, const char* help) {
    FieldFacts f;
    f.name = name;
    f.help = help;
    f.kind = kind;
    f.low = range.low;
    f.high = range.high;
    return f;
}

/// `member` is a pointer to a double, an int, an optional double or a text.
template <class T, class Member>
Field<T> field(const char* name, FieldKind kind, Range range, const char* help, Member T::*member) {
    Field<T> f{facts(name, kind, range, help), {}, {}};
    if constexpr (std::is_same_v<Member, std::string>) {
        f.get = [member](const T& t) { return FieldValue{{}, t.*member, {}}; };
        f.set = [member](T& t, const FieldValue& cell) { t.*member = cell.text; };
    } else if constexpr (std::is_same_v<Member, std::optional<double>>) {
        f.get = [member](const T& t) { return FieldValue{t.*member, "", {}}; };
        f.set = [member](T& t, const FieldValue& cell) { t.*member = cell.number; };
        f.fallback = std::nan("");
    } else {
        f.get = [member](const T& t) { return FieldValue{static_cast<double>(t.*member), "", {}}; };
        f.set = [member](T& t, const FieldValue& cell) {
            t.*member = static_cast<Member>(*cell.number);
        };
        f.fallback = static_cast<double>(T{}.*member);
    }
    return f;
}

template <class T>
Field<T> required(Field<T> f) {
    f.required = true;
    return f;
}

/// A list of numbers.
template <class T, class Number>
Field<T> numbers(const char* name, FieldKind kind, Range range, const char* help,
                 std::vector<Number> T::*member) {
    Field<T> f{facts(name, kind, range, help), {}, {}};
    f.get = [member](const T& t) {
        FieldValue cell;
        for (const Number n : t.*member) cell.rows.push_back({static_cast<double>(n)});
        return cell;
    };
    f.set = [member](T& t, const FieldValue& cell) {
        (t.*member).clear();
        for (const auto& row : cell.rows) (t.*member).push_back(static_cast<Number>(row[0]));
    };
    return f;
}

/// A list of [length, count].
template <class Kind>
Field<PartsBox> amounts(const char* name, Range range, const char* help,
                        std::vector<Kind> PartsBox::*member, double Kind::*length) {
    Field<PartsBox> f{facts(name, FieldKind::amounts, range, help), {}, {}};
    f.get = [=](const PartsBox& box) {
        FieldValue cell;
        for (const Kind& kind : box.*member)
            cell.rows.push_back({kind.*length, static_cast<double>(kind.count)});
        return cell;
    };
    f.set = [=](PartsBox& box, const FieldValue& cell) {
        (box.*member).clear();
        for (const auto& row : cell.rows) {
            Kind kind;
            kind.*length = row[0];
            kind.count = static_cast<int>(row[1]);
            (box.*member).push_back(kind);
        }
    };
    return f;
}

/// Every reading that can be measured.
std::vector<std::string> reading_names() {
    std::vector<std::string> names;
    for (const Reading& reading : evaluate(Setup{}).readings) names.emplace_back(reading.name);
    return names;
}

std::vector<std::string> ruled_names() {
    std::vector<std::string> names = reading_names();
    names.emplace_back("float.outside_share");  // builds are drawn for it, and not everywhere
    for (const Parameter& parameter : parameters())
        if (parameter.kind == ValueKind::number && !parameter.optional)
            names.push_back(parameter.key);
    return names;
}

template <class T>
std::vector<FieldFacts> facts_of(const std::vector<Field<T>>& fields) {
    std::vector<FieldFacts> facts(fields.begin(), fields.end());
    for (std::size_t i = 0; i < facts.size(); ++i) {
        const FieldValue usual = fields[i].get(T{});
        facts[i].usual = usual.number ? number_text(*usual.number) : usual.text;
    }
    return facts;
}

}  // namespace

const std::vector<Field<PartsBox>>& box_fields() {
    static const std::vector<Field<PartsBox>> fields = {
        amounts("shims", range_of("left.shims"), "Thickness and how many of it.", &PartsBox::shims,
                &ShimKind::thickness),
        amounts("holders", range_of("left.holder_step"), "Step and how many of it.",
                &PartsBox::holders, &HolderKind::step),
        numbers("pinions", FieldKind::counts, range_of("gears.pinion"), "Teeth of each pinion.",
                &PartsBox::pinions),
        numbers("spurs", FieldKind::counts, range_of("gears.spur"), "Teeth of each spur.",
                &PartsBox::spurs),
        numbers("blades", FieldKind::lengths, range_of("float.blade"), "Thickness of each blade.",
                &PartsBox::blades)};
    return fields;
}

const std::vector<Field<WheelKind>>& wheel_fields() {
    static const std::vector<Field<WheelKind>> fields = {
        required(field("name", FieldKind::text, name_length, "What you call this kind of wheel.",
                       &WheelKind::name)),
        required(field("inset", FieldKind::length, range_of("left.inset"),
                       "Centre plane inboard of the mounting face; negative is outboard.",
                       &WheelKind::inset)),
        field("rim_diameter", FieldKind::length, range_of("left.rim_diameter"),
              "Outside of the rim; the car's where it is left out.", &WheelKind::rim_diameter),
        field("count", FieldKind::count, count_range, "How many there are.", &WheelKind::count)};
    return fields;
}

const std::vector<Field<TyreKind>>& tyre_fields() {
    static const std::vector<Field<TyreKind>> fields = {
        required(field("name", FieldKind::text, name_length, "What you call these tyres.",
                       &TyreKind::name)),
        required(field("diameter", FieldKind::length, range_of("left.tyre_diameter"),
                       "Outside as measured today.", &TyreKind::diameter)),
        field("width", FieldKind::length, range_of("left.tyre_width"),
              "Across the tread; the car's where it is left out, and so are the next two.",
              &TyreKind::width),
        field("worn", FieldKind::length, range_of("left.tyre_worn"),
              "Below this diameter the tyre is done.", &TyreKind::worn_diameter),
        field("stiffness", FieldKind::number, range_of("left.tyre_stiffness"),
              "Load over radial sag, N/mm.", &TyreKind::stiffness),
        field("wheel", FieldKind::text, name_length,
              "Kind of wheel that it is glued to; without one it goes on any.", &TyreKind::wheel),
        field("count", FieldKind::count, count_range, "How many there are.", &TyreKind::count)};
    return fields;
}

const std::vector<Field<AxleKind>>& axle_fields() {
    static const std::vector<Field<AxleKind>> fields = [] {
        std::vector<Field<AxleKind>> all = {
            required(field("name", FieldKind::text, name_length, "What you call this axle.",
                           &AxleKind::name)),
            field("waist", FieldKind::length, range_of("axle.waist"),
                  "Diameter between the bearings.", &AxleKind::waist),
            field("bore", FieldKind::length, range_of("axle.bore"), "Inside diameter; 0 is solid.",
                  &AxleKind::bore),
            field("shoulder", FieldKind::length, range_of("float.shoulder"),
                  "Between its thrust faces, where the float is set by shoulder.",
                  &AxleKind::shoulder)};
        Field<AxleKind> material{
            facts("material", FieldKind::text, name_length, "What it is made of."), {}, {}};
        material.words = find_parameter("axle.material")->options;
        material.get = [](const AxleKind& axle) {
            return FieldValue{
                {}, std::string(materials()[static_cast<std::size_t>(axle.material)].key), {}};
        };
        material.set = [](AxleKind& axle, const FieldValue& cell) {
            for (std::size_t i = 0; i < materials().size(); ++i)
                if (materials()[i].key == cell.text) axle.material = static_cast<int>(i);
        };
        all.push_back(std::move(material));
        return all;
    }();
    return fields;
}

const std::vector<Field<Goal>>& goal_fields() {
    static const std::vector<Field<Goal>> fields = [] {
        std::vector<Field<Goal>> all = {
            required(field("reading", FieldKind::text, name_length, "What is to be on target.",
                           &Goal::reading)),
            required(field("target", FieldKind::quantity, {-1000, 1000},
                           "Wanted value; for \"clearance\", how much more than needed every "
                           "clearance is to have.",
                           &Goal::target)),
            field("band", FieldKind::quantity, {0, 100},
                  "So far from the target nothing is lost yet.", &Goal::band),
            field("weight", FieldKind::number, {0, 10000},
                  "Points lost for each mm (or degree, or 1) beyond the band.", &Goal::weight)};
        all.front().words = goal_readings();
        return all;
    }();
    return fields;
}

const std::vector<Field<RaceDay>>& day_fields() {
    static const std::vector<Field<RaceDay>> fields = {
        required(field("runs", FieldKind::count, {1, 40}, "Runs of the day.", &RaceDay::runs)),
        field(
            "wear_left", FieldKind::length, {0, 5},
            "Diameter that the left tyre loses a run; without it, the slope of what was measured.",
            &RaceDay::wear_left),
        field("wear_right", FieldKind::length, {0, 5}, "The same on the right.",
              &RaceDay::wear_right),
        numbers("left", FieldKind::lengths, range_of("left.tyre_diameter"),
                "Left diameters as measured: before the first run, then after each.",
                &RaceDay::left),
        numbers("right", FieldKind::lengths, range_of("left.tyre_diameter"),
                "The same on the right.", &RaceDay::right)};
    return fields;
}

const std::vector<Field<EventRule>>& rule_fields() {
    static const std::vector<Field<EventRule>> fields = [] {
        std::vector<Field<EventRule>> all = {
            required(field("of", FieldKind::text, name_length,
                           "What is limited: a reading such as \"width.overall\", or a key of the "
                           "scene such as \"left.tyre_width\" or \"car.mass\", in its unit.",
                           &EventRule::of)),
            field("low", FieldKind::quantity, {-1e6, 1e6}, "The least that is allowed.",
                  &EventRule::low),
            field("high", FieldKind::quantity, {-1e6, 1e6}, "The most that is allowed.",
                  &EventRule::high),
            required(field("from", FieldKind::text, source_length, "Where the event says so.",
                           &EventRule::from))};
        all.front().words = ruled_names();
        return all;
    }();
    return fields;
}

const std::vector<Field<Measured>>& measured_fields() {
    static const std::vector<Field<Measured>> fields = [] {
        std::vector<Field<Measured>> all = {
            required(field("reading", FieldKind::text, name_length, "Which reading was measured.",
                           &Measured::reading)),
            required(field("value", FieldKind::quantity, {-1e6, 1e6}, "What the gauge showed.",
                           &Measured::value)),
            required(field("uncertainty", FieldKind::quantity, {1e-4, 1000},
                           "Standard uncertainty of gauge and hand.", &Measured::uncertainty)),
            field("gauge", FieldKind::text, name_length, "With what.", &Measured::gauge)};
        all.front().words = reading_names();
        for (const std::string_view name : {left_shims_together, right_shims_together})
            all.front().words.emplace_back(name);
        return all;
    }();
    return fields;
}

const std::vector<Section>& choosing_sections() {
    static const std::vector<Section> sections = {{box_key, false, facts_of(box_fields())},
                                                  {"box_wheel", true, facts_of(wheel_fields())},
                                                  {"box_tyre", true, facts_of(tyre_fields())},
                                                  {"box_axle", true, facts_of(axle_fields())},
                                                  {"goal", true, facts_of(goal_fields())},
                                                  {"day", false, facts_of(day_fields())},
                                                  {"rule", true, facts_of(rule_fields())},
                                                  {"measured", true, facts_of(measured_fields())}};
    return sections;
}

std::optional<std::string> unit_of(std::string_view name) {
    static const std::map<std::string, std::string, std::less<>> units = [] {
        std::map<std::string, std::string, std::less<>> all;
        for (const Parameter& parameter : parameters())
            all.emplace(parameter.key, symbol(parameter.unit));
        for (const Reading& reading : evaluate(Setup{}).readings)
            all.insert_or_assign(std::string(reading.name), std::string(reading.unit));
        all.insert_or_assign("float.outside_share", "%");
        for (const std::string_view shims : {left_shims_together, right_shims_together})
            all.insert_or_assign(std::string(shims), "mm");
        all.emplace(goal_readings().back(), "mm");  // the least of all clearances
        return all;
    }();
    const auto found = units.find(name);
    return found == units.end() ? std::nullopt : std::optional(found->second);
}

bool names_readings(const FieldFacts& field) {
    constexpr std::size_t most_listed = 12;
    return field.words.size() > most_listed;
}

std::string range_text(const FieldFacts& field) {
    std::string span = number_text(field.low) + " to " + number_text(field.high);
    const std::string most = "at most " + std::to_string(most_rows) + ", each ";
    switch (field.kind) {
        case FieldKind::text:
            if (field.words.empty()) return span + " characters";
            if (names_readings(field))
                return "name of a reading" + std::string(field.name == "of" ? " or key" : "");
            return listed(field.words, "or");
        case FieldKind::number:
        case FieldKind::count: break;
        case FieldKind::length: return span + " mm";
        case FieldKind::quantity: return span + ", in the unit of what is named";
        case FieldKind::lengths: return most + span + " mm";
        case FieldKind::counts: return most + span + " teeth";
        case FieldKind::amounts: return most + "[" + span + " mm, 1 to 99]";
    }
    return span;
}

}  // namespace podwright
