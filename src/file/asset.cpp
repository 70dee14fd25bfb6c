#include "file/asset.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <glm/gtc/matrix_transform.hpp>
#include <glm/gtc/quaternion.hpp>
#include <glm/gtc/type_ptr.hpp>
#include <set>
#include <utility>

#include "core/units.hpp"
#include "file/creases.hpp"
#include "file/disk.hpp"
#include "file/gltf_load.hpp"

namespace podwright {

namespace {

constexpr std::size_t largest_asset = 64U << 20U;
constexpr std::size_t largest_mesh_file = 256U << 20U;
constexpr std::size_t most_triangles = 2000000;
constexpr int deepest_nodes = 64;
constexpr double crease_angle = radians(30);

/// Makes a mesh of a loaded file. Every mistake is a FileError.
class AssetReader {
public:
    AssetReader(tinygltf::Model model, std::string name)
        : name_(std::move(name)), model_(std::move(model)) {}

    Mesh read() {
        const std::size_t scene =
            index(std::max(model_.defaultScene, 0), model_.scenes.size(), "scene");
        for (const int node : model_.scenes[scene].nodes) add_node(node, glm::dmat4(1.0));
        if (mesh_.triangles.empty()) fail("it holds no triangles");
        mesh_.edges = crease_edges(mesh_, crease_angle);
        return std::move(mesh_);
    }

private:
    [[noreturn]] void fail(const std::string& what) const { fail_mesh(name_, what); }

    std::size_t index(int value, std::size_t size, const char* what) const {
        if (value < 0 || static_cast<std::size_t>(value) >= size)
            fail("it names " + std::string(what) + " " + std::to_string(value) +
                 ", which does not exist");
        return static_cast<std::size_t>(value);
    }

    static glm::dmat4 place_of(const tinygltf::Node& node) {
        if (node.matrix.size() == 16) return glm::make_mat4(node.matrix.data());
        glm::dmat4 place(1.0);
        if (node.translation.size() == 3)
            place = glm::translate(place, glm::make_vec3(node.translation.data()));
        if (node.rotation.size() == 4)
            place *= glm::mat4_cast(
                glm::dquat(node.rotation[3], node.rotation[0], node.rotation[1], node.rotation[2]));
        if (node.scale.size() == 3) place = glm::scale(place, glm::make_vec3(node.scale.data()));
        return place;
    }

    void add_node(int number, const glm::dmat4& above) {
        // Nodes form a tree (glTF 2.0, section 3.5.2); a second visit would be a circle or worse.
        const std::size_t at = index(number, model_.nodes.size(), "node");
        if (!visited_.insert(at).second) fail("its nodes are not a tree");
        const tinygltf::Node& node = model_.nodes[at];
        const glm::dmat4 place = above * place_of(node);
        const double turns = glm::determinant(glm::dmat3(place));
        if (!std::isfinite(turns) || std::abs(turns) < 1e-18)
            fail("a node's place is not a motion");
        if (node.mesh >= 0) {
            const std::size_t mesh = index(node.mesh, model_.meshes.size(), "mesh");
            for (const tinygltf::Primitive& primitive : model_.meshes[mesh].primitives)
                add_primitive(primitive, place, turns < 0);
        }
        if (++depth_ > deepest_nodes) fail("its nodes are nested too deep");
        for (const int child : node.children) add_node(child, place);
        --depth_;
    }

    /// Bytes of element `i` of an accessor whose whole range has been checked.
    struct Elements {
        const unsigned char* first;
        std::size_t stride;
        std::size_t count;
        const unsigned char* operator[](std::size_t i) const { return first + i * stride; }
    };

    Elements elements(int number, int type, std::size_t component_bytes,
                      std::size_t components) const {
        const auto& accessor = model_.accessors[index(number, model_.accessors.size(), "accessor")];
        if (accessor.type != type) fail("an accessor has the wrong type");
        if (accessor.sparse.isSparse) fail("it has sparse accessors");
        const auto& view =
            model_.bufferViews[index(accessor.bufferView, model_.bufferViews.size(), "view")];
        const auto& data = model_.buffers[index(view.buffer, model_.buffers.size(), "buffer")].data;
        const std::size_t size = component_bytes * components;
        const std::size_t stride = view.byteStride == 0 ? size : view.byteStride;
        if (accessor.count == 0 || accessor.count > data.size())
            fail("an accessor has a wrong count");
        if (view.byteOffset > data.size() || view.byteLength > data.size() - view.byteOffset)
            fail("a view reaches beyond its buffer");
        if (stride < size || stride > 252 || accessor.byteOffset > view.byteLength ||
            view.byteLength - accessor.byteOffset < size ||
            (accessor.count - 1) > (view.byteLength - accessor.byteOffset - size) / stride)
            fail("an accessor reaches beyond its view");
        return {data.data() + view.byteOffset + accessor.byteOffset, stride, accessor.count};
    }

    std::vector<glm::dvec3> vectors(int number) const {
        const auto& accessor = model_.accessors[index(number, model_.accessors.size(), "accessor")];
        if (accessor.componentType != TINYGLTF_COMPONENT_TYPE_FLOAT)
            fail("positions and normals must be floats");
        const Elements items = elements(number, TINYGLTF_TYPE_VEC3, sizeof(float), 3);
        std::vector<glm::dvec3> result;
        result.reserve(items.count);
        for (std::size_t i = 0; i < items.count; ++i) {
            glm::vec3 v;
            std::memcpy(&v[0], items[i], sizeof v);
            if (!std::isfinite(v.x) || !std::isfinite(v.y) || !std::isfinite(v.z))
                fail("a position or normal is not a number");
            result.emplace_back(v);
        }
        return result;
    }

    std::vector<std::uint32_t> indices(int number, std::size_t vertices) const {
        std::vector<std::uint32_t> result;
        if (number < 0) {
            for (std::size_t i = 0; i < vertices; ++i)
                result.push_back(static_cast<std::uint32_t>(i));
            return result;
        }
        const auto& accessor = model_.accessors[index(number, model_.accessors.size(), "accessor")];
        const std::size_t bytes =
            accessor.componentType == TINYGLTF_COMPONENT_TYPE_UNSIGNED_INT     ? 4
            : accessor.componentType == TINYGLTF_COMPONENT_TYPE_UNSIGNED_SHORT ? 2
            : accessor.componentType == TINYGLTF_COMPONENT_TYPE_UNSIGNED_BYTE  ? 1
                                                                               : 0;
        if (bytes == 0) fail("indices must be unsigned whole numbers");
        const Elements items = elements(number, TINYGLTF_TYPE_SCALAR, bytes, 1);
        result.reserve(items.count);
        for (std::size_t i = 0; i < items.count; ++i) {
            std::uint32_t value = 0;
            for (std::size_t k = 0; k < bytes; ++k) value |= std::uint32_t{items[i][k]} << (8 * k);
            if (value >= vertices) fail("a triangle names a vertex that does not exist");
            result.push_back(value);
        }
        return result;
    }

    std::size_t count_of(int accessor) const {
        return model_.accessors[index(accessor, model_.accessors.size(), "accessor")].count;
    }

    /// Before anything is read: a short file can name the same long lists any number of times.
    void check_size(const tinygltf::Primitive& primitive, int position) const {
        const std::size_t vertices = count_of(position);
        const std::size_t corners = primitive.indices < 0 ? vertices : count_of(primitive.indices);
        if (corners / 3 > most_triangles - mesh_.triangles.size() / 3)
            fail("it has more than " + std::to_string(most_triangles) + " triangles");
        if (vertices > 3 * most_triangles - std::min(mesh_.vertices.size(), 3 * most_triangles))
            fail("it has more than " + std::to_string(3 * most_triangles) + " vertices");
    }

    void add_primitive(const tinygltf::Primitive& primitive, const glm::dmat4& place,
                       bool mirrored) {
        if (primitive.mode != TINYGLTF_MODE_TRIANGLES && primitive.mode != -1)
            fail("it has points, lines or strips");
        const auto position = primitive.attributes.find("POSITION");
        if (position == primitive.attributes.end()) fail("a part has no positions");
        check_size(primitive, position->second);
        const std::vector<glm::dvec3> positions = vectors(position->second);
        std::vector<std::uint32_t> corners = indices(primitive.indices, positions.size());
        if (corners.size() % 3 != 0) fail("a part does not consist of whole triangles");
        if (mirrored)
            for (std::size_t i = 0; i < corners.size(); i += 3)
                std::swap(corners[i + 1], corners[i + 2]);

        std::vector<glm::dvec3> points;
        points.reserve(positions.size());
        for (const glm::dvec3& p : positions) points.push_back(in_mm(place * glm::dvec4(p, 1)));
        const auto normal = primitive.attributes.find("NORMAL");
        if (normal == primitive.attributes.end()) return add_facets(points, corners);
        const std::vector<glm::dvec3> normals = vectors(normal->second);
        if (normals.size() != positions.size())
            fail("a part has more or fewer normals than positions");
        add_smooth(points, normals, glm::transpose(glm::inverse(glm::dmat3(place))), corners);
    }

    void add_smooth(const std::vector<glm::dvec3>& points, const std::vector<glm::dvec3>& normals,
                    const glm::dmat3& turn, const std::vector<std::uint32_t>& corners) {
        const auto first = static_cast<std::uint32_t>(mesh_.vertices.size());
        for (std::size_t i = 0; i < points.size(); ++i)
            add_vertex(points[i], in_our_axes(turn * normals[i]));
        for (const std::uint32_t corner : corners) mesh_.triangles.push_back(first + corner);
    }

    /// Facets of their own, each with its normal.
    void add_facets(const std::vector<glm::dvec3>& points,
                    const std::vector<std::uint32_t>& corners) {
        for (std::size_t i = 0; i + 2 < corners.size(); i += 3) {
            const glm::dvec3& a = points[corners[i]];
            const glm::dvec3& b = points[corners[i + 1]];
            const glm::dvec3& c = points[corners[i + 2]];
            const glm::dvec3 normal = glm::cross(b - a, c - a);
            if (!(glm::length(normal) > 0)) continue;
            for (const glm::dvec3& p : {a, b, c}) {
                mesh_.triangles.push_back(static_cast<std::uint32_t>(mesh_.vertices.size()));
                add_vertex(p, normal);
            }
        }
    }

    void add_vertex(const glm::dvec3& point, const glm::dvec3& normal) {
        constexpr double farthest = 1e9;  // as floats, such numbers still have seven digits
        const double size = glm::length(normal);
        if (!(glm::length(point) < farthest)) fail("it is larger than 1000 km");
        if (!(size > 0) || !std::isfinite(size)) fail("a normal has no direction");
        mesh_.vertices.push_back({glm::vec3(point), glm::vec3(normal / size)});
    }

    static glm::dvec3 in_our_axes(const glm::dvec3& v) { return {v.z, v.x, v.y}; }
    static glm::dvec3 in_mm(const glm::dvec4& metres) {
        return in_our_axes(glm::dvec3(metres)) * 1000.0;
    }

    std::string name_;
    tinygltf::Model model_;
    std::set<std::size_t> visited_;
    int depth_ = 0;
    Mesh mesh_;
};

}  // namespace

Mesh read_glb(const std::filesystem::path& path) {
    const std::string bytes = read_file(path, largest_asset);
    return AssetReader(load_binary_gltf(bytes, path.string()), path.string()).read();
}

Mesh read_gltf(const std::filesystem::path& path) {
    std::string bytes = read_file(path, largest_mesh_file);
    tinygltf::Model model = is_binary_gltf(bytes) ? load_binary_gltf(bytes, path.string())
                                                  : load_text_gltf(bytes, path, largest_mesh_file);
    bytes = {};
    return AssetReader(std::move(model), path.string()).read();
}

}  // namespace podwright
