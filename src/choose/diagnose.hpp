#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/reading.hpp"
#include "core/setup.hpp"
#include "core/text.hpp"

// Why what was measured differs from what was calculated.
namespace podwright {

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

/// Each measured reading that the program predicts.
std::vector<Comparison> comparisons(const Setup& setup);

enum class Mistake {
    shim_missing,
    shim_doubled,
    shim_swapped,  ///< of the next size, up or down
    other_blade,
    holder_turned,    ///< fitted the other way up
    holder_step,      ///< one step off
    wheels_swapped,   ///< left for right
    bearing_unseated  ///< stands out of its seat
};

/// A single mistake that would explain what was measured.
struct Suspect {
    Mistake mistake = Mistake::shim_missing;
    std::string text;       ///< "left: a 0.20 mm shim is missing"
    Setup setup;            ///< the car with the mistake made, so that it can be shown
    double chi_square = 0;  ///< sum of squares of what is still off
    double likelihood = 0;  ///< share among all suspects and no mistake, 0 to 1
};

/// A measurement that would tell suspects apart.
struct Further {
    std::string reading;
    std::string label;
    struct Expected {
        std::size_t suspect;
        double value;
    };
    std::vector<Expected> expected;  ///< of each of the suspects that explain it equally
    double uncertainty = 0;          ///< with which it must be measured at most
};

struct Diagnosis {
    std::vector<Comparison> compared;
    bool disagrees = false;
    double no_mistake = 1;           ///< likelihood that nothing is wrong
    std::vector<Suspect> suspects;   ///< the likeliest first; empty where nothing disagrees
    std::size_t equal = 0;           ///< so many of the first explain it equally well
    std::optional<Further> further;  ///< where equal > 1 and something would tell them apart
};

/// Every single mistake is tried; each is as likely beforehand as any other of its kind. Those that
/// leave the same readings off by the same explain it equally.
Diagnosis diagnose(const Setup& setup, LengthUnit shown = LengthUnit::mm);

/// The setups of all single mistakes, `chi_square` and `likelihood` not yet known.
std::vector<Suspect> single_mistakes(const Setup& setup, LengthUnit shown);

}  // namespace podwright
