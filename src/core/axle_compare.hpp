#pragma once

#include <array>
#include <string>
#include <string_view>

#include "core/shaft_study.hpp"
#include "core/text.hpp"

// Two axles side by side in the same car.
namespace podwright {

/// What one axle does to the car.
struct AxleFigures {
    std::string name;         ///< "today's axle"
    std::string title;        ///< "steel 4130, 6.35 mm, waist 6.00 mm, bore 4.00 mm"
    double mass = 0;          ///< of the axle alone, kg
    double equivalent = 0;    ///< straight-line mass that all that turns is worth, kg
    double push = 0;          ///< at the ground at launch torque, N
    double car_mass = 0;      ///< kg
    double acceleration = 0;  ///< at launch torque with endless grip, m/s²
    double deflection = 0;    ///< largest at a hub, mm
    double windup = 0;        ///< larger of left and right wheel at launch, rad
    double slope = 0;         ///< largest in a bearing, rad
    double safety = 0;
    double bending_margin = 0;  ///< bending speed over top speed
    bool holds = false;         ///< safety, slope and margin are within the setup's limits
};

/// `car_mass` is the mass of the car with this axle in it, kg.
AxleFigures axle_figures(const Setup& setup, const Drive& drive, const Stance& stance,
                         const TurningMass& turning, const ShaftStudy& study, double car_mass);

/// Material and diameters in words.
std::string axle_title(const Axle& axle, LengthUnit shown);

enum class BetterAxle { first, second, depends, alike };

struct AxleComparison {
    AxleFigures first, second;
    double mass_saved = 0;           ///< by the second, kg
    double acceleration_gained = 0;  ///< by the second, as a share
    double bends = 1;                ///< deflection of the second over the first
    double winds = 1;                ///< wind-up of the second over the first
    BetterAxle better{};
    std::string verdict;  ///< which, when and why, in words
};

/// An axle that does not hold loses to one that does. Of two that hold, one that is neither heavier
/// nor softer wins; else it depends, and the verdict says on what. Differences too small to be
/// shown count as none.
AxleComparison compare(const AxleFigures& first, const AxleFigures& second);

/// One figure of both axles, in the unit in which it is shown.
struct ComparedFigure {
    std::string_view name;   ///< "windup"
    std::string_view label;  ///< "wind-up at launch"
    std::string_view unit;   ///< as in readings
    int decimals;
    double first, second;
    BetterAxle better;  ///< by this figure; alike where they are shown alike
};

/// Mass, acceleration, stiffness, safety, in the order in which they are read.
std::array<ComparedFigure, 8> compared_figures(const AxleComparison& comparison);

/// `value` as the figure is shown: "16.4 g", "0.031 mm", "12.3°".
std::string shown_figure(const ComparedFigure& figure, double value, LengthUnit shown);

}  // namespace podwright
