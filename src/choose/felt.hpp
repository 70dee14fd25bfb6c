#pragma once

#include <set>
#include <string>
#include <vector>

#include "core/setup.hpp"

namespace podwright {

/// Whether a finding of this code is about what axle and bearings feel, or about the float over the
/// day's warmth.
bool is_felt(const std::string& code);

/// Limits on what axle and bearings feel and on the float over the day's warmth, as findings know
/// them. What the axle of today suffers already (`shaft.`, `bearing.`) is no reason against another
/// build; that the float leaves its window in the cold or the heat always is. What tolerances make
/// of the float is not looked at: it takes too long.
class Felt {
public:
    explicit Felt(const Setup& today);

    /// Codes of the findings that forbid `build`; empty if it may be.
    std::vector<std::string> against(const Setup& build) const;

private:
    std::set<std::string> known_;
};

}  // namespace podwright
