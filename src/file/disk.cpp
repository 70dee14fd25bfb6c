#include "file/disk.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>

#include "file/scene.hpp"

namespace podwright {

namespace fs = std::filesystem;

namespace {

/// A file descriptor that closes itself.
class Descriptor {
public:
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor() { close(); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    Descriptor(Descriptor&&) = delete;
    Descriptor& operator=(Descriptor&&) = delete;

    bool good() const { return number_ >= 0; }
    int number() const { return number_; }
    /// False if the system could not put the last bytes away.
    bool close() {
        const bool done = number_ < 0 || ::close(number_) == 0;
        number_ = -1;
        return done;
    }

private:
    int number_;
};

/// Removes the file when it goes out of scope, unless kept.
class Temporary {
public:
    explicit Temporary(fs::path path) : path_(std::move(path)) {}
    ~Temporary() {
        std::error_code ignored;
        if (!path_.empty()) fs::remove(path_, ignored);
    }
    Temporary(const Temporary&) = delete;
    Temporary& operator=(const Temporary&) = delete;
    Temporary(Temporary&&) = delete;
    Temporary& operator=(Temporary&&) = delete;

    const fs::path& path() const { return path_; }
    void keep() { path_.clear(); }

private:
    fs::path path_;
};

std::string reason(int error) { return std::generic_category().message(error); }

[[noreturn]] void fail(const fs::path& path, const std::string& what) {
    throw FileError(path.string() + ": " + what);
}

std::string megabytes(std::size_t bytes) { return std::to_string(bytes >> 20U) + " MiB"; }

std::string read_reason(int error) {
    switch (error) {
        case ENOENT: return "there is no such file; check its name and folder";
        case ENOTDIR: return "part of the path is a file, not a folder; check the path";
        case EACCES: return "you may not read this file; ask its owner for permission";
        case ENAMETOOLONG: return "the name is too long for a file; check it";
        case ELOOP: return "the links of this path lead in a circle; give the file itself";
        default: return "cannot be read: " + reason(error);
    }
}

/// A folder that is there says the same of a new file where the system alone makes its files.
std::string no_entry_reason(const fs::path& folder) {
    std::error_code ignored;
    if (fs::is_directory(folder, ignored))
        return "no file can be made in " + folder.string() + "; choose another folder";
    return "there is no folder " + folder.string() + "; make it first";
}

std::string write_reason(int error, const fs::path& folder) {
    switch (error) {
        case ENOENT: return "not saved: " + no_entry_reason(folder);
        case ENOTDIR: return "not saved: " + folder.string() + " is a file, not a folder";
        case EACCES:
        case EPERM:
            return "not saved: you may not write in " + folder.string() + "; choose another folder";
        case EROFS: return "not saved: the disk is read-only; choose another folder";
        case ENOSPC:
        case EDQUOT: return "not saved: the disk is full; make room or choose another folder";
        case ENAMETOOLONG: return "not saved: the name is too long for a file; shorten it";
        default: return "not saved: " + reason(error);
    }
}

/// Reads up to `most` bytes; errno is set if it returns less than the whole.
bool read_all(int from, std::size_t most, std::string& bytes) {
    char buffer[16384];
    while (bytes.size() <= most) {
        const ssize_t count = ::read(from, buffer, sizeof buffer);
        if (count == 0) return true;
        if (count > 0)
            bytes.append(buffer, static_cast<std::size_t>(count));
        else if (errno != EINTR)
            return false;
    }
    return true;
}

bool write_all(int to, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t count = ::write(to, bytes.data(), bytes.size());
        if (count >= 0)
            bytes.remove_prefix(static_cast<std::size_t>(count));
        else if (errno != EINTR)
            return false;
    }
    return true;
}

fs::path folder_of(const fs::path& path) {
    const fs::path folder = path.parent_path();
    return folder.empty() ? fs::path(".") : folder;
}

/// Makes a new file in `folder`; the name is not built from the target's, which may be as long as
/// names can be.
int make_beside(const fs::path& folder, fs::path& made) {
    const std::string stem = ".podwright-" + std::to_string(::getpid()) + "-";
    for (int attempt = 0; attempt < 100; ++attempt) {
        made = folder / (stem + std::to_string(attempt) + ".tmp");
        const int number =
            ::open(made.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0666);
        if (number >= 0 || errno != EEXIST) return number;
    }
    return -1;
}

/// Gives the new file the permissions (and, where allowed, the group) of the one it replaces.
bool copy_permissions(int to, const struct stat& from) {
    if (::fchown(to, from.st_uid, from.st_gid) != 0 &&
        ::fchown(to, static_cast<uid_t>(-1), from.st_gid) != 0)
        return ::fchmod(to, from.st_mode & 0777U) == 0;
    return ::fchmod(to, from.st_mode & 07777U) == 0;
}

/// The file at `target`, if there is one that may be replaced; throws where it must not be.
bool find_replaced(const fs::path& shown, const fs::path& target, struct stat& found) {
    if (::stat(target.c_str(), &found) != 0) {
        if (errno == ENOENT || errno == ENOTDIR) return false;
        fail(shown, write_reason(errno, folder_of(target)));
    }
    if (S_ISDIR(found.st_mode)) fail(shown, "not saved: this is a folder; add a file name");
    if (!S_ISREG(found.st_mode)) fail(shown, "not saved: this is not a file that holds data");
    if (::access(target.c_str(), W_OK) != 0)
        fail(shown, "not saved: the file is read-only; save under another name");
    return true;
}

}  // namespace

std::string read_file(const fs::path& path, std::size_t most) {
    if (path.empty()) throw FileError("no file name is given");
    // A pipe without a writer would block the opening for ever.
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY));
    if (!file.good()) fail(path, read_reason(errno));
    struct stat info {};
    if (::fstat(file.number(), &info) != 0) fail(path, read_reason(errno));
    if (S_ISDIR(info.st_mode)) fail(path, "this is a folder; give a file in it");
    if (!S_ISREG(info.st_mode)) fail(path, "this is a device or a pipe; give a file");
    const std::string too_large = "the file is larger than " + megabytes(most) +
                                  ", which no such file needs; check that it is the right one";
    if (static_cast<unsigned long long>(info.st_size) > most) fail(path, too_large);
    std::string bytes;
    if (!read_all(file.number(), most, bytes)) fail(path, read_reason(errno));
    if (bytes.size() > most) fail(path, too_large);
    return bytes;
}

fs::path link_target(const fs::path& path) {
    fs::path target = path;
    std::error_code error;
    for (int step = 0; fs::is_symlink(fs::symlink_status(target, error)); ++step) {
        if (step == 40) fail(path, "the links of this path lead in a circle; give the file itself");
        const fs::path next = fs::read_symlink(target, error);
        if (error) fail(path, "cannot follow the link: " + error.message());
        target = next.is_absolute() ? next : target.parent_path() / next;
    }
    return target;
}

bool is_file(const std::filesystem::path& path) {
    std::error_code ignored;
    return std::filesystem::is_regular_file(path, ignored);
}

bool is_there(const std::filesystem::path& path) {
    std::error_code ignored;
    return std::filesystem::exists(path, ignored);
}

bool is_same_file(const fs::path& a, const fs::path& b) {
    std::error_code ignored;
    return a == b || fs::equivalent(a, b, ignored);
}

void write_file(const fs::path& path, std::string_view bytes) {
    if (path.empty()) throw FileError("not saved: no file name is given");
    const fs::path target = link_target(path);
    const fs::path folder = folder_of(target);
    if (target.filename().empty()) fail(path, "not saved: this is a folder; add a file name");
    struct stat old {};
    const bool replaces = find_replaced(path, target, old);

    fs::path made;
    Descriptor file(make_beside(folder, made));
    if (!file.good()) fail(path, write_reason(errno, folder));
    Temporary temporary(made);
    const bool written = (!replaces || copy_permissions(file.number(), old)) &&
                         write_all(file.number(), bytes) && ::fsync(file.number()) == 0;
    if (!written) fail(path, write_reason(errno, folder));
    if (!file.close()) fail(path, write_reason(errno, folder));
    if (std::rename(made.c_str(), target.c_str()) != 0) fail(path, write_reason(errno, folder));
    temporary.keep();

    // The new name outlives a power cut only once the folder is flushed; not every file system can.
    const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (directory.good()) ::fsync(directory.number());
}

}  // namespace podwright
