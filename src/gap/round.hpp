#pragma once

#include "gap/distance.hpp"

namespace podwright {

/// Gap of two bodies of revolution whose axes lean towards each other by little (less than 25
/// degrees, otherwise false), in the frame of `a`; updates `best` if it is smaller. False too if
/// they overlap, come so near that they may, or take too long: then nothing was done, and
/// general.hpp has to measure them.
///
/// Branch and bound over the wall of `a` alone: to `b`, a point is nothing but its place along b's
/// axis and its distance from it. Over a stretch of an element turned through some angle both are
/// bounded in closed form, so that the stretch lies, for b, within a hexagon in the half-plane of
/// b's profile, whose distance from the profile is exact. With the axes nearly in line the hexagon
/// hardly grows with the angle, and few cells are needed. No place is nearer than the gap by more
/// than Gap::within, at most the tolerance.
bool offer_round(const Form& a, const Form& b, const Frame& to_b, double tolerance, Gap& best);

}  // namespace podwright
