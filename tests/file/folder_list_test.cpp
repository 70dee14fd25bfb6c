#include "file/folder_list.hpp"

#include <catch2/catch.hpp>

#include "temporary_folder.hpp"

using namespace podwright;
using Paths = std::vector<std::filesystem::path>;

TEST_CASE("a folder is listed by name, scenes and folders, without what is hidden") {
    const TemporaryFolder folder;
    for (const char* name : {"worn.toml", "axle.toml", "notes.txt", ".hidden.toml"})
        write_bytes(folder / name, "x");
    std::filesystem::create_directory(folder / "sprint");
    std::filesystem::create_directory(folder / "folder.toml");
    std::filesystem::create_directory(folder / ".git");
    const FolderList list = list_folder(folder / ".");
    CHECK(list.problem.empty());
    CHECK(list.scenes == Paths{"axle.toml", "worn.toml"});
    CHECK(list.folders == Paths{"folder.toml", "sprint"});
    CHECK(list.folder.is_absolute());
    CHECK(list_folder("").folder == std::filesystem::current_path());

    const FolderList none = list_folder(folder / "none");
    CHECK(none.scenes.empty());
    CHECK(none.folder == folder / "none");
    CHECK(none.problem.find("cannot be listed") != std::string::npos);
}
