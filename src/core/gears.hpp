#pragma once

#include "core/setup.hpp"

// The involute pair: spur gears with parallel axes, external mesh.
// Angles in rad, lengths in mm.
namespace podwright {

/// One gear, standard full-height teeth unless shifted or thinned.
struct Gear {
    int teeth = 20;
    double module = 0.5;
    double pressure_angle = radians(20);  ///< a
    double dedendum = 1.25 * 0.5;         ///< pitch circle to root circle, mm
    double addendum = 0.5;                ///< pitch circle to tip, mm, before profile shift
    double shift = 0;                     ///< profile shift coefficient x
    double thinning = 0;                  ///< tooth thinner than standard on the pitch circle, mm
    bool operator==(const Gear&) const = default;
};

/// Gear with standard addendum m and the given depth below the pitch circle.
Gear standard_gear(int teeth, double module, double pressure_angle, Dedendum depth,
                   double thinning = 0);

struct GearDiameters {
    double pitch;    ///< m z
    double outside;  ///< d + 2 (ha + x m)
    double root;     ///< d - 2 (hf - x m)
    double base;     ///< d cos a
};
GearDiameters diameters(const Gear& gear);

/// inv a = tan a - a.
double involute(double angle);
/// The angle in [0, pi/2) whose involute is `value` >= 0.
double inverse_involute(double value);

/// Arc thickness of a tooth on the circle of `diameter` >= base diameter.
double tooth_thickness(const Gear& gear, double diameter);

/// Fewest teeth cut without undercut, z = 2 (1 - x) / sin² a, as a real number (Dudley; 17.097 at
/// 20°).
double undercut_limit(double pressure_angle, double shift = 0);
bool is_undercut(const Gear& gear);

/// Lewis form factor of 20° full-depth teeth, linear between the rows of Shigley's table 14-2.
/// Below 12 teeth the row of 12 is returned: the table ends there.
double lewis_form_factor(int teeth);
/// Lewis bending stress Wt / (b m Y), N/mm².
double lewis_stress(double tangential_force, double face_width, double module, int teeth);

/// How two gears run at a centre distance.
struct PairState {
    double standard_distance;  ///< C0
    double distance;           ///< C
    double pressure_angle;     ///< working: cos a_w = C0 cos a / C
    double backlash;           ///< on the working pitch circle; < 0: the teeth jam
    double contact_ratio;      ///< < 1: the drive is not continuous; 0 where the teeth jam
};

/// The pair at centre distance `distance`. Below C0 cos a, where no involute contact exists, the
/// working pressure angle is 0.
PairState pair_at(const Gear& pinion, const Gear& spur, double distance);

/// The centre distance at which the pair has this backlash (ISO 21771 relation, solved to 1e-12).
double distance_for_backlash(const Gear& pinion, const Gear& spur, double backlash);

}  // namespace podwright
