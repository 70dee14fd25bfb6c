#include "choose/wear.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace podwright {

Line fit_line(std::span<const double> x, std::span<const double> y) {
    const auto n = static_cast<double>(x.size());
    const double mean_x = std::accumulate(x.begin(), x.end(), 0.0) / n;
    const double mean_y = std::accumulate(y.begin(), y.end(), 0.0) / n;
    double xx = 0;
    double xy = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        xx += (x[i] - mean_x) * (x[i] - mean_x);
        xy += (x[i] - mean_x) * (y[i] - mean_y);
    }
    Line line;
    line.slope = xy / xx;
    line.intercept = mean_y - line.slope * mean_x;
    double squares = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        // From the means, so that large intercepts do not eat the digits.
        const double residual = (y[i] - mean_y) - line.slope * (x[i] - mean_x);
        squares += residual * residual;
    }
    if (x.size() > 2) line.residual_deviation = std::sqrt(squares / (n - 2));
    line.slope_deviation = line.residual_deviation / std::sqrt(xx);
    line.intercept_deviation = line.residual_deviation * std::sqrt(1 / n + mean_x * mean_x / xx);
    return line;
}

Wear wear_of(const Setup& setup, Side side) {
    const bool left = side == Side::left;
    const RaceDay& day = setup.choosing.day;
    const auto& given = left ? day.wear_left : day.wear_right;
    const std::vector<double>& measured = left ? day.left : day.right;
    Wear wear;
    wear.start = measured.empty() ? setup.side(side).tyre.diameter : measured.front();
    wear.per_run = given.value_or(0);
    wear.stated = given || measured.size() >= 2;
    if (given || measured.size() < 2) return wear;
    std::vector<double> runs(measured.size());
    std::iota(runs.begin(), runs.end(), 0.0);
    const Line line = fit_line(runs, measured);
    wear.growing = line.slope > -1e-9;
    wear.start = wear.growing ? std::accumulate(measured.begin(), measured.end(), 0.0) /
                                    static_cast<double>(measured.size())
                              : line.intercept;
    wear.per_run = wear.growing ? 0 : -line.slope;
    wear.deviation = line.slope_deviation;
    wear.fitted = true;
    return wear;
}

}  // namespace podwright
