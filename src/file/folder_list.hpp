#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace podwright {

/// What of a folder a scene can be chosen from, in the order of names; without what is hidden.
struct FolderList {
    std::filesystem::path folder;  ///< absolute
    std::vector<std::filesystem::path> folders, scenes;
    std::string problem;  ///< why it could not be listed; else empty
};

/// `folder` as it is now; the present folder if empty.
FolderList list_folder(const std::filesystem::path& folder);

}  // namespace podwright
