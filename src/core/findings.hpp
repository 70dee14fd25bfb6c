#pragma once

#include <vector>

#include "core/drive.hpp"
#include "core/finding.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"
#include "core/text.hpp"

namespace podwright {

struct Feel;

/// Everything that findings are made from.
struct FindingInput {
    const Setup& setup;
    const Stack& stack;
    const Stance& stance;
    const Drive& drive;
    LengthUnit shown = LengthUnit::mm;
    const Feel* feel = nullptr;  ///< nothing is said about it without
};

/// What there is to say about the setup, the worst first.
std::vector<Finding> findings_of(const FindingInput& input);

/// The finders that findings_of collects, one for each subject. Each appends to `out`.
void find_float_and_width(const FindingInput& input, std::vector<Finding>& out);
void find_stance(const FindingInput& input, std::vector<Finding>& out);
void find_gears(const FindingInput& input, std::vector<Finding>& out);
void find_shaft(const FindingInput& input, std::vector<Finding>& out);
void find_bearings(const FindingInput& input, std::vector<Finding>& out);
void find_day(const FindingInput& input, std::vector<Finding>& out);
void find_scatter(const FindingInput& input, std::vector<Finding>& out);

/// The usual blade inside `low` to `high` that is nearest to the middle; 0 if there is none.
double best_blade(double low, double high);

}  // namespace podwright
