#pragma once

#include <span>

#include "core/setup.hpp"

// How fast the tyres wear: given, or a straight line through what was measured.
namespace podwright {

/// y = intercept + slope x by least squares.
struct Line {
    double slope = 0;
    double intercept = 0;
    double slope_deviation = 0;  ///< standard deviations of the two
    double intercept_deviation = 0;
    double residual_deviation = 0;  ///< of y about the line, n - 2 degrees of freedom; 0 for n = 2
};

/// The least-squares line through at least two points with different x.
Line fit_line(std::span<const double> x, std::span<const double> y);

/// Diameter of one tyre over the day.
struct Wear {
    double start = 0;      ///< before run 1, mm
    double per_run = 0;    ///< lost each run, mm
    double deviation = 0;  ///< of per_run, where it was fitted to more than two diameters
    bool fitted = false;
    bool stated = false;   ///< given or measured; if not, none is counted with
    bool growing = false;  ///< what was measured does not shrink: none is counted with
    double before(int run) const { return start - per_run * (run - 1); }  ///< run counts from 1
};

/// As `setup.choosing.day` says: the given wear from the setup's diameter on; without one, the line
/// through the measured diameters; with fewer than two of them, none. Where they do not shrink,
/// none either, and the mean of them throughout.
Wear wear_of(const Setup& setup, Side side);

}  // namespace podwright
