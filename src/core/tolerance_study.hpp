#pragma once

#include <optional>
#include <vector>

#include "core/monte_carlo.hpp"
#include "core/tolerance.hpp"

namespace podwright {

/// One result with its window, drawn many times.
struct ToleranceStudy {
    StackUp stack_up;
    std::optional<double> low, high;  ///< window, where there is one
    double worst = 0;                 ///< ± worst case
    double root_sum_square = 0;       ///< ±
    std::vector<double> contributions;
    Sample sample;  ///< with a histogram over four standard deviations to either side
    double first_bin = 0, last_bin = 0;
    ShareInterval outside{0, 0};  ///< 95 % confidence interval of the share outside the window
};

/// How many builds are drawn.
struct BuildCounts {
    std::uint64_t of_float = 0;  ///< whose share outside is a reading
    std::uint64_t of_others = 0;
};

/// Float, overall width, shift, ride height, backlash, in the order of stack_ups().
std::vector<ToleranceStudy> study_tolerances(const Setup& setup, const BuildCounts& builds,
                                             std::uint64_t seed = 1, int threads = 1);

}  // namespace podwright
