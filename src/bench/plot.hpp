#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bench/widgets.hpp"

// Plots in a panel, where looking beats reading. Numbers are in the unit that is shown.
namespace podwright {

/// How often a reading fell into equally wide classes between `low` and `high`.
struct HistogramPlot {
    double low = 0, high = 1;
    std::vector<double> counts;
    std::optional<double> least, most;  ///< the window; classes outside it are drawn hollow
    std::string unit;
    int decimals = 2;
};

/// As wide as the panel, `height` units high, with its window as two lines.
void draw_histogram(WindowFrame& frame, const HistogramPlot& plot, float height);

/// A named share of a whole.
struct ShareBar {
    std::string label;
    double share = 0;  ///< 0..1
    std::string value;
};

/// Bars below one another, the longest as wide as there is room.
void draw_bars(WindowFrame& frame, const std::vector<ShareBar>& bars);

}  // namespace podwright
