#pragma once

#include "gap/distance.hpp"

namespace podwright {

/// Gap of a form and an extruded one, `b`, whose axes lean towards each other by little (less than
/// 25 degrees, otherwise false), in the frame of `a`; updates `best` if it is smaller. False too if
/// they overlap, come so near that they may, or take too long: then nothing was done, and
/// general.hpp has to measure them.
///
/// Branch and bound over the walls. Seen along b's axis a ring of a is an ellipse, held between two
/// arcs of circles; a stretch of the wall lies within a piece of a ring, or near a line, and
/// between two places along the axis. The distance of such a piece from the outline, and that along
/// the axis, are exact. Of two extruded forms the walls of both are searched: where neither is
/// nearest with its wall or an edge of it, two faces are, and then so are their edges.
bool offer_leaning(const Form& a, const Form& b, const Frame& to_b, double tolerance, Gap& best);

}  // namespace podwright
