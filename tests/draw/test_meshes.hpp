#pragma once

#include "shape/mesh.hpp"

// Closed meshes with known shapes for the tests of the drawing layer.
namespace podwright::test_meshes {

/// About the origin; poles on the z axis.
Mesh sphere(double radius, int around, int up);
/// About the origin; faces with normals of their own, twelve feature edges.
Mesh box(const glm::dvec3& size);
/// About the origin; axis z; `radius` to the middle of the tube.
Mesh torus(double radius, double tube, int around, int across);
/// A tube of rectangular section about the z axis, from z = -length/2 to length/2; inner may be 0.
Mesh tube(double outer, double inner, double length, int around);
/// A toothed wheel about the z axis with straight-sided teeth.
Mesh wheel(double outer, double depth, double bore, double width, int teeth);

}  // namespace podwright::test_meshes
