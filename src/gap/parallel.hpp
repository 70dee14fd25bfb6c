#pragma once

#include "gap/distance.hpp"

namespace podwright {

/// How far the smaller form strays when its axis is laid parallel to that of the other, mm; `to_b`
/// is b seen from a.
double parallel_error(const Form& a, const Form& b, const Frame& to_b);

/// Gap of forms with parallel axes, in the frame of `a`; updates `best` if it is smaller.
///
/// Two revolved solids: points of a ring of radius r about an axis at distance d have all distances
/// from |d - r| to d + r from the other axis, so the problem is one in the half-plane of a's axis:
/// the profile of a against that of b mirrored to d - r, and moved to d + r.
/// A revolved and an extruded solid: the latter fills a rectangle of that half-plane. Two extruded
/// solids: their outlines, and their intervals along the axis.
void offer_parallel(const Form& a, const Form& b, const Frame& to_b, Gap& best);

}  // namespace podwright
