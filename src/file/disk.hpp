#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

// Whole files in and out. Every failure is a FileError of one line (file/scene.hpp).
namespace podwright {

/// The bytes of a regular file of at most `most` bytes. Folders, devices, pipes and larger files
/// are refused without being read.
std::string read_file(const std::filesystem::path& path, std::size_t most);

/// The file that would be written: `path`, or what it points to as a symbolic link.
std::filesystem::path link_target(const std::filesystem::path& path);

/// Whether a regular file is there.
bool is_file(const std::filesystem::path& path);

/// Whether anything is there.
bool is_there(const std::filesystem::path& path);

/// Whether both name the same file: by the same path, or of a file that is there by any path.
bool is_same_file(const std::filesystem::path& a, const std::filesystem::path& b);

/// Replaces the file at `path` by `bytes`, all or nothing: a new file beside it, flushed, then
/// renamed over it. Keeps the permissions of a file that is there and follows a symbolic link.
void write_file(const std::filesystem::path& path, std::string_view bytes);

}  // namespace podwright
