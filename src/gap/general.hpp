#pragma once

#include "gap/distance.hpp"

namespace podwright {

/// Gap of forms at any angle, in the frame of `a`; updates `best` if it is smaller, with
/// Gap::within telling how sure it is.
///
/// Branch and bound over pairs of surface patches. A pair of cells is bounded from below along a
/// direction n by the least of n·b less the greatest of n·a, each in closed form; with n a normal
/// of either surface or the way between two points the bound is off by the square of the cell's
/// size, so that a lone nearest pair is found to 1e-10 mm in a few hundred cells. Where many pairs
/// are almost as near, the search rests sooner: no place it left is nearer by more than
/// Gap::within, at most 1e-4 mm unless the steps run out, and the pair that it returns is brought
/// to 1e-10 within its own cells. The end faces of extruded solids are never divided: where one is
/// nearest with its inside, the other point lies on a wall, or an edge, of the other solid.
///
/// The depth of an overlap is found to Gap::within too, 1e-4 mm where the steps suffice.
void offer_general(const Form& a, const Form& b, const Frame& to_b, Gap& best);

}  // namespace podwright
