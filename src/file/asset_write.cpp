#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>

#include "file/asset.hpp"
#include "file/disk.hpp"
#include "file/scene.hpp"

namespace podwright {

namespace {

using nlohmann::ordered_json;

// Numbers of the glTF 2.0 specification: sections 3.6.2, 4.4 and 5.
constexpr std::uint32_t magic = 0x46546C67;
constexpr std::uint32_t json_chunk = 0x4E4F534A;
constexpr std::uint32_t binary_chunk = 0x004E4942;
constexpr int float_component = 5126;
constexpr int index_component = 5125;
constexpr int vertex_buffer = 34962;
constexpr int index_buffer = 34963;

void append(std::string& bytes, std::uint32_t word) {
    for (unsigned shift = 0; shift < 32; shift += 8)
        bytes += static_cast<char>((word >> shift) & 0xFFU);
}

void append(std::string& bytes, const glm::vec3& v) {
    for (int axis = 0; axis < 3; ++axis) append(bytes, std::bit_cast<std::uint32_t>(v[axis]));
}

glm::vec3 in_gltf_axes(const glm::vec3& v) { return {v.y, v.z, v.x}; }

glm::vec3 in_metres(const glm::vec3& mm) {
    return glm::vec3(glm::dvec3(in_gltf_axes(mm)) / 1000.0);
}

ordered_json triple(const glm::vec3& v) { return ordered_json::array({v.x, v.y, v.z}); }

ordered_json view(std::size_t offset, std::size_t length, int target) {
    return {{"buffer", 0}, {"byteOffset", offset}, {"byteLength", length}, {"target", target}};
}

bool finite(const glm::vec3& v) {
    return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z);
}

void check(const Mesh& mesh, const std::string& path) {
    const bool whole = !mesh.triangles.empty() && mesh.triangles.size() % 3 == 0;
    const bool inside =
        std::all_of(mesh.triangles.begin(), mesh.triangles.end(),
                    [&](std::uint32_t index) { return index < mesh.vertices.size(); });
    const bool good = std::all_of(mesh.vertices.begin(), mesh.vertices.end(), [](const Vertex& v) {
        return finite(v.position) && finite(v.normal);
    });
    if (!whole || !inside || !good)
        throw FileError(path +
                        ": not saved: the mesh must have whole triangles of finite vertices");
}

ordered_json description(const Mesh& mesh, const std::string& name, std::size_t length) {
    glm::vec3 low(HUGE_VALF);
    glm::vec3 high(-HUGE_VALF);
    for (const Vertex& vertex : mesh.vertices) {
        low = glm::min(low, in_metres(vertex.position));
        high = glm::max(high, in_metres(vertex.position));
    }
    const std::size_t count = mesh.vertices.size();
    const std::size_t vertices = count * 12;
    ordered_json root;
    root["asset"] = {{"version", "2.0"}, {"generator", "podwright " PODWRIGHT_VERSION}};
    root["scene"] = 0;
    root["scenes"] = ordered_json::array({{{"nodes", ordered_json::array({0})}}});
    root["nodes"] = ordered_json::array({{{"name", name}, {"mesh", 0}}});
    const ordered_json primitive = {
        {"attributes", {{"POSITION", 0}, {"NORMAL", 1}}}, {"indices", 2}, {"mode", 4}};
    root["meshes"] =
        ordered_json::array({{{"name", name}, {"primitives", ordered_json::array({primitive})}}});
    root["accessors"] = ordered_json::array({{{"bufferView", 0},
                                              {"componentType", float_component},
                                              {"count", count},
                                              {"type", "VEC3"},
                                              {"min", triple(low)},
                                              {"max", triple(high)}},
                                             {{"bufferView", 1},
                                              {"componentType", float_component},
                                              {"count", count},
                                              {"type", "VEC3"}},
                                             {{"bufferView", 2},
                                              {"componentType", index_component},
                                              {"count", mesh.triangles.size()},
                                              {"type", "SCALAR"}}});
    root["bufferViews"] = ordered_json::array(
        {view(0, vertices, vertex_buffer), view(vertices, vertices, vertex_buffer),
         view(2 * vertices, mesh.triangles.size() * 4, index_buffer)});
    root["buffers"] = ordered_json::array({{{"byteLength", length}}});
    return root;
}

}  // namespace

void write_glb(const std::filesystem::path& path, const Mesh& mesh, const std::string& name) {
    check(mesh, path.string());
    // Floats and 32-bit indices: every part starts and ends on a multiple of 4.
    std::string data;
    for (const Vertex& vertex : mesh.vertices) append(data, in_metres(vertex.position));
    for (const Vertex& vertex : mesh.vertices) append(data, in_gltf_axes(vertex.normal));
    for (const std::uint32_t index : mesh.triangles) append(data, index);

    std::string json = description(mesh, name, data.size())
                           .dump(-1, ' ', false, ordered_json::error_handler_t::replace);
    json.append((4 - json.size() % 4) % 4, ' ');

    std::string bytes;
    append(bytes, magic);
    append(bytes, 2);
    append(bytes, static_cast<std::uint32_t>(28 + json.size() + data.size()));
    append(bytes, static_cast<std::uint32_t>(json.size()));
    append(bytes, json_chunk);
    bytes += json;
    append(bytes, static_cast<std::uint32_t>(data.size()));
    append(bytes, binary_chunk);
    bytes += data;
    write_file(path, bytes);
}

}  // namespace podwright
