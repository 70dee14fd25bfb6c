#pragma once

#include "core/setup.hpp"

// The axial stack. All positions are u, outboard from the mid-plane on either
// side, with the axle in the middle of its float; lengths in mm.
namespace podwright {

struct SideStack {
    double bearing;   ///< b = seat + standout
    double shims;     ///< S, sum of this side's shims
    double thrust;    ///< thrust face, b + S + F/2
    double mounting;  ///< m = b + S + F/2 + reach
    double wheel;     ///< w = m - inset
    double outer;     ///< o = w + tyre width / 2
};

struct Stack {
    double axial_float;   ///< F; < 0: the axle binds
    double thrust_faces;  ///< A
    SideStack left, right;
    double overall_width;  ///< o_L + o_R
    double track;          ///< w_L + w_R
    double shift;          ///< (o_L - o_R) / 2, positive to the left

    const SideStack& side(Side s) const { return s == Side::left ? left : right; }
};

Stack stack_of(const Setup& setup);

}  // namespace podwright
