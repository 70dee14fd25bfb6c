#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/choosing.hpp"

// The one place that says how the parts box, goals, rules, the day and what was measured are
// written in a scene. Reader, writer and the table in scenes/README.md follow from it.
namespace podwright {

/// A quantity is in the unit of what its table names: a reading, or a key of the scene.
enum class FieldKind { text, number, length, quantity, count, lengths, counts, amounts };

/// A value on its way between a file and a Choosing. Rows: the elements of a list; [length, count]
/// for amounts.
struct FieldValue {
    std::optional<double> number;
    std::string text;
    std::vector<std::vector<double>> rows;
    bool empty() const { return !number && text.empty() && rows.empty(); }
    bool operator==(const FieldValue&) const = default;
};

struct FieldFacts {
    std::string name;
    std::string help;
    FieldKind kind = FieldKind::number;
    double low = 0;  ///< of a number or of each length, or characters of a text
    double high = 0;
    bool required = false;
    double fallback = 0;             ///< not written where the value is this
    std::string usual;               ///< what stands for it where it is left out, or empty
    std::vector<std::string> words;  ///< a text must be one of them, if there are any
};

template <class T>
struct Field : FieldFacts {
    std::function<FieldValue(const T&)> get;
    std::function<void(T&, const FieldValue&)> set;
};

const std::vector<Field<PartsBox>>& box_fields();
const std::vector<Field<WheelKind>>& wheel_fields();
const std::vector<Field<TyreKind>>& tyre_fields();
const std::vector<Field<AxleKind>>& axle_fields();
const std::vector<Field<Goal>>& goal_fields();
const std::vector<Field<RaceDay>>& day_fields();
const std::vector<Field<EventRule>>& rule_fields();
const std::vector<Field<Measured>>& measured_fields();

inline constexpr std::size_t most_rows = 40;       ///< of a list, and of tables of one name
inline constexpr const char* box_key = "box";      ///< table, or the name of a file
inline constexpr const char* rules_key = "rules";  ///< the name of a file

/// Every table of this part of a scene: its name, whether there can be several, and its fields.
struct Section {
    std::string name;
    bool listed = false;
    std::vector<FieldFacts> fields;  ///< the first says what the table is about
};
const std::vector<Section>& choosing_sections();

/// The unit of a reading, of what can be measured, or of a key of the scene ("" if it has none);
/// nothing for another name.
std::optional<std::string> unit_of(std::string_view name);

/// Whether its words are too many to be listed: the names of readings.
bool names_readings(const FieldFacts& field);

/// "0.02 to 5 mm", "1 to 60 characters", "at most 40, each ...".
std::string range_text(const FieldFacts& field);

}  // namespace podwright
