#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "assets-generic/asset_shapes.hpp"
#include "file/asset.hpp"

using namespace podwright;

namespace {

std::string bytes_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    REQUIRE(file.good());
    return {std::istreambuf_iterator<char>(file), {}};
}

void check_committed(const char* folder, const std::vector<NamedMesh>& meshes) {
    const std::filesystem::path committed = std::filesystem::path(PODWRIGHT_SOURCE_DIR) / folder;
    const std::filesystem::path fresh =
        std::filesystem::path(PODWRIGHT_BINARY_DIR) / "fresh-assets";
    std::filesystem::create_directories(fresh);
    for (const NamedMesh& asset : meshes) {
        const std::string name = std::string(asset.name) + ".glb";
        INFO(name);
        write_glb(fresh / name, asset.mesh, std::string(asset.name));
        CHECK(bytes_of(fresh / name) == bytes_of(committed / name));

        const Mesh read = read_glb(committed / name);
        CHECK(open_edges(read) == 0);
        CHECK(volume(read) == Approx(volume(asset.mesh)).epsilon(1e-5));
        CHECK(glm::length(bounds(read).high - bounds(asset.mesh).high) < 1e-4);
        CHECK(glm::length(bounds(read).low - bounds(asset.mesh).low) < 1e-4);
    }
}

}  // namespace

TEST_CASE("the committed meshes are those that make_assets writes") {
    check_committed("assets-generic", asset_meshes());
    check_committed("scenes", scene_meshes());
}

TEST_CASE("asset meshes have their nominal sizes") {
    const Bounds screw = bounds(cap_screw_mesh());
    CHECK(screw.low.x == Approx(-6));
    CHECK(screw.high.x == Approx(3));
    CHECK(screw.high.z == Approx(2.75));
    const Bounds bell = bounds(end_bell_mesh());
    CHECK(bell.high.z == Approx(17.9));
    CHECK(bell.high.x == Approx(0));
    CHECK(bell.low.x == Approx(-9));
    for (const NamedMesh& asset : asset_meshes()) {
        CHECK(open_edges(asset.mesh) == 0);
        CHECK(volume(asset.mesh) > 0);
    }
}
