#pragma once

#include <set>
#include <string>

#include "choose/limit.hpp"
#include "core/setup.hpp"

namespace podwright {

/// Whether a finding of this code is about what axle and bearings feel, or about the float over the
/// day's warmth.
bool is_felt(const std::string& code);

/// Limits on what axle and bearings feel and on the float over the day's warmth, as findings know
/// them, and rules on those readings. What the axle of today suffers already (`shaft.`, `bearing.`)
/// is no reason against another build; that the float leaves its window in the cold or the heat
/// always is, and so is a broken rule. What tolerances make of the float is not looked at: it takes
/// too long (see unjudged_rules).
class Felt {
public:
    explicit Felt(const Setup& today);

    /// Limit::felt and Limit::rules, if they forbid `build`.
    Limits against(const Setup& build) const;

private:
    std::set<std::string> known_;
};

/// Whether `build` breaks any rule that can be judged without drawing builds at random.
bool breaks_rules(const Setup& build);

/// The rules of which choosing does not know whether a build keeps them, by what they are about:
/// shares of builds drawn at random; without `felt`, whatever only Felt knows.
std::vector<std::string> unjudged_rules(const Setup& setup, bool felt);

}  // namespace podwright
