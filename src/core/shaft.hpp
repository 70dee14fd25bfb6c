#pragma once

#include <array>
#include <vector>

#include "core/band.hpp"

// A stepped hollow round shaft on two bearings with overhung ends: Timoshenko beam elements whose
// stiffness is exact, so that deflection and slope are exact at every place where a load stands.
// `y` runs along the shaft to the left; x forward, z up (vehicle axes). mm, N, N·mm, rad, N/mm².
namespace podwright {

/// One cylindrical stretch.
struct ShaftSection {
    double from, to;         ///< y
    double outside, inside;  ///< diameters; inside 0 = solid
    double area() const;
    double second_moment() const;  ///< I, about a diameter
    double polar_moment() const;   ///< J = 2 I
};

/// Of the shaft along itself. E and G are independent: a tube's lay-up sets G.
struct ShaftMaterial {
    double elastic_modulus;  ///< E along the shaft, N/mm²
    double shear_modulus;    ///< G, N/mm²
    double density;          ///< kg/mm³
    double strength;         ///< along the shaft, N/mm²
    double shear_strength;   ///< N/mm²
    bool operator==(const ShaftMaterial&) const = default;
};

/// Sections from right to left without gaps; the bearings hold x and z and let slope free.
struct Shaft {
    std::vector<ShaftSection> sections;
    ShaftMaterial material{};
    double bearing_right = 0, bearing_left = 0;  ///< y, right < left
    double mass() const;                         ///< kg
};

/// Share of the cross-section that carries shear: Cowper's coefficient of a hollow circle, with
/// nu = E/2G - 1 kept to 0..0.5 (Cowper, J. Appl. Mech. 33, 1966).
double shear_coefficient(const ShaftSection& section, const ShaftMaterial& material);

/// What acts on the shaft at one place. Couples turn the section in the same sense as a slope
/// dx/dy, dz/dy that grows; torque is about y, positive as the wheel rolls forward.
struct ShaftLoad {
    double y = 0;
    double force_x = 0, force_z = 0;
    double couple_x = 0, couple_z = 0;
    double torque = 0;
};

/// Deflection and slope (turn of the section) at one place.
struct ShaftPoint {
    double x, z;
    double slope_x, slope_z;
    double deflection() const;  ///< of both planes together, >= 0
    double slope() const;       ///< rad, >= 0
};

/// Inner moments and torque on one side of one place.
struct ShaftCut {
    double y;
    double moment_x, moment_z;  ///< that bend the shaft in the x-y and in the z-y plane
    double torque;
    double moment() const;  ///< of both planes together
};

struct ShaftStress {
    double y = 0;
    double bending = 0;     ///< N/mm²
    double shear = 0;       ///< from torque, N/mm²
    double equivalent = 0;  ///< sqrt(bending² + (strength/shear strength)² shear²): von Mises for
                            ///< metals
    double safety = 0;  ///< strength / equivalent; very large without load
};

/// One load case solved.
struct ShaftState {
    std::vector<double> y;           ///< nodes, right to left
    std::vector<ShaftPoint> points;  ///< at the nodes
    std::vector<ShaftCut> cuts;      ///< two for each element: its right and its left end
    std::array<double, 2> reaction_right{},
        reaction_left{};  ///< of the bearings on the shaft, x, z
    ShaftStress worst;
};

/// The shaft cut into elements at its steps, bearings and `stations`, factored once for any number
/// of loads. Throws std::invalid_argument for a shaft that is not one piece, or a station beyond
/// its ends.
class ShaftModel {
public:
    static constexpr int most_nodes = 24;

    ShaftModel(Shaft shaft, const std::vector<double>& stations);

    /// `loads` must stand on stations.
    ShaftState solve(const std::vector<ShaftLoad>& loads) const;

    /// Deflection anywhere on the shaft, exact between the nodes too.
    ShaftPoint at(const ShaftState& state, double y) const;

    /// Twist of the shaft at `to` against `from` under the state's torque, rad, positive: `to` is
    /// turned forward.
    double twist(const ShaftState& state, double from, double to) const;

    /// A rigid body on the shaft, for the bending speed.
    struct Rider {
        double y;                   ///< station at which it is fixed
        double mass;                ///< kg
        double beyond;              ///< its centre of mass lies at y + beyond
        double transverse_inertia;  ///< about a diameter through its centre of mass, kg·mm²
    };
    /// Lowest circular frequency of free bending, rad/s, with the shaft's own consistent mass. The
    /// gyroscopic effect, which raises a forward whirl, is left out.
    double bending_frequency(const std::vector<Rider>& riders) const;

    const Shaft& shaft() const { return shaft_; }
    const std::vector<double>& nodes() const { return y_; }

private:
    struct Element {
        double length;
        double bending;     // E I
        double shear;       // kappa G A
        double torsion;     // G J
        double per_length;  // kg/mm
        double radius, second_moment, polar_moment;
    };

    int node_at(double y) const;
    int free_index(int node, int freedom) const;
    using Band = std::array<BandRow, std::size_t{2} * most_nodes>;
    void add_element(Band& matrix, int element,
                     const std::array<std::array<double, 4>, 4>& of) const;

    Shaft shaft_;
    std::vector<double> y_;
    std::vector<Element> elements_;
    std::array<int, 2> held_{};  // nodes of the bearings
    int unknowns_ = 0;
    Band factor_{};  // lower Cholesky factor of the stiffness
};

/// Lowest circular frequencies (rad/s) of three discs in a row on two shafts of torsional stiffness
/// `k1`, `k2` (N·mm/rad); inertias in kg·mm². Closed form of the characteristic equation.
std::array<double, 2> torsional_frequencies(const std::array<double, 3>& inertia, double k1,
                                            double k2);

}  // namespace podwright
