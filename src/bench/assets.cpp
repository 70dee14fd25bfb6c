#include "bench/assets.hpp"

#include <map>
#include <memory>
#include <string>

#include "file/asset.hpp"

namespace podwright {

MeshLibrary asset_library() {
    const auto read = std::make_shared<std::map<std::string, Mesh, std::less<>>>();
    return [read](std::string_view name) -> const Mesh& {
        const auto found = read->find(name);
        if (found != read->end()) return found->second;
        std::string key(name);
        Mesh mesh = read_glb(share_folder() / "assets-generic" / (key + ".glb"));
        return read->emplace(std::move(key), std::move(mesh)).first->second;
    };
}

}  // namespace podwright
