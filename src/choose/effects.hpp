#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/parameters.hpp"
#include "core/reading.hpp"
#include "core/setup.hpp"
#include "core/text.hpp"

// What one more of each adjuster does to each reading.
namespace podwright {

/// What one step of an adjuster changes of one reading.
struct Effect {
    std::string reading;
    std::string label;
    std::string unit;
    double change = 0;
};

/// One adjuster, moved by one step.
struct Adjuster {
    std::string key;              ///< "left.inset", "both.shims", "left.holder", "gears.pinion"
    std::string text;             ///< "left inset +0.25 mm", "both: a 0.10 mm shim more"
    std::vector<Change> changes;  ///< that do it
    std::vector<Effect> effects;  ///< of every reading that it moves, in the order of readings
    /// The change of that reading; 0 where it stays.
    double on(std::string_view reading) const;
};

/// Every adjuster that moves a reading of `setup`: shims, holders, insets, tyres, blade, gears and
/// what else there is on the car, the sides each alone and both together. The motor stays clamped
/// where it is, but for what sets_mesh_again(): `mesh.backlash_unset` tells what a holder does
/// to the mesh before it is set again. A step that no car could have is left out.
std::vector<Adjuster> adjusters_of(const Setup& setup, LengthUnit shown = LengthUnit::mm);

/// Whether the mesh is set again with this key of a scene: gears of other teeth need it, and the
/// wanted backlash is what it is set to.
bool sets_mesh_again(const std::string& key);

/// The same for people, without a full stop.
inline constexpr const char* motor_in_effects =
    "the motor stays where it is clamped, but with other gears or another wanted backlash the mesh "
    "is set again";

/// The readings that a person asks for first, for a table: name and short title.
struct EffectColumn {
    const char* reading;
    const char* title;
};
const std::vector<EffectColumn>& effect_columns();

/// A change as shown: "+0.30", "-0.0118 in" without the unit, with as many decimals as its reading
/// is shown with; empty where nothing of it would be seen.
std::string shown_effect(double change, std::string_view unit, LengthUnit shown);

/// `setup` with the motor clamped where it stands.
Setup clamped(Setup setup);

}  // namespace podwright
