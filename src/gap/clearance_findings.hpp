#pragma once

#include <span>
#include <vector>

#include "core/finding.hpp"
#include "core/text.hpp"
#include "gap/clearance.hpp"

namespace podwright {

/// Name of a part as spoken: its title up to the first number, "left hub", "spur"; "ground".
std::string spoken(const Assembly& assembly, const std::string& key);

/// `contact` for pairs that interfere somewhere in the envelope and `close` for those that have
/// less than they need, at most eight. With a meter each gets a fix that was tried: the smallest
/// change of one adjuster after which the pair has what it needs and nothing else is worse.
std::vector<Finding> clearance_findings(const Setup& setup, const Assembly& assembly,
                                        std::span<const Clearance> clearances, LengthUnit shown,
                                        Meter* meter);

}  // namespace podwright
