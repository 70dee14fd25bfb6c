#pragma once

#include <filesystem>
#include <string>

#include "bench/model.hpp"

namespace podwright {

/// The path as UTF-8.
std::string plain(const std::filesystem::path& path);

/// The file and how it stands: "first-look.toml, demo", "car.toml, changed".
std::string file_words(const Model& model);

/// The window's own title: the file, whether it is changed, and the program.
std::string window_title(const Model& model);

}  // namespace podwright
