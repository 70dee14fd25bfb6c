#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/parameters.hpp"
#include "core/text.hpp"

namespace podwright {

/// What became of a number that was typed over a value.
struct TypedNumber {
    std::optional<double> value;  ///< in the parameter's unit
    std::string refusal;          ///< without a value: one line why not
};

/// Reads `text` as people write numbers: with a point or a comma before the decimals, and with its
/// unit or without ("4,5", "0.18 in"); a length without one is in the unit that is shown. `label`
/// stands for the value in a refusal.
TypedNumber read_typed(const Parameter& parameter, const std::string& label, std::string_view text,
                       LengthUnit shown);

}  // namespace podwright
