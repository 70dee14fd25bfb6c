#include "file/own_mesh.hpp"

#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <cstring>
#include <nlohmann/json.hpp>
#include <random>

#include "core/drive.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"
#include "file/asset.hpp"
#include "file/asset_library.hpp"
#include "file/scene.hpp"
#include "sample_meshes.hpp"
#include "scene_samples.hpp"
#include "shape/assembly.hpp"
#include "temporary_folder.hpp"

using namespace podwright;
namespace fs = std::filesystem;

namespace {

/// A scene in which hub.glb stands for the left hub; its `file` is line 24, column 8.
const std::string own_scene =
    least_scene + "[[own_part]]\npart = \"left.hub\"\nfile = \"hub.glb\"\n";

std::string complaint(const fs::path& path) {
    try {
        read_scene(path);
    } catch (const FileError& error) {
        return error.what();
    }
    return "no error";
}

std::string mesh_complaint(const fs::path& path) {
    try {
        read_gltf(path);
    } catch (const FileError& error) {
        return error.what();
    }
    return "no error";
}

Assembly assembly_of(const Setup& setup) {
    const Stack stack = stack_of(setup);
    const Stance stance = stance_of(setup, stack);
    return assemble(setup, stack, stance, drive_of(setup, stack, stance));
}

/// One line, at the place of the own part's file, that holds all of `parts`.
void check_refused(const TemporaryFolder& folder, const std::vector<std::string>& parts) {
    const std::string message = complaint(folder / "car.toml");
    INFO(message);
    CHECK(message.find((folder / "car.toml").string() + ":24:8: ") == 0);
    CHECK(message.find('\n') == std::string::npos);
    for (const std::string& part : parts) CHECK(message.find(part) != std::string::npos);
}

}  // namespace

TEST_CASE("an own mesh stands where the part stood, moved, turned and scaled") {
    const TemporaryFolder folder;
    write_glb(folder / "hub.glb", box_mesh({1000, 2000, 3000}, {5000, 8000, 12000}), "box");
    write_bytes(folder / "car.toml",
                own_scene + "scale = 0.001\nturn = [90, 0, 90]\nmove = [10, 20, 30]\n");
    const Setup setup = read_scene(folder / "car.toml");
    REQUIRE(setup.own_parts.size() == 1);
    CHECK(setup.own_parts[0].file == "hub.glb");
    CHECK(fs::equivalent(setup.own_parts[0].found, folder / "hub.glb"));

    Setup plain = setup;
    plain.own_parts.clear();
    const Assembly with = assembly_of(setup), without = assembly_of(plain);
    const Part& hub = *with.find("left.hub");
    const Part& old = *without.find("left.hub");
    REQUIRE(hub.bodies.size() == 1);
    CHECK(hub.bodies[0].look == old.bodies[0].look);
    CHECK(hub.place == old.place);
    CHECK(hub.moves == old.moves);
    CHECK(hub.explode == old.explode);
    CHECK(hub.title == "left hub (own mesh)");
    CHECK(with.parts.size() == without.parts.size());

    Mesh placed;
    append(placed, mesh_of(hub.bodies[0].solid, 0.01, asset_library()), hub.bodies[0].place);
    const Bounds box = bounds(placed);
    // Derived: 1..5 x 2..8 x 3..12 mm after scaling; about x by 90 degrees (y, z) -> (-z, y), about
    // z by 90 degrees (x, y) -> (-y, x): altogether (x, y, z) -> (z, x, y); then moved.
    CHECK(box.low.x == Approx(10 + 3).epsilon(1e-6));
    CHECK(box.high.x == Approx(10 + 12).epsilon(1e-6));
    CHECK(box.low.y == Approx(20 + 1).epsilon(1e-6));
    CHECK(box.high.y == Approx(20 + 5).epsilon(1e-6));
    CHECK(box.low.z == Approx(30 + 2).epsilon(1e-6));
    CHECK(box.high.z == Approx(30 + 8).epsilon(1e-6));
    CHECK(volume(placed) == Approx(4 * 6 * 9).epsilon(1e-5));
}

TEST_CASE("a look may be given; a part that is not there is no mistake") {
    const TemporaryFolder folder;
    write_glb(folder / "hub.glb", box_mesh({0, -5, -5}, {28, 5, 5}), "box");
    write_bytes(folder / "car.toml", own_scene + "look = \"brass\"\n");
    CHECK(assembly_of(read_scene(folder / "car.toml")).find("left.hub")->bodies[0].look ==
          Look::brass);
    write_bytes(folder / "car.toml", with(own_scene, "left.hub", "left.shim.7"));
    const Assembly assembly = assembly_of(read_scene(folder / "car.toml"));
    CHECK(assembly.find("left.shim.7") == nullptr);
    // From text alone nothing is known of a disk: the part keeps its own shape.
    const Assembly from_text = assembly_of(parse_scene(own_scene, "s"));
    CHECK(from_text.find("left.hub")->bodies.size() > 1);
}

TEST_CASE("files that cannot be used are refused at the place of the file") {
    const TemporaryFolder folder;
    write_bytes(folder / "car.toml", own_scene);
    const fs::path mesh = folder / "hub.glb";
    check_refused(folder, {mesh.string(), "there is no such file"});
    fs::create_directory(mesh);
    check_refused(folder, {"this is a folder"});
    fs::remove(mesh);
    REQUIRE(::mkfifo(mesh.c_str(), 0600) == 0);
    check_refused(folder, {"a device or a pipe"});
    fs::remove(mesh);
    write_bytes(mesh, "");
    fs::resize_file(mesh, (std::uintmax_t{256} << 20U) + 1);
    check_refused(folder, {"larger than 256 MiB"});
    for (const char* bytes : {"", "solid hub\n", "glTF", "{", "{}", "[]", "{\"asset\": 1}"}) {
        write_bytes(mesh, bytes);
        check_refused(folder, {"not a mesh that can be used", "glTF 2.0"});
    }
    write_bytes(mesh, "{\"asset\": {\"version\": \"2.0\"}, \"extras\": " +
                          std::string(100000, '[') + std::string(100000, ']') + "}");
    check_refused(folder, {"nested too deep"});
}

TEST_CASE("a mesh that is not a solid is refused") {
    const TemporaryFolder folder;
    write_bytes(folder / "car.toml", own_scene);
    Mesh box = box_mesh({0, -5, -5}, {28, 5, 5});
    Mesh open = box;
    open.triangles.resize(open.triangles.size() - 3);
    write_glb(folder / "hub.glb", open, "open");
    check_refused(folder, {"not a solid", "3 edges do not join exactly two triangles", "close"});
    for (std::size_t i = 0; i < box.triangles.size(); i += 3)
        std::swap(box.triangles[i], box.triangles[i + 1]);
    write_glb(folder / "hub.glb", box, "inside out");
    check_refused(folder, {"inside out", "outward"});
    std::swap(box.triangles[0], box.triangles[1]);
    write_glb(folder / "hub.glb", box, "one triangle turned over");
    check_refused(folder, {"3 edges do not join exactly two triangles that face the same way"});
    // A triangle with two corners in one place encloses nothing and opens nothing.
    Mesh degenerate = box_mesh({0, -5, -5}, {28, 5, 5});
    degenerate.triangles.insert(degenerate.triangles.end(), {0, 1, 0});
    write_glb(folder / "hub.glb", degenerate, "degenerate");
    CHECK(complaint(folder / "car.toml") == "no error");
}

TEST_CASE("a mesh in another unit is told from its size") {
    const TemporaryFolder folder;
    write_bytes(folder / "car.toml", own_scene);
    const auto drawn = [&](float factor) {
        write_glb(folder / "hub.glb",
                  box_mesh(glm::vec3(0, -5, -5) * factor, glm::vec3(28, 5, 5) * factor), "box");
    };
    drawn(1);
    CHECK(complaint(folder / "car.toml") == "no error");
    drawn(1000);  // mm written as metres
    check_refused(folder, {"\"hub.glb\" measures 28000 mm at scale = 1;", "0.05 to 500 mm",
                           "scale = 0.001 if it was drawn in mm"});
    drawn(1000 / 25.4F);  // inches written as metres: 28 mm are 1.1024 in
    check_refused(folder, {"measures 1100 mm", "0.0254 if it was drawn in inches"});
    drawn(0.001F);
    check_refused(folder, {"measures 0.028 mm", "scale = 1000"});
    write_bytes(folder / "car.toml", own_scene + "scale = 0.5\n");
    drawn(1000);
    check_refused(folder, {"measures 14000 mm at scale = 0.5;", "scale = 0.0005 if"});
    // The ends of the range.
    write_bytes(folder / "car.toml", own_scene);
    for (const float size : {0.0501F, 499.9F}) {
        write_glb(folder / "hub.glb", box_mesh({0, 0, 0}, glm::vec3(size)), "box");
        CHECK(complaint(folder / "car.toml") == "no error");
    }
    for (const float size : {0.0499F, 500.1F}) {
        write_glb(folder / "hub.glb", box_mesh({0, 0, 0}, glm::vec3(size)), "box");
        check_refused(folder, {"0.05 to 500 mm"});
    }
    write_glb(folder / "hub.glb", box_mesh({2000, 0, 0}, {2010, 10, 10}), "far away");
    check_refused(folder, {"lies 2010 mm", "from the origin"});
}

TEST_CASE("a mesh of two million triangles is read, of one more refused") {
    const TemporaryFolder folder;
    write_bytes(folder / "car.toml", own_scene);
    Mesh ball = ball_mesh(14, 1001, 1000);
    REQUIRE(ball.triangles.size() == 3 * 2000000);
    write_glb(folder / "hub.glb", ball, "ball");
    CHECK(complaint(folder / "car.toml") == "no error");
    ball.triangles.insert(ball.triangles.end(), {0, 1, 2});
    write_glb(folder / "hub.glb", ball, "ball");
    CHECK(complaint(folder / "car.toml").find("it has more than 2000000 triangles") !=
          std::string::npos);

    // A short file that names one mesh many times.
    write_glb(folder / "hub.glb", ball_mesh(14, 101, 100), "ball");
    auto description = nlohmann::json::parse(gltf_text(bytes_of(folder / "hub.glb"), "hub.bin"));
    write_bytes(folder / "hub.bin", glb_data(bytes_of(folder / "hub.glb")));
    description["scenes"][0]["nodes"].clear();
    description["nodes"].clear();
    for (int i = 0; i < 101; ++i) {
        description["nodes"].push_back({{"mesh", 0}});
        description["scenes"][0]["nodes"].push_back(i);
    }
    write_bytes(folder / "hub.glb", description.dump());
    CHECK(complaint(folder / "car.toml").find("it has more than 2000000 triangles") !=
          std::string::npos);
}

TEST_CASE("a .gltf file is read with its data inside or beside it") {
    const TemporaryFolder folder;
    const Mesh box = box_mesh({1, 2, 3}, {11, 22, 33});
    write_glb(folder / "box.glb", box, "box");
    const std::string glb = bytes_of(folder / "box.glb");
    CHECK(volume(read_gltf(folder / "box.glb")) == Approx(6000).epsilon(1e-5));

    fs::create_directory(folder / "parts");
    const fs::path path = folder.path() / "parts" / "box.gltf";
    const auto with_uri = [&](const std::string& uri) {
        write_bytes(path, gltf_text(glb, uri));
        return mesh_complaint(path);
    };
    CHECK(with_uri("data:application/octet-stream;base64," + base64(glb_data(glb))) == "no error");
    write_bytes(folder.path() / "parts" / "the box.bin", glb_data(glb));
    CHECK(with_uri("the box.bin") == "no error");
    CHECK(with_uri("the%20box.bin") == "no error");  // RFC 3986, 2.1
    const Mesh read = read_gltf(path);
    CHECK(volume(read) == Approx(6000).epsilon(1e-5));
    CHECK(bounds(read).high.z == Approx(33).epsilon(1e-6));
    CHECK(read.edges.size() == 2 * 12);

    const auto refused = [&](const std::string& uri, const std::string& part) {
        const std::string message = with_uri(uri);
        INFO(uri << ": " << message);
        CHECK(message.find(path.string() + ": ") == 0);
        CHECK(message.find(part) != std::string::npos);
        CHECK(message.find('\n') == std::string::npos);
    };
    refused("none.bin", "there is no such file");
    write_bytes(folder / "outside.bin", glb_data(glb));
    refused("../outside.bin", "not in its own folder");
    refused("%2e%2e/outside.bin", "not in its own folder");
    refused((folder / "outside.bin").string(), "not in its own folder");
    refused("file:///etc/passwd", "not in its own folder");
    refused("", "not a mesh that can be used");
    refused("data:application/octet-stream;base64,AAAA", "not a mesh that can be used");
    write_bytes(folder.path() / "parts" / "short.bin", "abc");
    refused("short.bin", "not a mesh that can be used");
    fs::create_directory(folder.path() / "parts" / "folder.bin");
    refused("folder.bin", "this is a folder");
    refused(".", "this is a folder");

    auto description = nlohmann::json::parse(gltf_text(glb, "the box.bin"));
    description["extensionsRequired"] = {"EXT_packed_triangles"};
    write_bytes(path, description.dump());
    CHECK(mesh_complaint(path).find("it needs the extension \"EXT_packed_triangles\"") !=
          std::string::npos);
    description["extensionsRequired"] = {"KHR_materials_unlit"};
    write_bytes(path, description.dump());
    CHECK(mesh_complaint(path) == "no error");
}

TEST_CASE("damaged .gltf files are read or refused, never anything else") {
    const TemporaryFolder folder;
    write_glb(folder / "box.glb", box_mesh({1, 2, 3}, {11, 22, 33}), "box");
    const std::string glb = bytes_of(folder / "box.glb");
    write_bytes(folder / "box.bin", glb_data(glb));
    std::mt19937 random(20250502);  // fixed seed
    int refused = 0;
    for (int run = 0; run < 600; ++run) {
        std::string text = gltf_text(
            glb, run % 2 == 0 ? "box.bin"
                              : "data:application/gltf-buffer;base64," + base64(glb_data(glb)));
        for (int i = 0; i < 1 + run % 4; ++i) {
            const std::size_t at = random() % text.size();
            if (random() % 2 == 0)
                text[at] = static_cast<char>(random() % 256);
            else
                text.erase(at, random() % 20);
        }
        write_bytes(folder / "box.gltf", text);
        const std::string message = mesh_complaint(folder / "box.gltf");
        refused += message != "no error";
        if (message.find('\n') != std::string::npos) FAIL(message);
    }
    CHECK(refused > 200);
    CHECK(refused < 600);
}

TEST_CASE("a scene and its mesh can be moved together, and saved elsewhere") {
    const TemporaryFolder folder;
    fs::create_directory(folder / "a");
    fs::create_directory(folder / "b");
    const fs::path a = folder / "a", b = folder / "b";
    write_glb(a / "hub.glb", box_mesh({0, -5, -5}, {28, 5, 5}), "box");
    write_bytes(a / "car.toml", own_scene);
    Setup setup = read_scene(a / "car.toml");
    setup.gears.spur = 80;
    save_scene(setup, a / "car.toml");
    CHECK(bytes_of(a / "car.toml") == with(own_scene, "spur = 76", "spur = 80"));

    // To another folder alone: the mesh stays where it is.
    save_scene(setup, b / "car.toml");
    const Setup elsewhere = read_scene(b / "car.toml");
    CHECK(fs::path(elsewhere.own_parts.at(0).file).is_absolute());
    CHECK(fs::equivalent(elsewhere.own_parts.at(0).found, a / "hub.glb"));
    save_scene(setup, b / "car.toml");
    CHECK(read_scene(b / "car.toml").own_parts == elsewhere.own_parts);
    // With what its own file says besides.
    save_scene(setup, b / "other.toml", a / "car.toml");
    CHECK(read_scene(b / "other.toml").own_parts == elsewhere.own_parts);
    CHECK(bytes_of(b / "other.toml") == with(bytes_of(a / "car.toml"), "\"hub.glb\"",
                                             "\"" + elsewhere.own_parts.at(0).file + "\""));

    // Both together.
    fs::rename(a, folder / "c");
    const Setup moved = read_scene(folder.path() / "c" / "car.toml");
    CHECK(fs::equivalent(moved.own_parts.at(0).found, folder.path() / "c" / "hub.glb"));
    // The link to a scene is not where its meshes are.
    fs::create_symlink(folder.path() / "c" / "car.toml", b / "link.toml");
    CHECK(read_scene(b / "link.toml").own_parts == moved.own_parts);
    // A mesh that has gone since keeps its name.
    fs::remove(folder.path() / "c" / "hub.glb");
    save_scene(moved, folder.path() / "c" / "car.toml");
    CHECK(bytes_of(folder.path() / "c" / "car.toml") == with(own_scene, "spur = 76", "spur = 80"));
}

TEST_CASE("the library reads a mesh again when its file has changed") {
    const TemporaryFolder folder;
    const std::string path = (folder / "hub.glb").string();
    const MeshLibrary library = asset_library();
    CHECK(volume(library("cap_screw")) > 0);
    CHECK_THROWS_AS(library("no_such_mesh"), FileError);
    CHECK_THROWS_AS(library(path), FileError);
    write_glb(path, box_mesh({0, 0, 0}, {1, 1, 1}), "box");
    write_bytes(folder / "car.toml", own_scene);
    const Setup first = read_scene(folder / "car.toml");
    CHECK(volume(library(path)) == Approx(1).epsilon(1e-5));
    CHECK(&library(path) == &library(path));

    write_glb(path, box_mesh({0, 0, 0}, {2, 2, 2}), "larger box");
    const Setup second = read_scene(folder / "car.toml");
    CHECK(first.own_parts[0].stamp != second.own_parts[0].stamp);
    CHECK(volume(library(path)) == Approx(8).epsilon(1e-5));
    // Half written or gone: what was read before still stands.
    write_bytes(path, "glTF");
    CHECK(volume(library(path)) == Approx(8).epsilon(1e-5));
    fs::remove(path);
    CHECK(volume(library(path)) == Approx(8).epsilon(1e-5));
    CHECK(file_stamp(path) == 0);
}
