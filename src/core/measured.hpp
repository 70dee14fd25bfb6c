#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/finding.hpp"
#include "core/reading.hpp"
#include "core/setup.hpp"
#include "core/text.hpp"

// What was measured on the car, held against what is calculated.
namespace podwright {

/// What can be measured but is no reading: the shims of a side, taken out and measured together.
inline constexpr std::string_view left_shims_together = "left.shims";
inline constexpr std::string_view right_shims_together = "right.shims";

/// A value of `setup` that can be measured, under its name.
struct Predicted {
    std::string label;  ///< "overall width"
    std::string unit;
    double value = 0;
};

/// The reading of that name, or a side's shims together; nothing for another name. `readings` are
/// those of the setup.
std::optional<Predicted> predicted(const Setup& setup, std::span<const Reading> readings,
                                   std::string_view name);

/// A measured reading beside the predicted one.
struct Comparison {
    Measured measured;
    double predicted = 0;
    std::string label;
    std::string unit;
    double uncertainty = 0;  ///< combined standard uncertainty of gauge and build
    double off = 0;          ///< (measured - predicted) / uncertainty
    bool disagrees = false;  ///< farther off than disagreement
};

/// So many standard uncertainties apart, a reading disagrees (95 % for a normal distribution would
/// be 1.96; readings are several, so a little more).
inline constexpr double disagreement = 2.5;

/// Standard uncertainty of a build made with care, beside the gauge's: of a length along the axle,
/// of a height, both in mm (common practice, no source).
inline constexpr double build_uncertainty = 0.01;

/// Standard uncertainty of gauge and build together (JCGM 100:2008, 5.1.2: independent
/// contributions add as squares).
double combined_uncertainty(double gauge, std::string_view unit);

/// Each measured value of the setup that is predicted, in its order.
std::vector<Comparison> comparisons(const Setup& setup, std::span<const Reading> readings);

/// "171.95 mm measured, 171.65 mm calculated, ±0.05 mm: 0.30 mm too much"
std::string sentence(const Comparison& comparison, LengthUnit shown);

/// `measured.disagrees` where anything does.
void find_measured(const Setup& setup, std::span<const Reading> readings, LengthUnit shown,
                   std::vector<Finding>& out);

}  // namespace podwright
