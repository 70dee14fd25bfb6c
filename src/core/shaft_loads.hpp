#pragma once

#include <array>
#include <string_view>

#include "core/drive.hpp"
#include "core/setup.hpp"
#include "core/shaft.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"

// The axle of a setup as a shaft, and what loads it: at rest, in corners, at launch, on a kerb.
// y to the left, x forward, z up; N, N·mm.
namespace podwright {

/// Where things stand on the axle, y.
struct ShaftPlaces {
    double hub_left, hub_right;      ///< mounting faces: the wheels' loads enter here
    double wheel_left, wheel_right;  ///< wheels' centre planes
    double bearing_left, bearing_right;
    double gear;
};

ShaftPlaces shaft_places(const Setup& setup, const Stack& stack, const Drive& drive);

/// E, G and strength of the setup's axle: its own values, else those of its material.
ShaftMaterial axle_material(const Axle& axle);

/// Where the axle ends and where its waist lies between the cones that lead to it; y to the left,
/// mm.
struct AxleReach {
    double low, high;              ///< right and left end
    double waist_low, waist_high;  ///< outer feet of the cones
};
AxleReach axle_reach(const Setup& setup, const Stack& stack);

/// The axle as shaft_places and the shape layer see it; the short cones at its waist are steps in
/// their middle. Hubs and inner rings do not stiffen it.
Shaft axle_shaft(const Setup& setup, const Stack& stack);

/// What the ground does to one wheel.
struct WheelLoad {
    double vertical = 0;  ///< up
    double lateral = 0;   ///< to the left
    double drive = 0;     ///< forward
};

enum class LoadCase { rest, corner_left, corner_right, launch, kerb_left, kerb_right };
inline constexpr std::array<LoadCase, 6> all_load_cases = {
    LoadCase::rest,   LoadCase::corner_left, LoadCase::corner_right,
    LoadCase::launch, LoadCase::kerb_left,   LoadCase::kerb_right};
/// "at rest", "in a left turn", "at launch", "on a kerb, left (rule of thumb)".
std::string_view title(LoadCase);

struct CaseLoads {
    LoadCase which{};
    WheelLoad left, right;
    double gear_torque = 0;  ///< about the axle, > 0 drives forward
    double thrust = 0;       ///< sum of the lateral forces, > 0 pushes the axle to the left
    double transfer = 0;     ///< vertical load that moved to the outer wheel
};

/// Load moved from the inner to the outer wheel of an axle that carries `mass` (kg), rigid:
/// m a h / t (Gillespie, Fundamentals of Vehicle Dynamics, from memory). `lateral` in g.
double load_transfer(double mass, double lateral, double cg_height, double track);

/// The wheels' loads and the gear's torque in a case. In a corner an inner wheel lifts rather than
/// pulls; the lateral force is shared as the vertical one. Launch: the motor's torque, half to each
/// wheel. Kerb: the case's factor times the wheel's load, up and back at 45 degrees, on one wheel.
CaseLoads case_loads(LoadCase which, const Setup& setup, const Stack& stack, const Stance& stance,
                     const Drive& drive);

/// The same as loads on the shaft: each wheel is a rigid body on its mounting face, its lateral
/// force acts at the contact patch, a rolling radius below the axle. Gear: tangential force from
/// the torque on the working pitch circle, radial one through the working pressure angle.
std::vector<ShaftLoad> shaft_loads(const CaseLoads& loads, const ShaftPlaces& at,
                                   const Setup& setup, const Stance& stance, const Drive& drive);

}  // namespace podwright
