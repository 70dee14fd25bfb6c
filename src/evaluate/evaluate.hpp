#pragma once

#include <string_view>
#include <vector>

#include "core/drive.hpp"
#include "core/finding.hpp"
#include "core/reading.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"
#include "core/text.hpp"
#include "shape/part.hpp"

namespace podwright {

/// Everything that follows from a setup. The one door between the calculations and what shows them.
struct Evaluation {
    Stack stack;
    Stance stance;
    Drive drive;
    std::vector<Reading> readings;  ///< in the order of DESIGN section 5
    std::vector<Finding> findings;  ///< the worst first
    Assembly assembly;

    /// The reading of that name, or null.
    const Reading* reading(std::string_view name) const;
    /// The level of the worst finding; Level::note if there is none.
    Level worst() const;
};

/// Pure. `setup` must be free of conflicts (find_conflict) and in range. `shown` is the unit of the
/// lengths in the findings' sentences; all other values are in mm.
Evaluation evaluate(const Setup& setup, LengthUnit shown = LengthUnit::mm);

}  // namespace podwright
