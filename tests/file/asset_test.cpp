#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <nlohmann/json.hpp>
#include <random>
#include <set>

#include "file/asset.hpp"
#include "file/scene.hpp"
#include "sample_meshes.hpp"
#include "temporary_folder.hpp"

using namespace podwright;
using nlohmann::json;

namespace {

/// A box of 10 x 20 x 30 mm in X, Y, Z with its low corner at (1, 2, 3).
Mesh box() { return box_mesh({1, 2, 3}, {11, 22, 33}); }

std::uint32_t word(const std::string& bytes, std::size_t at) {
    std::uint32_t value = 0;
    std::memcpy(&value, bytes.data() + at, 4);
    return value;
}

/// Takes a .glb apart and puts it together again after an edit.
struct Parts {
    json description;
    std::string data;

    explicit Parts(const std::string& bytes) {
        const std::size_t length = word(bytes, 12);
        description = json::parse(bytes.substr(20, length));
        data = bytes.substr(20 + length + 8);
    }
    std::string bytes() const {
        std::string text = description.dump();
        text.append((4 - text.size() % 4) % 4, ' ');
        const auto put = [](std::size_t value) {
            const auto small = static_cast<std::uint32_t>(value);
            return std::string(reinterpret_cast<const char*>(&small), 4);
        };
        return "glTF" + put(2) + put(28 + text.size() + data.size()) + put(text.size()) + "JSON" +
               text + put(data.size()) + std::string("BIN\0", 4) + data;
    }
};

std::string complaint(const std::filesystem::path& path, const std::string& bytes) {
    write_bytes(path, bytes);
    try {
        read_glb(path);
    } catch (const FileError& error) {
        return error.what();
    }
    return "no error";
}

}  // namespace

TEST_CASE("a mesh is written as glTF 2.0 says") {
    const TemporaryFolder folder;
    write_glb(folder / "box.glb", box(), "box");
    const std::string bytes = bytes_of(folder / "box.glb");
    // Khronos glTF 2.0 specification: 4.4 container, 3.6 accessors, 3.4 axes and units.
    CHECK(bytes.substr(0, 4) == "glTF");
    CHECK(word(bytes, 4) == 2);
    CHECK(word(bytes, 8) == bytes.size());
    CHECK(word(bytes, 12) % 4 == 0);
    CHECK(bytes.substr(16, 4) == "JSON");
    const std::size_t second = 20 + word(bytes, 12);
    CHECK(bytes.substr(second + 4, 4) == std::string("BIN\0", 4));
    CHECK(second + 8 + word(bytes, second) == bytes.size());
    const Parts parts(bytes);
    const json& d = parts.description;
    CHECK(d["asset"]["version"] == "2.0");
    CHECK(d["nodes"][0]["name"] == "box");
    CHECK(d["buffers"][0]["byteLength"] == parts.data.size());
    for (const json& view : d["bufferViews"]) CHECK(view["byteOffset"].get<int>() % 4 == 0);
    // x = Y, y = Z, z = X in metres: the box spans 2..22, 3..33, 1..11 mm.
    const json& position = d["accessors"][0];
    const double low[] = {0.002, 0.003, 0.001};
    const double high[] = {0.022, 0.033, 0.011};
    for (std::size_t axis = 0; axis < 3; ++axis) {
        CHECK(position["min"][axis].get<double>() == Approx(low[axis]).epsilon(1e-6));
        CHECK(position["max"][axis].get<double>() == Approx(high[axis]).epsilon(1e-6));
    }
    write_glb(folder / "again.glb", box(), "box");
    CHECK(bytes_of(folder / "again.glb") == bytes);
}

TEST_CASE("a mesh reads back as it was written") {
    const TemporaryFolder folder;
    const Mesh mesh = box();
    write_glb(folder / "box.glb", mesh, "box \"1\"");
    const Mesh again = read_glb(folder / "box.glb");
    REQUIRE(again.vertices.size() == mesh.vertices.size());
    CHECK(again.triangles == mesh.triangles);
    for (std::size_t i = 0; i < mesh.vertices.size(); ++i) {
        CHECK(glm::length(again.vertices[i].position - mesh.vertices[i].position) < 1e-5F);
        CHECK(glm::length(again.vertices[i].normal - mesh.vertices[i].normal) < 1e-6F);
    }
    CHECK(volume(again) == Approx(10.0 * 20 * 30).epsilon(1e-5));
    CHECK(open_edges(again) == 0);
    CHECK(again.edges.size() ==
          2 * 12);  // a box has twelve edges; the diagonals of its faces are flat
}

TEST_CASE("only edges of more than 30 degrees are feature edges") {
    const TemporaryFolder folder;
    // A closed prism of n sides: between its side faces the angle is 360/n degrees (derived).
    const auto creases = [&](int n) {
        Mesh mesh;
        for (const float z : {0.F, 10.F})
            for (int i = 0; i < n; ++i) {
                const double a = 2 * 3.14159265358979 * i / n;
                mesh.vertices.push_back({{10 * std::cos(a), 10 * std::sin(a), z}, {0, 0, 1}});
            }
        const auto corner = [n](int ring, int i) {
            return static_cast<std::uint32_t>(ring * n + i % n);
        };
        for (int i = 0; i < n; ++i)
            for (const std::uint32_t v : {corner(0, i), corner(0, i + 1), corner(1, i + 1),
                                          corner(0, i), corner(1, i + 1), corner(1, i)})
                mesh.triangles.push_back(v);
        for (int i = 1; i + 1 < n; ++i)
            for (const std::uint32_t v : {corner(0, 0), corner(0, i + 1), corner(0, i),
                                          corner(1, 0), corner(1, i), corner(1, i + 1)})
                mesh.triangles.push_back(v);
        write_glb(folder / "prism.glb", mesh, "prism");
        const Mesh again = read_glb(folder / "prism.glb");
        CHECK(open_edges(again) == 0);
        return again.edges.size() / 2;
    };
    CHECK(creases(8) == 24);   // 45 degrees: 8 along, 8 around each end
    CHECK(creases(16) == 32);  // 22.5 degrees: only around the ends
}

TEST_CASE("places of nodes are applied, mirrors turn the triangles") {
    const TemporaryFolder folder;
    write_glb(folder / "box.glb", box(), "box");
    Parts parts(bytes_of(folder / "box.glb"));
    parts.description["nodes"] = json::parse(R"([
        {"children": [1], "translation": [0.1, 0.0, 0.0]},
        {"mesh": 0, "rotation": [0, 0.7071067811865476, 0, 0.7071067811865476], "scale": [2, 2, 2]}])");
    write_bytes(folder / "moved.glb", parts.bytes());
    const Mesh moved = read_glb(folder / "moved.glb");
    CHECK(volume(moved) == Approx(8 * 6000.0).epsilon(1e-5));
    // Scaled by 2, turned by 90 degrees about glTF's Y (x' = z, z' = -x), then 100 mm along x:
    // derived. The corner (x, y, z) = (2, 3, 1) mm goes to (102, 6, -4) mm, in our axes X -4, Y
    // 102, Z 6.
    const Bounds b = bounds(moved);
    CHECK(b.high.x == Approx(-4).epsilon(1e-5));
    CHECK(b.low.x == Approx(-44).epsilon(1e-5));
    CHECK(b.low.y == Approx(102).epsilon(1e-5));
    CHECK(b.high.y == Approx(122).epsilon(1e-5));
    CHECK(b.low.z == Approx(6).epsilon(1e-5));

    parts.description["nodes"] = json::parse(R"([{"mesh": 0, "scale": [-1, 1, 1]}])");
    write_bytes(folder / "mirrored.glb", parts.bytes());
    CHECK(volume(read_glb(folder / "mirrored.glb")) == Approx(6000.0).epsilon(1e-5));

    parts.description["meshes"][0]["primitives"][0]["attributes"].erase("NORMAL");
    write_bytes(folder / "flat.glb", parts.bytes());
    const Mesh flat = read_glb(folder / "flat.glb");
    CHECK(flat.vertices.size() == 36);
    CHECK(flat.edges.size() == 24);
    CHECK(volume(flat) == Approx(6000.0).epsilon(1e-5));
}

TEST_CASE("a .glb in which anything does not fit is refused") {
    const TemporaryFolder folder;
    const auto path = folder / "bad.glb";
    write_glb(path, box(), "box");
    const std::string good = bytes_of(path);
    CHECK(complaint(path, good) == "no error");

    const auto refused = [&](const std::string& bytes) {
        const std::string message = complaint(path, bytes);
        INFO(message);
        CHECK(message.find("bad.glb: ") != std::string::npos);
        CHECK(message.find('\n') == std::string::npos);
    };
    refused("");
    refused("glTF");
    refused(good.substr(0, good.size() - 1));
    refused(good + "x");
    for (const std::size_t at : {0U, 4U, 8U, 12U, 16U}) {
        std::string bytes = good;
        bytes[at] = static_cast<char>(bytes[at] + 1);
        refused(bytes);
    }
    const std::vector<std::pair<std::string, std::string>> edits = {
        {"/accessors/0/count", "25"},
        {"/accessors/0/count", "1000000000000"},
        {"/accessors/0/count", "0"},
        {"/accessors/0/bufferView", "7"},
        {"/accessors/0/bufferView", "-1"},
        {"/accessors/0/byteOffset", "8"},
        {"/accessors/0/type", "\"VEC2\""},
        {"/accessors/0/componentType", "5126000"},
        {"/accessors/0/componentType", "5122"},
        {"/accessors/2/componentType", "5126"},
        {"/accessors/2/count", "35"},
        {"/accessors/1/count", "23"},
        {"/bufferViews/0/byteLength", "100000"},
        {"/bufferViews/0/byteOffset", "4294967290"},
        {"/bufferViews/0/buffer", "3"},
        {"/bufferViews/0/byteStride", "4"},
        {"/bufferViews/2/byteOffset", "0"},
        {"/meshes/0/primitives/0/mode", "1"},
        {"/meshes/0/primitives/0/attributes/POSITION", "9"},
        {"/meshes/0/primitives/0/attributes/NORMAL", "2"},
        {"/meshes/0/primitives/0/attributes", "{}"},
        {"/meshes/0/primitives/0/indices", "12"},
        {"/nodes/0/mesh", "4"},
        {"/nodes/0/children", "[0]"},
        {"/nodes/0/children", "[5]"},
        {"/nodes/0/scale", "[0,1,1]"},
        {"/nodes/0/translation", "[1e9,0,0]"},
        {"/scene", "3"},
        {"/scenes", "[]"},
        {"/scenes/0/nodes", "[]"},
        {"/images", "[{\"uri\":\"a.png\"}]"},
        {"/buffers/0/uri", "\"other.bin\""},
        {"/images", "[{\"bufferView\":0,\"mimeType\":\"image/png\"}]"},
        {"/buffers/0/byteLength", "100000"},
        {"/buffers", "[{\"byteLength\":4},{\"byteLength\":4}]"},
        {"/extensionsRequired", "[\"EXT_packed_triangles\"]"},
    };
    for (const auto& [pointer, value] : edits) {
        Parts parts(good);
        parts.description[json::json_pointer(pointer)] = json::parse(value);
        INFO(pointer << " = " << value);
        refused(parts.bytes());
    }
    Parts parts(good);
    const float nan = std::nanf("");
    std::memcpy(parts.data.data(), &nan, 4);
    refused(parts.bytes());
    Parts deep(good);
    std::string bytes = deep.bytes();
    const std::string nested =
        "{\"asset\":{\"version\":\"2.0\",\"extras\":" + std::string(200000, '[') +
        std::string(200000, ']') + "}}";
    std::string container = bytes.substr(0, 20) + nested;
    container.append((4 - container.size() % 4) % 4, ' ');
    const auto total = static_cast<std::uint32_t>(container.size());
    const auto inner = static_cast<std::uint32_t>(container.size() - 20);
    std::memcpy(container.data() + 8, &total, 4);
    std::memcpy(container.data() + 12, &inner, 4);
    refused(container);
}

TEST_CASE("damaged .glb files are read or refused, never anything else") {
    const TemporaryFolder folder;
    write_glb(folder / "box.glb", box(), "box");
    const std::string good = bytes_of(folder / "box.glb");
    std::mt19937 random(20250414);  // fixed seed
    int refused = 0;
    for (int run = 0; run < 600; ++run) {
        std::string bytes = good;
        for (int i = 0; i < 1 + run % 4; ++i)
            bytes[std::uniform_int_distribution<std::size_t>(0, bytes.size() - 1)(random)] =
                static_cast<char>(std::uniform_int_distribution<int>(0, 255)(random));
        refused += complaint(folder / "bad.glb", bytes) != "no error";
    }
    CHECK(refused > 200);
    CHECK(refused < 600);
}

TEST_CASE("a mesh that is none is not written") {
    const TemporaryFolder folder;
    Mesh mesh = box();
    mesh.triangles.back() = 99;
    CHECK_THROWS_AS(write_glb(folder / "a.glb", mesh, "a"), FileError);
    CHECK_THROWS_AS(write_glb(folder / "a.glb", Mesh{}, "a"), FileError);
    mesh = box();
    mesh.vertices[0].position.x = INFINITY;
    CHECK_THROWS_AS(write_glb(folder / "a.glb", mesh, "a"), FileError);
    CHECK(folder.names().empty());
}

TEST_CASE("the shared folder can be named by the environment") {
    CHECK(std::filesystem::exists(share_folder() / "scenes" / "first-look.toml"));
    ::setenv("PODWRIGHT_SHARE", "/somewhere/else", 1);
    const auto named = share_folder();
    ::setenv("PODWRIGHT_SHARE", "", 1);
    const auto empty = share_folder();
    ::unsetenv("PODWRIGHT_SHARE");
    CHECK(named == "/somewhere/else");
    CHECK(empty == share_folder());
}
