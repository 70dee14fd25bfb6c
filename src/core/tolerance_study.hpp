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

/// Float, overall width, shift, ride height, backlash, in the order of stack_ups().
std::vector<ToleranceStudy> study_tolerances(const Setup& setup, std::uint64_t builds,
                                             std::uint64_t seed = 1, int threads = 1);

}  // namespace podwright
