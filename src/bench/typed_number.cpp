#include "bench/typed_number.hpp"

#include <algorithm>
#include <cmath>

#include "bench/edit.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace {

/// With a point for a decimal comma. Several signs are left as they are: who knows which of them
/// was meant to part thousands.
std::string with_point(std::string_view text) {
    std::string read(text.substr(0, text.find_last_not_of(" \t") + 1));
    const auto is_sign = [](char c) { return c == ',' || c == '.'; };
    if (std::count_if(read.begin(), read.end(), is_sign) == 1)
        std::replace(read.begin(), read.end(), ',', '.');
    return read;
}

std::optional<double> number_of(const Parameter& parameter, std::string text, LengthUnit shown) {
    std::string_view unit = symbol(parameter.unit);
    if (parameter.unit == Unit::mm) {
        if (const auto length = parse_length(text)) return length;
        if (shown == LengthUnit::inch) unit = "in";
    } else {
        const bool has_unit = !unit.empty() && text.size() > unit.size() &&
                              text.compare(text.size() - unit.size(), unit.size(), unit) == 0;
        if (has_unit) text.erase(text.size() - unit.size());
        unit = "mm";  // as parse_length() has it: the number alone counts
    }
    return parse_length(text + " " + std::string(unit));
}

std::string example(const Parameter& parameter) {
    if (parameter.unit == Unit::count) return "34";
    return parameter.unit == Unit::mm ? "4.5 or 0.18 in" : "4.5";
}

}  // namespace

TypedNumber read_typed(const Parameter& parameter, const std::string& label, std::string_view text,
                       LengthUnit shown) {
    const std::optional<double> number = number_of(parameter, with_point(text), shown);
    if (!number || !std::isfinite(*number))
        return {{},
                label + ": \"" + std::string(text) + "\" is not a number, such as " +
                    example(parameter) + "."};
    if (parameter.unit == Unit::count && *number != std::round(*number))
        return {{}, label + " is a whole number, such as " + example(parameter) + "."};
    if (*number < parameter.low || *number > parameter.high)
        return {{},
                label + " goes from " + shown_value(parameter, parameter.low, shown) + " to " +
                    shown_value(parameter, parameter.high, shown) + "."};
    return {number, {}};
}

}  // namespace podwright
