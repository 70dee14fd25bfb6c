#include "bench/file_dialog.hpp"

#include <catch2/catch.hpp>

#include "bench/file_words.hpp"
#include "file/scene.hpp"
#include "file/temporary_folder.hpp"

using namespace podwright;

namespace {

const Change wider{"left.inset", -3, {}};

/// A model of a scene in a file of its own.
Model opened(const std::filesystem::path& path) {
    Setup setup;
    setup.title = "the one that is open";
    save_scene(setup, path);
    Model model{read_scene(path)};
    model.path = path;
    return model;
}

}  // namespace

TEST_CASE("another scene takes the place of one without changes at once, of a changed one not") {
    const TemporaryFolder folder;
    Setup other;
    other.title = "the other one";
    save_scene(other, folder / "other.toml");
    Model model = opened(folder / "car.toml");
    FileDialog files;
    SECTION("unchanged") {
        files.open(model, folder / "other.toml", 0);
        CHECK_FALSE(files.is_open());
        CHECK(files.was_opened());
        CHECK(model.setup.title == "the other one");
        CHECK(model.path == folder / "other.toml");
    }
    SECTION("changed") {
        make_changes(model, {&wider, 1}, "inset", 0);
        files.open(model, folder / "other.toml", 0);
        CHECK(files.is_open());
        CHECK_FALSE(files.was_opened());
        CHECK(model.setup.title == "the one that is open");
        CHECK(model.setup.left.inset == -3);
        CHECK(model.path == folder / "car.toml");
    }
    SECTION("changed, and the other one is no scene") {
        make_changes(model, {&wider, 1}, "inset", 0);
        write_bytes(folder / "other.toml", "milk\n");
        files.open(model, folder / "other.toml", 0);
        CHECK_FALSE(files.is_open());  // there is nothing to ask
        CHECK(model.message.find("other.toml:1:") != std::string::npos);
        CHECK(model.setup.left.inset == -3);
    }
}

TEST_CASE("the window closes at once, or asks where there are changes") {
    const TemporaryFolder folder;
    Model model = opened(folder / "car.toml");
    FileDialog files;
    make_changes(model, {&wider, 1}, "inset", 0);
    files.close(model);
    CHECK(files.is_open());
    CHECK_FALSE(files.may_leave());
    FileDialog others;
    undo(model);
    others.close(model);
    CHECK_FALSE(others.is_open());
    CHECK(others.may_leave());
}

TEST_CASE("the file and how it stands are said") {
    const TemporaryFolder folder;
    Model model = opened(folder / "car.toml");
    CHECK(file_words(model) == "car.toml, saved");
    CHECK(window_title(model) == "car.toml - Podwright");
    make_changes(model, {&wider, 1}, "inset", 0);
    CHECK(file_words(model) == "car.toml, changed");
    CHECK(window_title(model) == "car.toml, changed - Podwright");
    FileDialog files;
    files.save(model, 0);
    CHECK(file_words(model) == "car.toml, saved");
    model.is_demo = true;
    CHECK(file_words(model) == "car.toml, demo");
    // A demo is not written: another name is asked for.
    files.save(model, 0);
    CHECK(files.is_open());
}
