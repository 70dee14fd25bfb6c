#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/axle_compare.hpp"
#include "core/bearing_life.hpp"
#include "core/iso286.hpp"
#include "core/shaft_study.hpp"
#include "core/temperature.hpp"
#include "core/text.hpp"
#include "core/tolerance_study.hpp"
#include "core/turning_mass.hpp"

namespace podwright {

/// What the axle feels: everything about a setup beyond its geometry.
struct Feel {
    TurningMass turning;
    ShaftStudy shaft;
    BearingStudy bearings;
    Warmth warmth;
    double float_likely = 0;                   ///< root sum square of the float's tolerances, ±
    double float_worst = 0;                    ///< their worst case, ±
    std::optional<IsoFit> axle_fit;            ///< of the axle in the bearing's bore
    std::optional<IsoFit> holder_fit;          ///< of the bearing in the holder
    std::vector<ToleranceStudy> tolerances;    ///< empty unless builds were asked for
    std::optional<AxleComparison> comparison;  ///< of the axle (first) with the setup's other one
};

/// All of it but the tolerances' builds.
Feel feel_of(const Setup& setup, const Stack& stack, const Stance& stance, const Drive& drive,
             TurningMass turning);

/// `feel` with its axle held against the setup's other one, whose car is `other_setup` and whose
/// parts are `other_turning`.
AxleComparison compare_axles(const Setup& setup, const Setup& other_setup, const Stack& stack,
                             const Stance& stance, const Drive& drive, const Feel& feel,
                             const TurningMass& other_turning, LengthUnit shown);

/// What the numbers mean, in sentences: wind-up and a straight launch, where the axle is stressed
/// most, which float to set at the bench. None of a Feel that was not calculated.
std::vector<std::string> feel_sentences(const Setup& setup, const Stack& stack, const Feel& feel,
                                        LengthUnit shown);

}  // namespace podwright
