#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>

namespace podwright {

/// A file of a folder to be: its name in it, and its bytes.
struct NamedBytes {
    std::string name;
    std::string bytes;
};

/// Makes the folder `path` with `count` files, all or nothing: a new folder beside it, filled, then
/// renamed. `file(i)` is asked for one after the other. Throws FileError, also if there is
/// something at `path` already other than an empty folder.
void write_folder(const std::filesystem::path& path, std::size_t count,
                  const std::function<NamedBytes(std::size_t)>& file);

}  // namespace podwright
