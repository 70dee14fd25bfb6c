#pragma once

#include <numbers>

// Units used everywhere in the calculations: mm, rad, N, N·mm, kg, °C, rev/min. A name carries its
// unit only where it is another one.
namespace podwright {

inline constexpr double pi = std::numbers::pi;
inline constexpr double mm_per_inch = 25.4;
inline constexpr double standard_gravity = 9.80665;  ///< m/s²
inline constexpr double rad_per_degree = pi / 180.0;

constexpr double radians(double degrees) { return degrees * rad_per_degree; }
constexpr double degrees(double radians) { return radians / rad_per_degree; }

/// Module (mm) of a gear of diametral pitch `pitch` (teeth per inch of pitch diameter): m = 25.4 /
/// P.
constexpr double module_from_diametral_pitch(double pitch) { return mm_per_inch / pitch; }

}  // namespace podwright
