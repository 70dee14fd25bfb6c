#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bench/widgets.hpp"

// Plots in a panel, where looking beats reading.
namespace podwright {

/// How often a length fell into equally wide classes between `low` and `high`, mm.
struct HistogramPlot {
    double low = 0, high = 1;
    std::vector<double> counts;
    double nominal = 0;
    std::optional<double> least, most;  ///< the window; what lies outside is drawn hollow
};

/// What the histogram's axis spans, mm: all classes, and the window with some room beside it.
struct PlotSpan {
    double low, high;
};
PlotSpan span_of(const HistogramPlot& plot);

/// As wide as the panel, `height` units high: the window as a band between two lines with their
/// values, the nominal as a mark on the axis.
void draw_histogram(WindowFrame& frame, const HistogramPlot& plot, float height);

/// A named share of a whole.
struct ShareBar {
    std::string label;
    double share = 0;  ///< 0..1
};

/// The largest `most` of them, the largest first, and the rest as one. Those of no share are left
/// out.
std::vector<ShareBar> largest_shares(std::vector<ShareBar> bars, std::size_t most);

/// A named number of either sign.
struct SignedBar {
    std::string label;
    double value = 0;
};

/// Bars below one another from a common zero, to the right what is positive, with their values.
void draw_signed_bars(WindowFrame& frame, const std::vector<SignedBar>& bars,
                      const std::string& unit);

/// Bars below one another with their values in per cent, the longest as wide as there is room.
void draw_bars(WindowFrame& frame, const std::vector<ShareBar>& bars);

}  // namespace podwright
