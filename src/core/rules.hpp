#pragma once

#include <span>
#include <vector>

#include "core/finding.hpp"
#include "core/reading.hpp"
#include "core/readings.hpp"
#include "core/setup.hpp"
#include "core/text.hpp"

// An event's rules held against a setup. What the program knows of them is what the user typed in:
// the event's own rulebook decides.
namespace podwright {

struct RuleState {
    const EventRule* rule = nullptr;
    std::optional<double> value;  ///< nothing where the setup does not know it
    std::string label;            ///< "overall width"
    std::string unit;
    double margin = 0;    ///< to the nearer limit, negative where it is broken
    bool broken() const;  ///< beyond a limit by more than rounding
};

/// Each rule of the setup, in its order. `readings` are those of the setup.
std::vector<RuleState> rule_states(const Setup& setup, std::span<const Reading> readings);

/// `rule.broken` for each that is.
void find_rules(const Setup& setup, std::span<const Reading> readings, LengthUnit shown,
                std::vector<Finding>& out);

/// `box.short` where the setup uses more of a kind than the parts box holds.
void find_box(const Setup& setup, LengthUnit shown, std::vector<Finding>& out);

}  // namespace podwright
