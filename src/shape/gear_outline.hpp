#pragma once

#include "core/gears.hpp"
#include "shape/outline.hpp"

namespace podwright {

/// The teeth's outline with true normals, as mesher.hpp's tooth_outline. Below the base circle the
/// flank is a radial line; the root is an arc of the root circle with sharp corners. A tooth that
/// would come to a point ends where it is still 0.05 m thick, and a gap likewise.
Outline gear_outline(const Gear& gear, double chord_error);

/// Radii between which the tooth of gear_outline runs, mm.
struct GearRadii {
    double root;  ///< bottom of the gap
    double base;
    double foot;  ///< where the involute begins; the flank below it is radial
    double tip;
};
GearRadii gear_radii(const Gear& gear);

/// Greatest distance between gear_outline(gear, chord_error) and the true flanks, tips and roots.
double gear_chord_error(const Gear& gear, double chord_error);

}  // namespace podwright
