#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "core/setup.hpp"
#include "core/text.hpp"
#include "evaluate/evaluate.hpp"

// The parts of a report that hold the setup against something else: an event's rules, what was
// measured, another setup, and its own adjusters. Text sections end with an empty line and are
// empty where there is nothing to say; JSON is null then.
namespace podwright {

/// List: `of`, `label`, `value`, `unit`, `low`, `high`, `margin`, `state` (`met`, `broken`,
/// `unknown`), `from`.
nlohmann::ordered_json rules_json(const Setup& setup, const Evaluation& evaluation);
std::string rules_text(const Setup& setup, const Evaluation& evaluation, LengthUnit shown);

/// `compared` (list: `reading`, `measured`, `predicted`, `uncertainty`, `off`, `disagrees`,
/// `gauge`), `disagrees`, `explained`, `no_mistake`, `suspects` (list: `text`, `likelihood`,
/// `equal`, `parts`), `further`
/// (`reading`, `label`, `uncertainty`, `expected`: list of `suspect`, `value`).
nlohmann::ordered_json measured_json(const Setup& setup);
std::string measured_text(const Setup& setup, LengthUnit shown);

/// Adjuster -> `text`, `readings`: name -> change by one step.
nlohmann::ordered_json effects_json(const Setup& setup);
std::string effects_text(const Setup& setup, LengthUnit shown);

/// From `other` to `setup`: `from` (title), `causes` (list: `text`, `links`: list of `reading`,
/// `change`, `text`), `readings`: name -> `was`, `is`.
nlohmann::ordered_json against_json(const Setup& other, const Setup& setup);
std::string against_text(const Setup& other, const Setup& setup, LengthUnit shown);

}  // namespace podwright
