#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/measured.hpp"
#include "core/reading.hpp"
#include "core/setup.hpp"
#include "core/text.hpp"

// Why what was measured differs from what was calculated.
namespace podwright {

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
    std::string text;                ///< "left: a 0.20 mm shim is missing"
    Setup setup;                     ///< the car with the mistake made, so that it can be shown
    std::optional<Side> side;        ///< where; nothing if it is of no side
    std::vector<std::string> parts;  ///< keys of the parts concerned
    double chi_square = 0;           ///< sum of squares of what is still off
    double likelihood = 0;           ///< share among all suspects and no mistake, 0 to 1
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
    bool explained = false;          ///< the best of them leaves no more off than chance would
    std::size_t equal = 0;           ///< so many of the first explain it equally well
    std::optional<Further> further;  ///< where equal > 1 and something would tell them apart
};

/// Every single mistake is tried; each kind is as likely beforehand as any other, and so is each
/// within its kind. Of a bearing off its seat the likeliest distance stands for all of them. Those
/// that leave the same readings off by the same explain it equally.
Diagnosis diagnose(const Setup& setup, LengthUnit shown = LengthUnit::mm);

/// The setups of all single mistakes, `chi_square` and `likelihood` not yet known; a bearing stands
/// off its seat by every twentieth of a millimetre.
std::vector<Suspect> single_mistakes(const Setup& setup, LengthUnit shown);

}  // namespace podwright
