#pragma once

#include <filesystem>
#include <string>

#include "shape/mesh.hpp"

// Self-made meshes as binary glTF 2.0. glTF is in metres, +Y up, +Z forward; ours is in mm, X
// forward, Y left, Z up: (x, y, z) of glTF = (Y, Z, X) / 1000.
namespace podwright {

/// All triangles of the file's scene in one mesh, the places of its nodes applied. Normals are
/// taken from the file, or from the facets where it has none. `edges` are those between facets that
/// meet at more than 30 degrees, and those of a single facet. `chord_error` is 0: the file is the
/// shape. Throws FileError where anything in the file does not fit.
Mesh read_glb(const std::filesystem::path& path);

/// The same from a file of the user's, .glb or .gltf by its contents, of at most 256 MiB and
/// 2,000,000 triangles. The buffers of a .gltf file are in it or in files in its folder.
Mesh read_gltf(const std::filesystem::path& path);

/// Writes the triangles of `mesh` as one node called `name`, all or nothing; the same mesh gives
/// the same bytes. Throws FileError, also for a mesh that has no triangles or is not finite.
void write_glb(const std::filesystem::path& path, const Mesh& mesh, const std::string& name);

/// The folder that holds `scenes` and `assets-generic`: what the environment variable
/// PODWRIGHT_SHARE names, or share/podwright beside the program's folder, or the source folder it
/// was built from.
std::filesystem::path share_folder();

}  // namespace podwright
