#pragma once

#include <cstdint>
#include <filesystem>
#include <string_view>

#include "core/setup.hpp"
#include "file/document.hpp"
#include "shape/mesh.hpp"

// The files of the meshes that stand for parts.
namespace podwright {

/// A solid from a .glb or .gltf file of the user's: read_gltf(), and closed and facing outward, as
/// distances need it. Throws FileError.
Mesh read_own_mesh(const std::filesystem::path& path);

/// Which state of the file this is: another number where its length or time of writing has changed.
/// 0 if there is no such file.
std::uint64_t file_stamp(const std::filesystem::path& path);

/// The folder from which the files of a scene at `path` count: that of the scene, or of the file to
/// which it points as a symbolic link. Absolute.
std::filesystem::path scene_folder(const std::filesystem::path& path);

/// Finds and checks the mesh of every own part of a scene at `path` that was read from `document`,
/// and sets OwnPart::found and OwnPart::stamp. Throws FileError at the place of the `file`.
void find_own_meshes(Setup& setup, const Document& document, const std::filesystem::path& path);

/// The own parts for a scene at `path`: where a file would not be found from there, it is given by
/// its absolute path.
std::vector<OwnPart> own_parts_from(const std::filesystem::path& path,
                                    std::vector<OwnPart> own_parts);

}  // namespace podwright
