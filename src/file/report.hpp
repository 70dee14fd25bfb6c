#pragma once

#include <string>
#include <string_view>

#include "core/setup.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

/// "0.1.0".
std::string_view version();

/// Readings, clearances and findings as JSON in the form of DESIGN section 5, with a line break at
/// the end. Always in mm. A number that is not finite is null.
std::string report_json(const Setup& setup, const Evaluation& evaluation);

/// The same for people: a table of the readings and the findings, at most 100 columns wide, lengths
/// in mm or in inches.
std::string report_text(const Setup& setup, const Evaluation& evaluation, bool inches);

}  // namespace podwright
