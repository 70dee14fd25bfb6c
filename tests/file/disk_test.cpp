#include <catch2/catch.hpp>

#include "file/disk.hpp"
#include "file/scene.hpp"
#include "temporary_folder.hpp"

using namespace podwright;

TEST_CASE("any bytes are written and read back") {
    const TemporaryFolder folder;
    std::string bytes;
    for (int i = 0; i < 100000; ++i) bytes += static_cast<char>(i * 7);
    write_file(folder / "data", bytes);
    CHECK(read_file(folder / "data", bytes.size()) == bytes);
    CHECK_THROWS_AS(read_file(folder / "data", bytes.size() - 1), FileError);
    write_file(folder / "data", "");
    CHECK(read_file(folder / "data", 0).empty());
}

TEST_CASE("a file in the folder we are in needs no path") {
    const TemporaryFolder folder;
    const auto before = std::filesystem::current_path();
    std::filesystem::current_path(folder.path());
    write_file("plain", "x");
    const std::string bytes = read_file("plain", 10);
    std::filesystem::current_path(before);
    CHECK(bytes == "x");
    CHECK(folder.names() == std::vector<std::string>{"plain"});
}
