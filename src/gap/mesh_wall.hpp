#pragma once

#include "gap/distance.hpp"

namespace podwright {

/// Gap of a mesh, `a`, and any other form, in the frame of `a`; updates `best` if it is smaller.
///
/// Best-first search down the tree of triangles with the exact signed distance f of the other form.
/// A point p of a triangle, with weights w of its corners v, has for every q
/// |q - p|² = sum w |q - v|² - sum w |p - v|², so that with R the radius of a circle that holds the
/// triangle the square of its distance is at least min f(v)² - R²; derived. Overlap: the
/// depth of the deepest point of either surface in the other, found to Gap::within.
void offer_mesh(const Form& a, const Form& b, const Frame& to_b, double tolerance, Gap& best);

}  // namespace podwright
