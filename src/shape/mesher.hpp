#pragma once

#include <functional>
#include <string_view>

#include "shape/mesh.hpp"
#include "shape/part.hpp"

namespace podwright {

/// Display meshes are this close to the true surface unless something else is asked for, mm.
inline constexpr double default_chord_error = 0.01;

/// Gives the mesh of an imported solid by name (mm, frame as in Imported); throws
/// std::out_of_range for a name it does not have.
using MeshLibrary = std::function<const Mesh&(std::string_view name)>;

/// A closed mesh of `solid` whose distance from the true surface is at most `chord_error` (mm > 0).
/// An imported solid is its mesh as it stands. Throws std::runtime_error for an outline that
/// crosses itself or one of its holes.
Mesh mesh_of(const Solid& solid, double chord_error, const MeshLibrary& library);

/// The loop as straight segments to within `chord_error`; points in order, first not repeated.
std::vector<glm::dvec2> flatten(const Loop& loop, double chord_error);

/// Flank, tip and root of all teeth as one counter-clockwise polygon in (y, z), one tooth on +z.
/// Below the base circle a flank is a radial line. A tooth or a gap that would come to a point ends
/// where it is still 0.05 m wide.
std::vector<glm::dvec2> tooth_outline(const Gear& gear, double chord_error);

}  // namespace podwright
