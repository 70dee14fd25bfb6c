#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <csignal>

#include "file/scene.hpp"
#include "scene_samples.hpp"
#include "temporary_folder.hpp"

using namespace podwright;
namespace fs = std::filesystem;

namespace {

std::string save_complaint(const Setup& setup, const fs::path& path) {
    try {
        save_scene(setup, path);
    } catch (const FileError& error) {
        return error.what();
    }
    return "no error";
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos && text.find('\n') == std::string::npos;
}

/// Makes every file of more than `bytes` bytes impossible while it lives.
class SmallFiles {
public:
    explicit SmallFiles(rlim_t bytes) {
        ::getrlimit(RLIMIT_FSIZE, &before_);
        handler_ = std::signal(SIGXFSZ, SIG_IGN);
        rlimit now = before_;
        now.rlim_cur = bytes;
        ::setrlimit(RLIMIT_FSIZE, &now);
    }
    ~SmallFiles() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, handler_);
    }
    SmallFiles(const SmallFiles&) = delete;
    SmallFiles& operator=(const SmallFiles&) = delete;

private:
    rlimit before_{};
    void (*handler_)(int) = nullptr;
};

}  // namespace

TEST_CASE("a scene is saved and read back; comments of the old file stay") {
    const TemporaryFolder folder;
    Setup setup;
    setup.left.shims = {0.1, 0.2, 0.3};
    save_scene(setup, folder / "car.toml");
    CHECK(same(read_scene(folder / "car.toml"), setup));
    CHECK(folder.names() == std::vector<std::string>{"car.toml"});

    write_bytes(folder / "car.toml", "# mine" + least_scene);
    setup = read_scene(folder / "car.toml");
    setup.gears.spur = 80;
    save_scene(setup, folder / "car.toml");
    CHECK(bytes_of(folder / "car.toml") == "# mine" + with(least_scene, "spur = 76", "spur = 80"));
    CHECK(folder.names() == std::vector<std::string>{"car.toml"});
}

TEST_CASE("a scene saved over another one brings its own comments, not those it replaces") {
    const TemporaryFolder folder;
    const std::string own = "# mine" + least_scene;
    const std::string other = "# hot" + with(least_scene, "spur = 76", "spur = 80 # for the heat");
    write_bytes(folder / "mine.toml", own);
    write_bytes(folder / "hot.toml", other);
    Setup setup = read_scene(folder / "mine.toml");
    setup.gears.spur = 81;
    const std::string saved = with(own, "spur = 76", "spur = 81");
    save_scene(setup, folder / "hot.toml", folder / "mine.toml");
    CHECK(bytes_of(folder / "hot.toml") == saved);
    CHECK(bytes_of(folder / "mine.toml") == own);

    // To a new file as well.
    save_scene(setup, folder / "new.toml", folder / "mine.toml");
    CHECK(bytes_of(folder / "new.toml") == saved);

    // Its own file by another path is its own file still, with what an editor wrote meanwhile.
    write_bytes(folder / "mine.toml", "# edited\n" + own);
    fs::create_symlink("mine.toml", folder / "link.toml");
    save_scene(setup, folder / "link.toml", folder / "mine.toml");
    CHECK(bytes_of(folder / "mine.toml") == "# edited\n" + saved);
}

TEST_CASE("a scene without a file of its own, or with a broken one, is complete where it goes") {
    const TemporaryFolder folder;
    write_bytes(folder / "hot.toml", "# hot" + least_scene);
    const Setup setup = read_scene(folder / "hot.toml");
    fs::path from;
    SECTION("none") {}
    SECTION("gone") { from = folder / "gone.toml"; }
    SECTION("broken meanwhile") {
        from = folder / "mine.toml";
        write_bytes(from, "milk\neggs\n");
    }
    save_scene(setup, folder / "hot.toml", from);
    CHECK(bytes_of(folder / "hot.toml") == scene_text(setup));
}

TEST_CASE("a saved file keeps its permissions; a new one gets the usual ones") {
    const TemporaryFolder folder;
    const auto mode = [&](std::string_view name) {
        struct stat info {};
        REQUIRE(::stat((folder / name).c_str(), &info) == 0);
        return info.st_mode & 07777U;
    };
    const mode_t before = ::umask(027);
    save_scene(Setup{}, folder / "new.toml");
    ::umask(before);
    CHECK(mode("new.toml") == 0640);
    REQUIRE(::chmod((folder / "new.toml").c_str(), 0604) == 0);
    save_scene(Setup{}, folder / "new.toml");
    CHECK(mode("new.toml") == 0604);
}

TEST_CASE("a symbolic link stays one, and its target is saved") {
    const TemporaryFolder folder;
    fs::create_directory(folder / "real");
    fs::create_symlink(fs::path("real") / "car.toml", folder / "link.toml");
    fs::create_symlink("link.toml", folder / "second.toml");
    save_scene(Setup{}, folder / "second.toml");
    CHECK(fs::is_symlink(folder / "second.toml"));
    CHECK(fs::is_symlink(folder / "link.toml"));
    CHECK(fs::is_regular_file(folder.path() / "real" / "car.toml"));
    CHECK(same(read_scene(folder / "link.toml"), Setup{}));
}

TEST_CASE("a save that fails leaves the old file and nothing else") {
    const TemporaryFolder folder;
    write_bytes(folder / "car.toml", least_scene);
    Setup setup = read_scene(folder / "car.toml");
    setup.note = std::string(1900, 'n');

    SECTION("no space for the new file") {
        const SmallFiles small(500);
        CHECK(holds(save_complaint(setup, folder / "car.toml"), "not saved: "));
    }
    SECTION("values that cannot be read back") {
        setup.axle.waist = 9;
        CHECK(holds(save_complaint(setup, folder / "car.toml"), "not saved: the axle's waist"));
        setup.axle.waist = std::nan("");
        CHECK(holds(save_complaint(setup, folder / "car.toml"), "not saved: "));
    }
    CHECK(bytes_of(folder / "car.toml") == least_scene);
    CHECK(folder.names() == std::vector<std::string>{"car.toml"});
}

TEST_CASE("places that cannot be saved to are named") {
    const TemporaryFolder folder;
    CHECK(
        holds(save_complaint(Setup{}, folder.path() / "none" / "car.toml"), "there is no folder"));
    CHECK(holds(save_complaint(Setup{}, folder.path()), "this is a folder"));
    CHECK(holds(save_complaint(Setup{}, ""), "no file name"));
    CHECK(holds(save_complaint(Setup{}, folder / (std::string(300, 'n') + ".toml")), "too long"));
    CHECK(holds(save_complaint(Setup{}, "/dev/null"), "not a file that holds data"));
    // /proc is there, but takes no new files.
    CHECK(holds(save_complaint(Setup{}, "/proc/podwright.toml"), "not saved: no file can be made"));
    fs::create_symlink("b", folder / "a");
    fs::create_symlink("a", folder / "b");
    CHECK(holds(save_complaint(Setup{}, folder / "a"), "circle"));
    const std::string longest = std::string(250, 'n') + ".toml";  // 255 bytes, NAME_MAX of Linux
    CHECK(save_complaint(Setup{}, folder / longest) == "no error");
    fs::remove(folder / "a");
    fs::remove(folder / "b");
    CHECK(folder.names() == std::vector<std::string>{longest});
}

TEST_CASE("a read-only file is not replaced") {
    const TemporaryFolder folder;
    write_bytes(folder / "car.toml", least_scene);
    REQUIRE(::chmod((folder / "car.toml").c_str(), 0444) == 0);
    if (::access((folder / "car.toml").c_str(), W_OK) == 0) {
        // The system administrator may write everywhere; then the file must still come out whole.
        save_scene(Setup{}, folder / "car.toml");
        CHECK(same(read_scene(folder / "car.toml"), Setup{}));
    } else {
        CHECK(holds(save_complaint(Setup{}, folder / "car.toml"), "read-only"));
        CHECK(bytes_of(folder / "car.toml") == least_scene);
    }
}

TEST_CASE("a file that is no scene is not overwritten") {
    const TemporaryFolder folder;
    write_bytes(folder / "list.txt", "milk\neggs\n");
    CHECK(holds(save_complaint(Setup{}, folder / "list.txt"), "list.txt:1:"));
    CHECK(bytes_of(folder / "list.txt") == "milk\neggs\n");
    write_bytes(folder / "empty.toml", "");
    save_scene(Setup{}, folder / "empty.toml");
    CHECK(same(read_scene(folder / "empty.toml"), Setup{}));
}
