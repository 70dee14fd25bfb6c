#pragma once

#include <vector>

#include <glm/glm.hpp>

#include "shape/solid.hpp"

// Outlines as points that remember the curve they came from. Used by the mesher.
namespace podwright {

/// A point of a flattened outline with the normals (unit, to the right of the way) of the true
/// curve on either side of it. For a counter-clockwise outline they point outward.
struct OutlinePoint {
    glm::dvec2 at;
    glm::dvec2 before, after;

    /// True where the curve turns a corner, false on a smooth stretch.
    bool crease() const;
};
using Outline = std::vector<OutlinePoint>;

/// The loop as chords that stray from it by at most `chord_error`; the first point is not repeated.
Outline flatten_outline(const Loop& loop, double chord_error);

/// The same run backwards, normals turned round: makes a hole of an outline.
Outline reversed(const Outline& outline);

/// Greatest distance between the chords of flatten_outline(loop, chord_error) and the loop, mm.
double chord_error_of(const Loop& loop, double chord_error);

/// Fewest equal chords of a full circle that stray by at most `chord_error` from it; at least 16.
int segments_of_circle(double radius, double chord_error);

/// Greatest distance between a circle and `segments` equal chords of it.
double sagitta(double radius, double segments);

/// True if the loop has an arc.
bool has_arc(const Loop& loop);

}  // namespace podwright
