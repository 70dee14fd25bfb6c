#pragma once

#include <string>
#include <vector>

#include "core/setup.hpp"
#include "core/stack.hpp"

// How tolerances of single lengths add up. mm.
namespace podwright {

/// One length of a stack-up.
struct Contributor {
    std::string name;        ///< "left seat"
    double sensitivity = 1;  ///< change of the result for each mm of the length
    Tolerance tolerance;
};

/// A result and what it is made from, linear in each length.
struct StackUp {
    std::string title;  ///< "float"
    double nominal = 0;
    std::vector<Contributor> contributors;
};

/// Standard deviation of one length: half/3 normal, half/sqrt 3 uniform, half/sqrt 6 triangular.
double deviation_of(const Tolerance& tolerance);

/// Sum of |sensitivity · half|: no build lies farther from the nominal (normal lengths: hardly
/// any).
double worst_case(const StackUp& stack_up);
/// Root of the sum of squares of the same.
double root_sum_square(const StackUp& stack_up);
/// Standard deviation of the result.
double deviation_of(const StackUp& stack_up);
/// Share of each length in the result's variance; sums to 1 (all zero if nothing strays).
std::vector<double> contributions(const StackUp& stack_up);

struct ShareInterval {
    double low, high;
};
/// Confidence interval of a share seen `hits` times in `trials` (Wilson, J. Am. Stat. Assoc. 22,
/// 1927); z = 1.96 for 95 %.
ShareInterval wilson(double hits, double trials, double z = 1.959963984540054);

/// By blade the float is the blade's gap; by shoulder it is what shoulder, seats, standouts and
/// shims leave.
StackUp float_stack_up(const Setup& setup, const Stack& stack);

/// Float, overall width, shift, ride height and backlash; sensitivities are the slopes of the
/// calculations themselves at this setup. Backlash as the mesh is set by hand.
std::vector<StackUp> stack_ups(const Setup& setup);

}  // namespace podwright
