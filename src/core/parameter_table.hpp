#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "core/parameters.hpp"
#include "core/units.hpp"

// How the table of parameters is written; for the sources of parameters.cpp only.
namespace podwright {

struct Range {
    double low, high, step;
};

/// What a shown number is multiplied by to get the number inside.
inline double scale_of(Unit unit) {
    switch (unit) {
        case Unit::degree: return rad_per_degree;
        case Unit::arc_minute: return rad_per_degree / 60;
        case Unit::percent: return 0.01;
        default: return 1.0;
    }
}

/// Collects the table; `pick` reaches a member of a Setup (or of an AxleSide), const or not.
class Table {
public:
    std::vector<Parameter> rows;

    template <class Pick>
    Parameter& number(std::string key, std::string label, Group group, Unit unit, Range range,
                      std::string help, Pick pick) {
        Parameter& row = add(std::move(key), std::move(label), group, unit, range, std::move(help));
        const double scale = scale_of(unit);
        row.get = [=](const Setup& s) { return std::optional<double>(pick(s) / scale); };
        row.set = [=](Setup& s, std::optional<double> v) {
            using Target = std::decay_t<decltype(pick(s))>;
            if constexpr (std::is_integral_v<Target>)
                pick(s) = static_cast<Target>(std::lround(v.value()));
            else
                pick(s) = v.value() * scale;
        };
        row.fallback = *row.get(Setup{});
        return row;
    }

    template <class Pick>
    Parameter& optional_number(std::string key, std::string label, Group group, Unit unit,
                               Range range, std::string help, Pick pick) {
        Parameter& row = add(std::move(key), std::move(label), group, unit, range, std::move(help));
        row.optional = true;
        row.get = [=](const Setup& s) { return pick(s); };
        row.set = [=](Setup& s, std::optional<double> v) { pick(s) = v; };
        return row;
    }

    template <class Pick>
    Parameter& optional_choice(std::string key, std::string label, Group group,
                               std::vector<std::string> options, std::string help, Pick pick) {
        Parameter& row = add_choice(std::move(key), std::move(label), group, std::move(options),
                                    std::move(help));
        row.optional = true;
        row.get = [=](const Setup& s) -> std::optional<double> {
            if (!pick(s)) return {};
            return static_cast<double>(*pick(s));
        };
        row.set = [=](Setup& s, std::optional<double> v) {
            using Target = typename std::decay_t<decltype(pick(s))>::value_type;
            pick(s).reset();
            if (v) pick(s) = static_cast<Target>(std::lround(*v));
        };
        return row;
    }

    template <class Pick>
    Parameter& choice(std::string key, std::string label, Group group,
                      std::vector<std::string> options, std::string help, Pick pick) {
        Parameter& row = add_choice(std::move(key), std::move(label), group, std::move(options),
                                    std::move(help));
        row.get = [=](const Setup& s) {
            return std::optional<double>(static_cast<double>(pick(s)));
        };
        row.set = [=](Setup& s, std::optional<double> v) {
            using Target = std::decay_t<decltype(pick(s))>;
            pick(s) = static_cast<Target>(std::lround(v.value()));
        };
        row.fallback = *row.get(Setup{});
        return row;
    }

    template <class Pick>
    Parameter& list(std::string key, std::string label, Group group, Unit unit, Range range,
                    std::size_t longest, std::string help, Pick pick) {
        Parameter& row = add(std::move(key), std::move(label), group, unit, range, std::move(help));
        row.kind = ValueKind::list;
        row.longest = longest;
        row.get_list = [=](const Setup& s) -> const std::vector<double>& { return pick(s); };
        row.set_list = [=](Setup& s, const std::vector<double>& v) { pick(s) = v; };
        return row;
    }

    template <class Pick>
    Parameter& text(std::string key, std::string label, std::size_t longest, std::string help,
                    Pick pick) {
        Parameter& row =
            add(std::move(key), std::move(label), Group::car, Unit::none, {}, std::move(help));
        row.kind = ValueKind::text;
        row.longest = longest;
        row.get_text = [=](const Setup& s) -> const std::string& { return pick(s); };
        row.set_text = [=](Setup& s, const std::string& v) { pick(s) = v; };
        return row;
    }

private:
    Parameter& add_choice(std::string key, std::string label, Group group,
                          std::vector<std::string> options, std::string help) {
        const Range range{0, static_cast<double>(options.size()) - 1, 1};
        Parameter& row =
            add(std::move(key), std::move(label), group, Unit::none, range, std::move(help));
        row.kind = ValueKind::choice;
        row.options = std::move(options);
        return row;
    }

    Parameter& add(std::string key, std::string label, Group group, Unit unit, Range range,
                   std::string help) {
        Parameter& row = rows.emplace_back();
        row.key = std::move(key);
        row.label = std::move(label);
        row.help = std::move(help);
        row.group = group;
        row.unit = unit;
        row.low = range.low;
        row.high = range.high;
        row.step = range.step;
        return row;
    }
};

/// Wheels, shims and holders; float; gears; motor; axle and other axle; bearing, pod and front.
void add_car_parameters(Table& t);
/// The event's limits, needs, materials, load cases, the day's temperatures, tolerances and fits.
void add_event_parameters(Table& t);

}  // namespace podwright

// `pick` for both constnesses; `field` is the member path after the Setup (or after a side).
#define PICK(field) ([](auto& s) -> auto& { return s.field; })
#define PICK_SIDE(field) ([side](auto& s) -> auto& { return s.side(side).field; })
