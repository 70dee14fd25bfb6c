#pragma once

#include <string>
#include <string_view>

#include "core/setup.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

/// "0.1.0".
std::string_view version();

/// What a report holds beside readings, clearances and findings.
struct ReportAsked {
    bool effects = false;            ///< what one more of each adjuster does
    const Setup* against = nullptr;  ///< another setup, from which this one followed
};

/// Readings, clearances and findings as JSON, with a line break at the end; `rules` and `measured`
/// where the setup has them; `effects` and `against` where they are asked for (see
/// file/checks_report.hpp). Always in mm. A number that is not finite is null.
std::string report_json(const Setup& setup, const Evaluation& evaluation,
                        const ReportAsked& asked = {});

/// The same for people: a table of the readings and the findings, at most 100 columns wide, lengths
/// in mm or in inches.
std::string report_text(const Setup& setup, const Evaluation& evaluation, bool inches,
                        const ReportAsked& asked = {});

}  // namespace podwright
