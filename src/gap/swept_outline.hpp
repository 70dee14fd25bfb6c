#pragma once

#include <span>
#include <vector>

#include "gap/element.hpp"
#include "gap/facets.hpp"
#include "shape/solid.hpp"

namespace podwright {

/// How much larger than what is swept a swept outline may be, mm; of bodies longer than 40 mm along
/// the axis more, in proportion.
inline constexpr double swept_excess = 0.003;

/// Outlines and holes, in (x, distance from the x axis), of what the solid inside the closed
/// surface passes through while it turns about the x axis. Hollows from which no way leads out
/// count as filled.
///
/// The half-plane is cut into columns. The part of a triangle that lies in a column covers it from
/// its nearest to its farthest point from the axis, exactly; what such stretches enclose is inside.
std::vector<Loop> swept_outline(std::span<const Facets::Triangle> surface);

/// The same for a body of revolution without a bore whose axis lies across the x axis at x = 0, by
/// its profile: `along` is the place of the profile's origin, from the foot of the x axis on the
/// body's axis, `beside` the distance of the axes. What lies between two points of the body at the
/// same x counts as filled.
std::vector<Loop> swept_crosswise(std::span<const Element> profile, double along, double beside);

}  // namespace podwright
