#pragma once

#include <string>

#include "choose/choose.hpp"
#include "choose/plan.hpp"

// Chosen builds and day plans as JSON (always in mm, with a line break at the end) and for people
// (at most 100 columns wide, lengths in mm or in inches).
namespace podwright {

/// `podwright`, `setup`, `combinations`, `looked_at`, `measured`, `stopped`, `gave_up` (the best
/// are those of what was looked at), `rest_gave_up` (front and trades are not all), `best` and
/// `front` (list: `points`, `shims`, `changes`, `room`, `goals`, `steps`, `edits`: key -> value),
/// `trades` (list: `reading`, `answer`: the best if that goal came before all else), and `blame`
/// where nothing fits (`obstacles`: `limit`, `text`; `unknown`: limits of which it was not found
/// out; `gave_up`; `addition`: `text`, `answer`; `additions`: what is known where there is none).
std::string choice_json(const Setup& today, const Choice& choice);
std::string choice_text(const Setup& today, const Choice& choice, bool inches);

/// `podwright`, `setup`, `wear_left`, `wear_right` (`start`, `per_run`, `fitted`), `points`,
/// `fixed_points` (of them by what no choice changes), `changes`, `caveats`, `runs` (list: `run`,
/// `left`, `right`, holders and pinion, `ride`, `rollout`, `room`, `points`, `broken`, `steps`).
std::string plan_json(const Setup& today, const DayPlan& plan);
std::string plan_text(const Setup& today, const DayPlan& plan, bool inches);

}  // namespace podwright
