#pragma once

#include <array>

#include "core/setup.hpp"
#include "core/shaft_study.hpp"

// What the two ball bearings feel. N, mm, rad, h.
namespace podwright {

/// Basic rating life in 10^6 revolutions, (C/P)^p (ISO 281): p = 3 for balls, 10/3 for rollers.
double rating_life(double rating, double load, double exponent = 3);
/// The same in hours at `speed` rev/min.
double life_hours(double life, double speed);
/// Static equivalent load of a deep-groove bearing, max(0.6 Fr + 0.5 Fa, Fr) (ISO 76).
double static_load(double radial, double axial);

struct Interval {
    double low, high;
};
/// Radial internal clearance, mm, of a deep-groove bearing with this bore (ISO 5753-1, bores over
/// 2.5 up to 30 mm; smaller ones are taken as 2.5 to 6).
Interval radial_clearance(double bore, RadialClearance group);

/// Axial play Ga = sqrt(4 A Gr - Gr²) from the radial clearance Gr (diametral), with A = (2 f - 1)
/// Dw between the grooves' centres (Harris, Rolling Bearing Analysis, chapter 2, from memory).
double axial_play(double radial_clearance, double ball_diameter, double conformity);

/// Dynamic equivalent load of a deep-groove bearing, ISO 281 table 3 (from memory): Fr alone while
/// Fa/Fr <= e, else 0.56 Fr + Y Fa, with e and Y from f0 Fa / C0, interpolated; f0 is taken back
/// from C0 = f0 Z Dw².
double dynamic_load(double radial, double axial, const Bearing& bearing);

/// Load over deflection^1.5 of a ball between two grooves, N/mm^1.5, steel; Hertz with the
/// approximations of Brewe and Hamrock (1977).
double ball_stiffness(const Bearing& bearing);

/// How far an axial load moves the inner ring from the middle of its play, mm; `clearance` is
/// diametral (Harris, axially loaded bearing with a contact angle that grows).
double axial_give(const Bearing& bearing, double clearance, double axial_load);

/// What clamping does when the float is negative: the overlap is taken up by the axial play of both
/// bearings (half on each side, measured with the rings in the middle), then by springs in series:
/// the balls of two bearings, the axle between its hubs, the pod plates.
struct Preload {
    double overlap = 0;  ///< how much is missing, mm, >= 0
    double play = 0;     ///< of it, what the bearings' play takes up
    double force = 0;    ///< N, in each bearing
};
Preload preload_of(const Setup& setup, double axial_float, double axle_stiffness);

/// Friction torque of one bearing, N·mm: 0.5 mu P d with mu = 0.0015 (a bearing maker's estimate
/// for deep-groove bearings, from memory; seals and grease are left out).
double bearing_drag(double equivalent_load, double bore);

struct BearingCase {
    double radial_left = 0, radial_right = 0;
    double axial_left = 0, axial_right = 0;
};

struct BearingStudy {
    std::array<BearingCase, all_load_cases.size()> cases;
    double load_left = 0, load_right = 0;  ///< greatest radial load of any case
    LoadCase load_case_left{}, load_case_right{};
    double life = 0;           ///< h, of the worse bearing, cornering at the axle's top speed
    double static_safety = 0;  ///< C0/P0, least of all cases
    LoadCase static_case{};
    double misalignment = 0;  ///< greatest slope of the axle in a bearing, rad
    Side misaligned{};
    double play_low = 0, play_high = 0;  ///< axial play of one bearing, from its clearance group
    double drag = 0;                     ///< both bearings at rest, preload included, N·mm
    double drag_preload = 0;             ///< the part of it that a negative float adds
    Preload preload;
};

/// `axial_float` F as it is set, < 0 binds.
BearingStudy study_bearings(const Setup& setup, const Stack& stack, const ShaftStudy& shaft,
                            double axial_float);

/// Stiffness of the axle in tension between its hubs' clamps (E A / L), N/mm.
double axial_stiffness(const Setup& setup, const Stack& stack);

}  // namespace podwright
