#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/choosing.hpp"
#include "core/look.hpp"
#include "core/material.hpp"
#include "core/units.hpp"

// One complete description of the rear end: the car's parts and how they are put together.
// A plain value; everything that Podwright says follows from it. Lengths in mm, angles in rad,
// N, N·mm, rev/min. Defaults are the first demo's; ranges and help stand in parameters_*.cpp.
namespace podwright {

enum class Side { left, right };
inline constexpr Side both_sides[] = {Side::left, Side::right};

/// Which way up a holder is fitted: up raises the axle in the pod, down lowers it.
enum class Way { up, down };

/// How the float is set: a blade in the gap while the hub is clamped, or a shoulder on the axle.
enum class FloatBy { blade, shoulder };

/// How deep the tooth gaps are below the pitch circle.
enum class Dedendum {
    fine_pitch,  ///< 1.2/P + 0.002 in
    full_depth,  ///< 1.25 m
    deep         ///< 1.4 m, the usual fine-module metric cutter
};

struct Tyre {
    double diameter = 43.0;
    double width = 41.0;
    double worn_diameter = 40.0;  ///< below this the tyre is done
    double stiffness = 0.0;       ///< radial, N/mm; 0 = does not sag
    double load = 4.0;            ///< on this wheel, N
    double density = 0.2;         ///< of the foam, g/cm³ (common practice, no source)
};

/// Everything of one side of the axle. `u` is measured outboard from the mid-plane.
struct AxleSide {
    double seat = 31.0;     ///< u of the holder face against which the bearing sits
    double standout = 0.9;  ///< inner ring beyond the seat, outboard
    std::vector<double> shims = {0.3, 0.2};  ///< thicknesses, from the bearing outboard
    double reach = 28.0;                     ///< thrust face to wheel mounting face
    double holder_step = 0.5;                ///< eccentricity of the holder
    Way holder_way = Way::down;
    double inset = -4.5;         ///< wheel centre plane inboard of the mounting face; < 0: outboard
    double rim_diameter = 30.0;  ///< where the tyre is glued on
    double hub_diameter = 12.0;  ///< barrel of the hub (left) or of the carrier (right)
    Tyre tyre;
};

struct FloatSetting {
    FloatBy set_by = FloatBy::blade;
    double blade = 0.15;      ///< used when set by blade
    double shoulder = 64.95;  ///< A, distance between the thrust faces; used when set by shoulder
    double low = 0.05;        ///< window that the float should lie in
    double high = 0.25;
};

struct Gears {
    bool by_diametral_pitch =
        true;  ///< how the size is written and shown; `module` always holds it
    double module = module_from_diametral_pitch(64);
    int pinion = 34;
    int spur = 76;
    double pressure_angle = radians(20);
    Dedendum dedendum = Dedendum::fine_pitch;
    double pinion_thinning = 0.0;  ///< tooth thinner than standard by this, on the pitch circle
    double spur_thinning = 0.0;
    double face_width = 4.0;     ///< of the spur
    double spur_offset = 5.0;    ///< carrier's thrust face to the middle of the spur's face
    double backlash = 0.06;      ///< wanted, on the working pitch circle
    double backlash_low = 0.03;  ///< window
    double backlash_high = 0.12;
};

/// The motor and the slot that its axis can be moved along. Pod axes: x forward of the bearing
/// bores, z above the pod's underside; the slot angle is positive when it rises forward.
struct Motor {
    double slot_x = 18.0;
    double slot_z = 21.0;
    double slot_angle = radians(10);
    double slot_length = 9.0;
    std::optional<double> clamped_at;  ///< place on the slot where the motor was last clamped
    double can_diameter = 35.8;
    double can_length = 44.0;
    double shaft_diameter = 3.175;
    double speed = 22000.0;  ///< rev/min at which speeds are shown
    double torque = 60.0;  ///< N·mm at which tooth stress is shown, and at which the car launches
    double rotor_inertia = 8.0;  ///< polar, of all that turns in the motor, g·cm² (invented)
};

struct Pod {
    double bore_height = 18.0;    ///< centre of the plates' bores above the pod's underside
    double bore_diameter = 15.0;  ///< of the plates, for the holders
    double plate_inner = 27.0;    ///< u of the plates' inner faces
    double plate_thickness = 3.0;
    double floor_thickness = 2.5;
    double axial_stiffness = 2000.0;  ///< of both plates against the bearings' thrust, N/mm
};

/// Groups of radial internal clearance (ISO 5753-1); normal is CN.
enum class RadialClearance { c2, normal, c3, c4, c5 };

/// Flanged deep-groove ball bearing, the same on both sides. The ratings are ISO 281 and ISO 76 on
/// the default's own geometry with their factors from memory; a maker's sheet comes first.
struct Bearing {
    double bore = 6.35;
    double outside = 9.525;
    double width = 3.175;
    double flange_diameter = 10.7188;
    double flange_width = 0.9144;
    int balls = 11;
    double ball_diameter = 1.0;
    double rating = 370.0;         ///< C, basic dynamic load rating, N
    double static_rating = 165.0;  ///< C0, basic static load rating, N
    RadialClearance clearance = RadialClearance::normal;
    double conformity = 0.53;                      ///< groove radius over ball diameter, both rings
    double misalignment_max = radians(10.0 / 60);  ///< permissible slope of the axle in it
};

/// Hollow axle: `diameter` in the bearings and hubs, `waist` between the bearings.
struct Axle {
    double diameter = 6.35;
    double waist = 6.0;
    double bore = 4.0;
    Material material = Material::steel_4130;
    std::optional<double> elastic_modulus;  ///< along the axle, GPa, instead of the material's
    std::optional<double> shear_modulus;    ///< GPa, instead of the material's: a tube's lay-up
    std::optional<double> strength;         ///< along the axle, N/mm², instead of the material's
};

/// Another axle to hold against the car's own, in the same bearings. What it leaves out is as in
/// Axle; moduli and strength go with the material where that is named.
struct OtherAxle {
    std::optional<double> diameter, waist, bore;
    std::optional<Material> material;
    std::optional<double> elastic_modulus, shear_modulus;  ///< GPa
    std::optional<double> strength;                        ///< N/mm²
};

/// What the other parts are made of: for their growth with warmth, and their weight.
struct PartMaterials {
    Material floor = Material::carbon_plate;
    Material plates = Material::aluminium_7075;
    Material holders = Material::pom;
    Material hub = Material::aluminium_7075;
    Material carrier = Material::aluminium_7075;
    Material wheels = Material::pom;
    Material spur = Material::pom;
    Material pinion = Material::brass;
};

struct Car {
    double wheelbase = 200.0;
    double front_ride = 3.6;  ///< ground to underside at the front axle
    double mass = 1.3;        ///< ready to run, kg
    double cg_height = 18.0;  ///< centre of gravity above the ground
};

/// The load cases, and what the axle must stand. Common practice, no source; the kerb is a rule of
/// thumb.
struct Cases {
    double lateral = 1.5;     ///< lateral acceleration in a corner, in g
    double kerb = 5.0;        ///< a kerb strike is this many times the wheel's load
    double safety_low = 1.5;  ///< least safety factor of the axle
    double life_low = 100.0;  ///< least bearing life, h
    double static_low = 1.0;  ///< least static safety of the bearings (ISO 76)
    double margin_low = 1.3;  ///< bending speed over the axle's speed at the motor's speed
};

/// The day's temperatures, °C. The car is measured and set at `bench`.
struct Temperature {
    double bench = 20.0;
    double cold = 10.0;
    double hot = 35.0;
};

/// How a length strays within its tolerance: normal (the tolerance is three standard deviations),
/// evenly, or triangular with its peak in the middle.
enum class Spread { normal, uniform, triangular };

struct Tolerance {
    double half = 0.0;  ///< ±, mm
    Spread spread = Spread::normal;
};

/// Tolerances of the lengths, each side's part by itself (common practice, no source).
struct Tolerances {
    Tolerance seat{0.03, Spread::normal};
    Tolerance standout{0.02, Spread::normal};
    Tolerance shim{0.01, Spread::uniform};
    Tolerance blade{0.01, Spread::uniform};
    Tolerance shoulder{0.03, Spread::normal};
    Tolerance reach{0.03, Spread::normal};
    Tolerance inset{0.1, Spread::normal};
    Tolerance tyre_width{0.2, Spread::triangular};
    Tolerance tyre_diameter{0.1, Spread::triangular};
    Tolerance holder_step{0.02, Spread::normal};
    Tolerance bore_height{0.05, Spread::normal};
    Tolerance mesh{0.015, Spread::triangular};  ///< centre distance, as the mesh is set by hand
    Tolerance tooth{0.005, Spread::normal};     ///< thickness of a tooth
    double share_max = 0.01;  ///< of builds whose float may lie outside its window
};

/// Fits of hole and shaft after ISO 286, such as "H7/g6"; empty = not looked at.
struct Fits {
    std::string axle = "H6/g5";    ///< of the axle in the bearing's bore
    std::string holder = "H7/h6";  ///< of the bearing in the holder
};

/// What the event, or good sense, asks for.
struct Event {
    double width_max = 172.0;
    double ride_low = 3.0;
    double ride_high = 5.0;
    double shift_max = 0.25;
    double roll_max = radians(0.25);
    double rollout_low = 0.0;  ///< 0 = no limit
    double rollout_high = 0.0;
};

/// Clearances that each kind of pair needs, and what the pod does while it runs. The defaults are
/// common practice, no source.
struct Needs {
    double turning_fixed = 0.3;   ///< a turning part against a fixed one
    double turning_ground = 1.5;  ///< a turning part other than a tyre against the ground
    double gear = 0.5;            ///< a gear against anything but its partner
    double hub_holder = 0.3;      ///< hub or carrier against holder and bearing
    double tyre_pod = 1.5;        ///< a tyre against the pod
    double roll =
        radians(1.0);  ///< of pod and axle to either side while running, on the tyres' give
};

/// A mesh of the user's own that stands for a part, in look and in solid. The file's point p (mm, X
/// forward, Y left, Z up, see file/asset.hpp) lies at move + Rz·Ry·Rx·scale·p in the part's frame.
struct OwnPart {
    std::string part;  ///< key of the part that it stands for
    std::string file;  ///< as written in the scene: from the scene's folder, or an absolute path
    double scale = 1.0;
    std::array<double, 3> turn{};  ///< rad, first about the part's x, then its y, then its z
    std::array<double, 3> move{};  ///< mm, in the part's frame
    std::optional<Look> look;      ///< without one, that of the part's first body

    /// Where the file was found when the scene was read from a disk, and which state of it; not
    /// part of a scene's text. Without a place the part keeps the shape that Podwright gives it.
    std::string found;
    std::uint64_t stamp = 0;

    bool operator==(const OwnPart&) const = default;
};

inline constexpr std::size_t most_own_parts = 40;

struct Setup {
    std::string title = "Untitled";
    std::string note;
    AxleSide left;
    AxleSide right;
    FloatSetting axial_float;
    Gears gears;
    Motor motor;
    Pod pod;
    Bearing bearing;
    Axle axle;
    OtherAxle other_axle;
    Car car;
    Event event;
    Needs needs;
    PartMaterials materials;
    Cases cases;
    Temperature temperature;
    Tolerances tolerances;
    Fits fits;
    std::vector<OwnPart> own_parts;  ///< at most one for each part
    Choosing choosing;

    const AxleSide& side(Side s) const { return s == Side::left ? left : right; }
    AxleSide& side(Side s) { return s == Side::left ? left : right; }
};

}  // namespace podwright
