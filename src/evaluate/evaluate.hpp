#pragma once

#include <string_view>
#include <vector>

#include "core/drive.hpp"
#include "core/feel.hpp"
#include "core/finding.hpp"
#include "core/reading.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"
#include "core/text.hpp"
#include "gap/clearance.hpp"
#include "shape/mass_properties.hpp"
#include "shape/part.hpp"

namespace podwright {

/// Everything that follows from a setup. The one door between the calculations and what shows them.
struct Evaluation {
    Stack stack;
    Stance stance;
    Drive drive;
    Feel feel;                      ///< what the axle feels
    std::vector<Reading> readings;  ///< in the order in which a report lists them
    std::vector<Finding> findings;  ///< the worst first
    Assembly assembly;
    std::vector<Clearance> clearances;  ///< the smallest margin first; empty if not asked for

    /// The reading of that name, or null.
    const Reading* reading(std::string_view name) const;
    /// The level of the worst finding; Level::note if there is none.
    Level worst() const;
};

/// What is asked of evaluate() beside the calculations.
struct Asked {
    LengthUnit shown = LengthUnit::mm;   ///< of the lengths in the findings' sentences
    Meter* meter = nullptr;              ///< clearances are measured with it; none without
    Pose pose = clamped_pose;            ///< in which they are measured as the parts stand
    double horizon = clearance_horizon;  ///< pairs farther apart are left out, mm
    bool clearance_fixes = true;         ///< look for changes that make room; takes milliseconds
    Scales* scales = nullptr;  ///< weighs meshes of the user's own; without it they weigh nothing
    BuildCounts builds = {};   ///< drawn at random within the tolerances; about 10 ns each
};

/// As many builds as reports and the window at rest draw: a share of 1 % is then known to 0.04 %.
inline constexpr BuildCounts usual_builds = {250'000, 250'000};

/// Pure: the same setup gives the same evaluation, whatever the meter has measured before. `setup`
/// must be free of conflicts (find_conflict) and in range. All values are in mm.
Evaluation evaluate(const Setup& setup, const Asked& asked = {});

}  // namespace podwright
