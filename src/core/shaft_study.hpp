#pragma once

#include <string>
#include <vector>

#include "core/shaft_loads.hpp"
#include "core/turning_mass.hpp"

// What the axle of a setup does under all its load cases, and two axles side by side: DESIGN
// section 4, "Axle". mm, N, rad unless said.
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

/// What one axle does to the car.
struct AxleFigures {
    std::string title;        ///< "steel 6.35/4 mm"
    double mass = 0;          ///< of the axle alone, kg
    double equivalent = 0;    ///< of all that turns, kg
    double push = 0;          ///< at the ground at launch torque, N
    double car_mass = 0;      ///< kg
    double acceleration = 0;  ///< at launch torque with endless grip, m/s²
    double deflection = 0;    ///< largest at a hub, mm
    double windup = 0;        ///< left wheel at launch, rad
    double slope = 0;         ///< largest in a bearing, rad
    double safety = 0;
    double bending_margin = 0;  ///< bending speed over top speed
    bool holds = false;         ///< safety, slope and margin are within the setup's limits
};

AxleFigures axle_figures(const Setup& setup, const Drive& drive, const Stance& stance,
                         const TurningMass& turning, const ShaftStudy& study);

enum class BetterAxle { first, second, depends };

struct AxleComparison {
    AxleFigures first, second;
    double mass_saved = 0;           ///< by the second, kg
    double acceleration_gained = 0;  ///< by the second, as a share
    double bends = 1;                ///< deflection of the second over the first
    double winds = 1;                ///< wind-up of the second over the first
    BetterAxle better{};
    std::string verdict;  ///< which, when and why, in words
};

/// An axle that does not hold loses to one that does. Of two that hold, one that is both quicker
/// and stiffer wins; else it depends, and the verdict says on what.
AxleComparison compare(const AxleFigures& first, const AxleFigures& second);

}  // namespace podwright
