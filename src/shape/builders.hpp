#pragma once

#include <string_view>
#include <vector>

#include "core/drive.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"
#include "shape/part.hpp"

// What the build_*.cpp files share. A part of one side has its frame on its axis with x outboard
// and z up, so that y is backward on the left and forward on the right.
namespace podwright {

/// From where to where a part reaches along its axis, u on its own side; for the exploded view.
struct Extent {
    std::size_t part;  ///< index into Assembly::parts
    double low, high;
};

/// Sizes that more than one part needs. Lengths in mm, radii unless said.
struct Proportions {
    double plate_outer;      ///< u of the plates' outer faces
    double ball_circle;      ///< radius of the balls' centres
    double inner_shoulder;   ///< outside of the inner ring
    double outer_shoulder;   ///< inside of the outer ring
    double bearing_inboard;  ///< of the bearing's inboard face from the seat, outboard (< 0)
    double shim;             ///< outside of shims and thrust bosses
    MotorShape motor;        ///< its boss and screws
    double pinion_face;      ///< width of the pinion's teeth
};

/// Sizes of the wheel and of what it bolts to, one side.
struct WheelProportions {
    double hub;     ///< barrel of hub or carrier
    double flange;  ///< of the face on which the wheel mounts
    double spigot;  ///< that centres the wheel
    double bolt_circle;
    double screw_scale;  ///< against a screw of 3 mm
    double rim_inside;   ///< of the rim's barrel
    double web;          ///< thickness of the wheel's web
};

struct Build {
    const Setup& setup;
    const Stack& stack;
    const Stance& stance;
    const Drive& drive;
    Proportions sizes;
    Assembly& out;
    std::vector<Extent> left, right, motor;  ///< the order in which parts come apart, inside first

    std::vector<Extent>& order(Side side) { return side == Side::left ? left : right; }
};

Proportions proportions(const Setup& setup);
WheelProportions wheel_proportions(const Setup& setup, Side which);

/// Frame on the axle's axis at `u` on `side`.
glm::dmat4 axle_frame(const Build& build, Side side, double u);
/// Frame square to the pod at `u` on `side`, its axis at (x forward, z up).
glm::dmat4 pod_frame(Side side, double u, double x, double z);

glm::dmat4 shift(double x, double y = 0, double z = 0);
glm::dmat4 turn_about_x(double angle);
/// Points x at the angle `angle` from y towards z, `radius` out from the axis, at `x`.
glm::dmat4 radial_frame(double x, double radius, double angle);
glm::dmat4 scaled(double factor);

/// "left.hub": short enough to need no memory of its own.
std::string side_key(Side side, std::string_view name);
/// "left hub".
std::string side_title(Side side, std::string_view name);
/// With up to two decimals, without trailing zeros.
std::string short_number(double value);

/// How a part of that material looks; aluminium and plastic come in more than one way.
Look look_of(Material material, Look aluminium, Look plastic);

/// Adds a part and gives it back for its bodies.
Part& add_part(Build& build, std::string key, std::string title, Moves moves,
               const glm::dmat4& place);

// Each adds its parts and their extents.
void add_pod(Build& build);
void add_holder(Build& build, Side which);
void add_bearing(Build& build, Side which);
void add_shims(Build& build, Side which);
void add_blade(Build& build);
void add_axle(Build& build);
void add_hub(Build& build);
void add_carrier(Build& build);
void add_wheel(Build& build, Side which);
void add_spur(Build& build);
void add_motor(Build& build);
void add_pinion(Build& build);

/// Puts the user's own meshes in place of the bodies of the parts for which they stand.
void put_own_parts(Build& build);

/// Sets Part::explode from the extents.
void spread_parts(Build& build);

}  // namespace podwright
