#pragma once

#include "gap/distance.hpp"

namespace podwright {

/// Gap of a revolved solid `a` and a prism `b` that is extruded square to its axis and lies wholly
/// on one side of it, as a plate below a motor does; in the frame of `a`. Updates `best` if it is
/// smaller. False, and nothing is done, where the two do not stand like that.
///
/// A point above the prism's face has its nearest point on that face, so the gap is the distance
/// from the face: in its inside only straight below the axis, or on its edges. An edge along the
/// axis or square to it is a line in the half-plane of the profile: closed form. Any other is
/// searched along its length, on which the distance changes by no more than the way; Gap::within
/// says how sure it is.
bool offer_plate(const Form& a, const Form& b, const Frame& to_b, Gap& best);

}  // namespace podwright
