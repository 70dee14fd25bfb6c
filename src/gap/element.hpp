#pragma once

#include <glm/glm.hpp>

// Pieces of plane curves and the closed forms for distances between them. Lengths in mm, angles in
// rad. Outlines run with the material to the left: counter-clockwise outside, clockwise in holes.
namespace podwright {

/// A straight line, a circular arc, or a stretch of an involute, from `a` to `b`.
struct Element {
    enum class Kind { line, arc, involute };
    Kind kind = Kind::line;
    glm::dvec2 a{0}, b{0};
    glm::dvec2 centre{0};  ///< of the arc; of the involute's base circle
    double radius = 0;     ///< of the arc; of the base circle
    double sign = 1;       ///< +1 counter-clockwise; of an involute: the way its string unwinds
    double from = 0;       ///< arc: angle at `a`; involute: angle of its foot on the base circle
    double first = 0;      ///< arc: 0; involute: roll angle at `a`
    double last = 0;       ///< arc: angle swept (> 0); involute: roll angle at `b`
    glm::dvec2 middle{0};  ///< arc: unit vector from the centre to the arc's middle
    double cos_half = 1;   ///< arc: cosine of half the angle swept
    glm::dvec2 low{0}, high{0};  ///< bounding box

    /// The point at `share` (0 at a, 1 at b) of the way, even in length for lines and arcs.
    glm::dvec2 at(double share) const;
    /// True if the ray from the centre along `way` (any length) meets the arc.
    bool faces(const glm::dvec2& way) const;
    /// Greatest distance of the stretch between two shares from its chord; an upper bound.
    double sagitta(double from_share, double to_share) const;
    /// No stretch is longer than its part of the shares times this; the length of lines and arcs.
    double length() const;
};

Element line_element(const glm::dvec2& a, const glm::dvec2& b);
/// The arc from `a` to `b` of angle 4·atan(bulge), counter-clockwise if positive; a line if the
/// bulge is next to nothing.
Element arc_element(const glm::dvec2& a, const glm::dvec2& b, double bulge);
/// The point of roll angle t lies rb·sqrt(1 + t²) from the centre at the angle
/// `foot + sign·(t - atan t)`.
Element involute_element(const glm::dvec2& centre, double base_radius, double foot, double sign,
                         double first, double last);

/// A rigid motion of the plane, with or without a mirror: p -> shift + turn·p.
struct PlaneMotion {
    glm::dmat2 turn{1.0};
    glm::dvec2 shift{0};
    glm::dvec2 operator()(const glm::dvec2& p) const { return shift + turn * p; }
    bool mirrors() const { return glm::determinant(turn) < 0; }
};
/// The element moved. A mirrored one still runs from a to b, with the material to its right.
Element moved(const Element& e, const PlaneMotion& motion);

/// Point of the element that is nearest to `p`.
glm::dvec2 nearest(const Element& e, const glm::dvec2& p);
/// Point of the element that is farthest from `p`.
glm::dvec2 farthest(const Element& e, const glm::dvec2& p);
/// Point of the element that lies farthest along `way`.
glm::dvec2 extreme(const Element& e, const glm::dvec2& way);
/// Positive if `p` lies to the left of the chord from a to b. A point on the chord counts as moved
/// a little along +x, and less along +y, so that it is never 0.
double side_of_chord(const Element& e, const glm::dvec2& p);
/// True if `p` lies between the element and its chord.
bool between_chord(const Element& e, const glm::dvec2& p);

/// Two points, one of each element, at the smallest distance; `squared` is 0 where they cross.
struct Closest {
    double squared = 1e300;
    glm::dvec2 a{0}, b{0};
    void offer(const glm::dvec2& p, const glm::dvec2& q) {
        const glm::dvec2 way = q - p;
        const double d = glm::dot(way, way);
        if (d < squared) *this = {d, p, q};
    }
};
/// Puts the pair into `best` if it is nearer than what is there.
void offer_closest(const Element& e, const Element& f, Closest& best);

}  // namespace podwright
