#pragma once

#include <string>

#include "bench/loupe.hpp"
#include "bench/stage.hpp"

// Where pinion and spur mesh: what is said of it, and the loupe on it.
namespace podwright {

/// The pitch point in the middle of the faces, pod axes: where the motor is clamped.
glm::dvec3 pitch_point(const Evaluation& evaluation);

struct BacklashWords {
    std::string text, number;  ///< in full, and the value alone
    Status status = Status::none;
};
/// Of the gears as they are drawn.
BacklashWords backlash_words(const Evaluation& evaluation, LengthUnit shown);

/// Along the axle from the right, at the teeth.
LoupeView loupe_on_mesh(const Evaluation& evaluation, LengthUnit shown);
/// Without what hides the teeth from there.
StageLook look_of_mesh(const Pose& pose);

}  // namespace podwright
