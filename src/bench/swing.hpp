#pragma once

namespace podwright {

/// Seconds that a played adjuster takes through its range and back.
inline constexpr double swing_seconds = 6.0;

/// 0..1, easing in and out (smoothstep).
double ease(double t);

/// Where a value is `seconds` after its play button was pressed: from `start` up to `high`, down to
/// `low`, and back to `start`, easing at each turn. At the end and after it is exactly `start`.
double swing(double start, double low, double high, double seconds);

}  // namespace podwright
