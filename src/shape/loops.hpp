#pragma once

#include <span>

#include "shape/solid.hpp"

// Outlines that the parts are cut from. Counter-clockwise unless said; lengths in mm, angles in
// rad.
namespace podwright {

struct Circle {
    glm::dvec2 centre;
    double radius;
};

/// The same loop the other way round: an outline becomes a hole.
Loop reversed(const Loop& loop);
/// The loop mirrored in the second axis (first coordinate negated), still counter-clockwise.
Loop mirrored(const Loop& loop);
/// Every point moved by `shift`.
Loop moved(Loop loop, const glm::dvec2& shift);

Loop circle(const glm::dvec2& centre, double radius);
Loop circle_hole(const glm::dvec2& centre, double radius);

/// Rectangle with corners cut off by `chamfer` (0 = sharp).
Loop rectangle(const glm::dvec2& low, const glm::dvec2& high, double chamfer = 0);
/// Rectangle with rounded corners.
Loop rounded_rectangle(const glm::dvec2& low, const glm::dvec2& high, double radius);

/// Everything within `half_width` of the straight line from `a` to `b`.
Loop slot(const glm::dvec2& a, const glm::dvec2& b, double half_width);

/// Part of the ring between radii `inner` and `outer` about the origin from angle `from` to `to`,
/// with round ends that stay between those angles.
Loop kidney(double inner, double outer, double from, double to);

/// The convex hull of some circles: arcs and their common tangents.
Loop hull(std::span<const Circle> circles);

/// Corners of a profile of straight lines.
Loop straight(std::initializer_list<glm::dvec2> corners);

}  // namespace podwright
