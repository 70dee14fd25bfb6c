#pragma once

#include <string>
#include <vector>

#include "core/drive.hpp"
#include "core/setup.hpp"

// Everything that turns, and the straight-line mass that it is worth.
// kg, mm, kg·mm².
namespace podwright {

struct TurningPart {
    std::string key;        ///< of the part
    double mass = 0;        ///< kg
    double polar = 0;       ///< about the axis that it turns about, kg·mm²
    double transverse = 0;  ///< about a diameter through its centre of mass, kg·mm²
    double y = 0;           ///< of its centre of mass, to the left
};

struct TurningMass {
    std::vector<TurningPart> parts;  ///< that turn with the axle
    double pinion = 0;               ///< polar inertia about the motor's axis
    double rotor = 0;                ///< the same of all that turns in the motor

    double mass = 0;        ///< of the parts on the axle
    double inertia = 0;     ///< about the axle: its parts, and (pinion + rotor) x ratio²
    double equivalent = 0;  ///< inertia / r², kg: the straight-line mass it is worth

    const TurningPart* find(std::string_view key) const;
};

/// Sums up: fills mass, inertia and equivalent from parts, pinion and rotor. `rolling`: mean
/// rolling radius.
void sum_up(TurningMass& turning, double ratio, double rolling);

/// Several parts as one rigid body.
TurningPart together(const std::vector<const TurningPart*>& parts);

}  // namespace podwright
