#include "file/folder_write.hpp"

#include <system_error>

#include "file/disk.hpp"
#include "file/scene.hpp"

namespace podwright {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void fail(const fs::path& path, const std::string& what) {
    throw FileError(path.string() + ": not saved: " + what);
}

/// A folder that goes away with all that is in it unless it is kept.
class TemporaryTree {
public:
    explicit TemporaryTree(fs::path path) : path_(std::move(path)) {}
    ~TemporaryTree() {
        std::error_code ignored;
        if (!path_.empty()) fs::remove_all(path_, ignored);
    }
    TemporaryTree(const TemporaryTree&) = delete;
    TemporaryTree& operator=(const TemporaryTree&) = delete;
    void keep() { path_.clear(); }

private:
    fs::path path_;
};

}  // namespace

void write_folder(const fs::path& path, std::size_t count,
                  const std::function<NamedBytes(std::size_t)>& file) {
    const fs::path target = path.has_filename() ? path : path.parent_path();
    if (target.filename().empty()) fail(path, "this is no name for a folder");
    std::error_code error;
    const bool there = fs::exists(fs::symlink_status(target, error));
    if (there && !(fs::is_directory(target, error) && fs::is_empty(target, error)))
        fail(path, "there is something here already; name a new or an empty folder");
    const fs::path made = target.string() + ".part";
    if (!fs::create_directory(made, error))
        fail(path, error ? "the folder cannot be made: " + error.message()
                         : made.string() + " is in the way; remove it");
    TemporaryTree temporary(made);
    for (std::size_t i = 0; i < count; ++i) {
        const NamedBytes one = file(i);
        write_file(made / one.name, one.bytes);
    }
    fs::rename(made, target, error);  // replaces an empty folder
    if (error) fail(path, error.message());
    temporary.keep();
}

}  // namespace podwright
