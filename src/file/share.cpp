#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "file/asset.hpp"

namespace podwright {

std::filesystem::path share_folder() {
    namespace fs = std::filesystem;
    if (const char* named = std::getenv("PODWRIGHT_SHARE"); named && *named) return named;
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    if (!error) {
        fs::path beside = program.parent_path().parent_path() / "share" / "podwright";
        if (fs::is_directory(beside, error)) return beside;
    }
    return PODWRIGHT_SOURCE_SHARE;
}

}  // namespace podwright
