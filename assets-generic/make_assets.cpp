#include <cstdio>
#include <exception>
#include <filesystem>
#include <string>

#include "assets-generic/asset_shapes.hpp"
#include "file/asset.hpp"

// Writes every mesh of asset_meshes() as NAME.glb into the folder given.
int main(int count, char** arguments) {
    if (count != 2) {
        std::fputs("make_assets: give the folder to write to\n", stderr);
        return 3;
    }
    try {
        for (const podwright::NamedMesh& asset : podwright::asset_meshes()) {
            const std::filesystem::path folder(arguments[1]);
            const std::string name(asset.name);
            podwright::write_glb(folder / (name + ".glb"), asset.mesh, name);
        }
    } catch (const std::exception& error) {
        std::fprintf(stderr, "make_assets: %s\n", error.what());
        return 3;
    }
    return 0;
}
