#pragma once

#include <string>
#include <vector>

#include "core/drive.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"

// What warmth does to float and mesh. mm, °C.
namespace podwright {

/// One length of the loop from thrust face to thrust face.
struct LoopLength {
    std::string name;  ///< "left shims"
    double length;     ///< mm
    double expansion;  ///< of its material, 1e-6/K
    int sense;         ///< +1: float grows with it, -1: float shrinks
    double per_kelvin() const { return sense * expansion * 1e-6 * length; }  ///< mm/K
};

/// Growth of a length, alpha L dT (skf.com, "Verifying the axial displaceability").
double growth(double expansion, double length, double kelvin);

/// Every length with its own material. The axle is gripped in the middle of hub and carrier:
/// between the grips the axle grows, and hub and carrier grow inwards from them. Opposite stand
/// half floor, plate, holder lip, standout and shims of each side.
std::vector<LoopLength> float_loop(const Setup& setup, const Stack& stack);

struct Warmth {
    std::vector<LoopLength> loop;
    double float_per_kelvin = 0;  ///< dF/dT, mm/K
    double float_cold = 0, float_hot = 0;
    double backlash_per_kelvin = 0;
    double backlash_cold = 0, backlash_hot = 0;

    /// Float at the bench with which it stays within its window all day; low > high: none does.
    double set_low = 0, set_high = 0;
    double bind_low = 0;  ///< least float at the bench with which it never binds (F >= 0)
    bool can_be_set() const { return set_low <= set_high; }
};

/// Backlash: the plates part the axes, the gears fill the gap; a gear that grows all over by e
/// pushes its teeth as far as if its axis came nearer by e times its working radius (derived).
Warmth warmth_of(const Setup& setup, const Stack& stack, const Drive& drive);

}  // namespace podwright
