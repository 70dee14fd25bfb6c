#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/parameters.hpp"

// Single values of a scene file: how they are read from text, written and described.
namespace podwright {

/// The shortest decimal that reads back as exactly `value`; without an exponent where it is of a
/// size that people write.
std::string number_text(double value);

/// The shortest decimal in degrees that reads back as exactly `angle` (rad) where there is one, as
/// there is for every angle that was read.
std::string degrees_text(double angle);

/// mm from "0.25 in", "6.35mm"; also "inch" and the inch mark. Nothing if it is not a length.
std::optional<double> parse_length(std::string_view text);

/// `text` as a TOML text with its quotes; in triple quotes if it has several lines.
std::string quoted_text(std::string_view text);

/// The value that a scene file shows for `parameter` in `setup`, as TOML; it must be present.
/// Reading it back gives the same value exactly, for every value that a scene can hold.
std::string value_text(const Parameter& parameter, const Setup& setup);

/// Whether both setups have exactly the same value of `parameter`.
bool same_value(const Parameter& parameter, const Setup& a, const Setup& b);

/// "10 to 80 mm", "up or down", "at most 80 characters".
std::string range_text(const Parameter& parameter);

/// Tooth depth of gears for which none is given: fine-pitch from 20 teeth per inch upwards,
/// full-depth for coarser ones and for modules.
Dedendum usual_dedendum(const Gears& gears);

/// What stands for a parameter that a scene leaves out; the tooth depth follows from the gears.
Setup default_setup();

}  // namespace podwright
