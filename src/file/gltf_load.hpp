#pragma once

#include <tiny_gltf.h>

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

// From bytes to the description and the buffers of a glTF 2.0 file, with no more than that read.
namespace podwright {

/// One line about a file that cannot be used as a mesh, thrown as FileError.
[[noreturn]] void fail_mesh(const std::string& name, const std::string& what);

/// Whether these are the bytes of a .glb file, by its first four.
bool is_binary_gltf(std::string_view bytes);

/// A .glb file; everything has to be in it. `name` stands for the file in messages. Throws
/// FileError.
tinygltf::Model load_binary_gltf(std::string_view bytes, const std::string& name);

/// A .gltf file; its buffers are in it or in files in the folder of `path`, of at most `most` bytes
/// together. Throws FileError.
tinygltf::Model load_text_gltf(std::string_view bytes, const std::filesystem::path& path,
                               std::size_t most);

}  // namespace podwright
