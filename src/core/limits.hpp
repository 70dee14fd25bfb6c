#pragma once

#include <optional>

#include "core/drive.hpp"
#include "core/reading.hpp"
#include "core/setup.hpp"

// What the numbers are held against. Reading status and findings both ask here, so that they agree.
namespace podwright {

/// A length on its limit passes; sums of doubles may miss it by this much, mm.
inline constexpr double length_tolerance = 1e-9;

/// Contact ratio below which the teeth take over too late (common practice, no source), and below
/// which the drive is not continuous at all.
inline constexpr double contact_ratio_low = 1.2;
inline constexpr double contact_ratio_least = 1.0;

/// How well hands can set a float or a mesh, mm (common practice, no source): in the heat or the
/// cold a miss by less is none.
inline constexpr double warm_setting = 0.005;

inline bool below(double value, double limit) { return value < limit - length_tolerance; }
inline bool above(double value, double limit) { return value > limit + length_tolerance; }

/// A limit that is written as 0 is none.
inline std::optional<double> unless_zero(double limit) {
    return limit > 0 ? std::optional<double>(limit) : std::nullopt;
}

Status float_status(const Setup& setup, double axial_float);
/// In the heat or the cold.
Status warm_float_status(const Setup& setup, double axial_float);
Status width_status(const Setup& setup, double overall_width);
Status shift_status(const Setup& setup, double shift);
Status ride_status(const Setup& setup, double ride);
Status roll_status(const Setup& setup, double roll);
Status backlash_status(const Setup& setup, double backlash);
/// Of gears that stand where they happen to stand: a stop where they jam or drive by fits.
Status unset_mesh_status(const Setup& setup, const PairState& mesh);
/// In the heat or the cold.
Status warm_backlash_status(const Setup& setup, double backlash);
/// Of an axle that leans against the motor: backlash is left at either edge of the teeth.
Status mesh_tilt_status(const Setup& setup, const Drive& drive);
Status contact_ratio_status(double ratio);
Status rollout_status(const Setup& setup, double rollout);
/// Below 1 the axle yields or breaks.
Status safety_status(const Setup& setup, double safety);
/// Speeds in rev/min.
Status bending_status(const Setup& setup, double bending_speed, double top_speed);
Status life_status(const Setup& setup, double hours);
Status static_status(const Setup& setup, double safety);
Status misalignment_status(const Setup& setup, double slope);
/// Of builds outside the float's window.
Status share_status(const Setup& setup, double share);

}  // namespace podwright
