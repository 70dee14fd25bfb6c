#include "bench/swing.hpp"

#include <algorithm>

namespace podwright {

double ease(double t) {
    t = std::clamp(t, 0.0, 1.0);
    return t * t * (3 - 2 * t);
}

double swing(double start, double low, double high, double seconds) {
    const double t = seconds / swing_seconds;
    if (t <= 0 || t >= 1) return start;
    if (t < 0.25) return start + (high - start) * ease(t / 0.25);
    if (t < 0.75) return high + (low - high) * ease((t - 0.25) / 0.5);
    return low + (start - low) * ease((t - 0.75) / 0.25);
}

}  // namespace podwright
