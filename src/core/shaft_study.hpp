#pragma once

#include <string>
#include <vector>

#include "core/shaft_loads.hpp"
#include "core/turning_mass.hpp"

// What the axle of a setup does under all its load cases, and two axles side by side. mm, N, rad
// unless said.
namespace podwright {

/// Largest over all cases, at one place of the axle.
struct ShaftExtreme {
    double deflection = 0;  ///< of the axle's axis
    double slope = 0;
    LoadCase deflection_case{}, slope_case{};
};

struct SolvedCase {
    CaseLoads loads;
    ShaftState state;
};

struct ShaftStudy {
    ShaftPlaces places{};
    std::vector<SolvedCase> cases;  ///< in the order of all_load_cases
    ShaftExtreme hub_left, hub_right, gear;
    ShaftExtreme bearing_left, bearing_right;  ///< without the kerbs: a blow passes in a moment

    ShaftStress worst;  ///< least safety over all cases
    LoadCase worst_case{};
    std::string worst_place;  ///< "left bearing", "edge of the waist"

    double windup_left = 0;  ///< twist from the spur to the wheel at launch, rad, >= 0
    double windup_right = 0;
    double windup_lead = 0;  ///< the right tread is ahead of the left by this, mm
    double windup_yaw = 0;   ///< what that turns the car by, rad, > 0: to the left

    double bending_frequency = 0;  ///< lowest, 1/s (Hz), wheels free in the air
    double bending_speed = 0;      ///< the same as axle speed, rev/min
    double top_speed = 0;          ///< of the axle at the motor's speed, rev/min
    double torsion_low = 0;        ///< lowest torsional frequencies of wheels and rotor, Hz
    double torsion_high = 0;
    double transfer = 0;  ///< load that moves to the outer wheel in the corner, N

    const SolvedCase& solved(LoadCase which) const {
        return cases[static_cast<std::size_t>(which)];
    }
};

/// The model behind it, for curves: the axle cut at all places that carry a load.
ShaftModel shaft_model(const Setup& setup, const Stack& stack, const Drive& drive);

ShaftStudy study_shaft(const Setup& setup, const Stack& stack, const Stance& stance,
                       const Drive& drive, const TurningMass& turning);

/// Curves along the axle in one case, for plots and ribbons.
struct ShaftCurves {
    std::vector<double> y;
    std::vector<double> x, z;                ///< deflection
    std::vector<double> moment_x, moment_z;  ///< N·mm
    std::vector<double> torque;              ///< N·mm
    std::vector<double> twist;               ///< against the spur, rad
};
/// At `count` >= 2 places evenly from end to end.
ShaftCurves shaft_curves(const ShaftModel& model, const SolvedCase& solved,
                         const ShaftPlaces& places, int count);

}  // namespace podwright
