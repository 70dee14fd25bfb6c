#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/setup.hpp"

// The one place that defines every value of a setup: its key in a scene file, unit, default, range,
// step and help. The scene reader, the writer, the key table in scenes/README.md, the adjusters and
// their tooltips all come from it.
namespace podwright {

enum class Unit {
    none,
    mm,
    degree,
    arc_minute,
    newton,
    newton_per_mm,
    newton_mm,
    rev_per_min,
    gram_per_cm3,
    gram_cm2,
    kilogram,
    gigapascal,
    newton_per_mm2,
    celsius,
    gravity,
    hour,
    percent,
    count
};

/// "mm", "deg", "N", ...; empty for Unit::none and Unit::count.
std::string_view symbol(Unit);

/// How the window groups the adjusters. `car` holds what rarely changes.
enum class Group { left, right, gears, tyres, axle, event, car };

std::string_view title(Group);

enum class ValueKind { number, choice, list, text };

/// One value of a setup. Numbers are in the unit shown (degrees, not radians); a choice is the
/// index into `options`. Only the members that belong to `kind` are set.
struct Parameter {
    std::string key;    ///< "table.name" as in a scene file; "name" at top level
    std::string label;  ///< in the trade's words, without the side
    std::string help;   ///< one sentence
    ValueKind kind = ValueKind::number;
    Group group = Group::car;
    Unit unit = Unit::none;
    bool required = false;  ///< a scene without it is refused
    bool optional = false;  ///< may be absent from a setup: get() gives nothing then
    std::string otherwise;  ///< optional: what counts where it is absent, in words
    double fallback = 0;    ///< number, choice: the default
    double low = 0;         ///< range, both ends allowed; of each element for a list
    double high = 0;
    double step = 0;                   ///< what one notch of the adjuster is
    std::size_t longest = 0;           ///< list: most elements; text: most characters
    std::vector<std::string> options;  ///< choice

    std::function<std::optional<double>(const Setup&)> get;
    std::function<double(const Setup&)> implied;  ///< optional: the value that counts then, if any
    std::function<void(Setup&, std::optional<double>)> set;  ///< no range check
    std::function<const std::vector<double>&(const Setup&)> get_list;
    std::function<void(Setup&, std::vector<double>)> set_list;
    std::function<const std::string&(const Setup&)> get_text;
    std::function<void(Setup&, std::string)> set_text;
};

/// The number (or choice index) that counts in `setup`: its own, else what is implied, else the
/// least.
double counting_value(const Parameter& parameter, const Setup& setup);

/// All of them, in the order of a scene file.
std::span<const Parameter> parameters();

/// The parameter with this key, or null.
const Parameter* find_parameter(std::string_view key);

/// Key of the same value on the other side ("left.seat" -> "right.seat"); empty if it has no side.
std::string other_side_key(std::string_view key);

/// One edit of a setup: a number (or choice index), a whole list, or a text.
struct Change {
    std::string key;
    double number = 0;
    std::vector<double> list;
    std::string text = {};
    bool operator==(const Change&) const = default;
};

/// `setup` with the changes made. Numbers are clamped to their range. Unknown keys are ignored.
Setup with_changes(Setup setup, std::span<const Change> changes);

}  // namespace podwright
