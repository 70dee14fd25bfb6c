#include "file/folder_list.hpp"

#include <algorithm>
#include <system_error>

namespace podwright {

namespace fs = std::filesystem;

FolderList list_folder(const fs::path& folder) {
    FolderList list;
    std::error_code error;
    list.folder = folder.empty() ? fs::current_path(error) : fs::absolute(folder, error);
    for (auto entry = fs::directory_iterator(list.folder, error);
         !error && entry != fs::directory_iterator(); entry.increment(error)) {
        std::error_code ignored;
        const fs::path name = entry->path().filename();
        if (name.native().front() == '.') continue;
        if (entry->is_directory(ignored)) list.folders.push_back(name);
        if (entry->is_regular_file(ignored) && name.extension() == ".toml")
            list.scenes.push_back(name);
    }
    std::sort(list.folders.begin(), list.folders.end());
    std::sort(list.scenes.begin(), list.scenes.end());
    if (error) list.problem = "This folder cannot be listed: " + error.message();
    return list;
}

}  // namespace podwright
