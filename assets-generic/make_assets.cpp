#include <cstdio>
#include <exception>
#include <filesystem>
#include <string>
#include <vector>

#include "assets-generic/asset_shapes.hpp"
#include "file/asset.hpp"

namespace {

void write_all(const std::filesystem::path& folder,
               const std::vector<podwright::NamedMesh>& meshes) {
    for (const podwright::NamedMesh& asset : meshes) {
        const std::string name(asset.name);
        podwright::write_glb(folder / (name + ".glb"), asset.mesh, name);
    }
}

}  // namespace

// Writes every mesh of asset_meshes() as NAME.glb into the first folder given, and every mesh of
// scene_meshes() into the second.
int main(int count, char** arguments) {
    if (count != 3) {
        std::fputs("make_assets: give the folders assets-generic and scenes to write to\n", stderr);
        return 3;
    }
    try {
        write_all(arguments[1], podwright::asset_meshes());
        write_all(arguments[2], podwright::scene_meshes());
    } catch (const std::exception& error) {
        std::fprintf(stderr, "make_assets: %s\n", error.what());
        return 3;
    }
    return 0;
}
