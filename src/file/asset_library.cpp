#include "file/asset_library.hpp"

#include <filesystem>
#include <map>
#include <memory>
#include <string>

#include "file/asset.hpp"
#include "file/own_mesh.hpp"
#include "file/scene.hpp"

namespace podwright {

namespace {

/// A mesh, and of which state of its file.
struct Kept {
    Mesh mesh;
    std::uint64_t stamp = 0;
};

}  // namespace

MeshLibrary asset_library() {
    const auto kept = std::make_shared<std::map<std::string, Kept, std::less<>>>();
    return [kept](std::string_view name) -> const Mesh& {
        const std::filesystem::path path(name);
        const bool own = path.is_absolute();
        const auto found = kept->find(name);
        const std::uint64_t stamp = own ? file_stamp(path) : 0;
        const bool current = found != kept->end() && (stamp == 0 || stamp == found->second.stamp);
        if (current) return found->second.mesh;
        try {
            Mesh mesh =
                own ? read_own_mesh(path)
                    : read_glb(share_folder() / "assets-generic" / (std::string(name) + ".glb"));
            Kept& place = (*kept)[std::string(name)];
            place = {std::move(mesh), stamp};
            return place.mesh;
        } catch (const FileError&) {
            // Somebody may be writing it just now.
            if (found == kept->end()) throw;
            return found->second.mesh;
        }
    };
}

}  // namespace podwright
