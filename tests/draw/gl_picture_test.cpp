#include <catch2/catch.hpp>
#include <fstream>
#include <glm/gtc/matrix_transform.hpp>
#include <iterator>
#include <string>

#include "gl_bench.hpp"
#include "test_meshes.hpp"

using namespace podwright;

namespace {

void write(const std::string& path, const Image& image) {
    const auto bytes = png_bytes(image);
    std::ofstream file(path, std::ios::binary);
    for (const auto byte : bytes) file.put(static_cast<char>(byte));
}

Image read(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) return {};
    const std::vector<std::uint8_t> bytes{std::istreambuf_iterator<char>(file), {}};
    return image_from_png(bytes);
}

// Every kind of surface, an emphasis and the ground, small.
Image small_scene() {
    test_meshes::GlBench bench(320, 180);
    const MeshId ball = bench.renderer.upload(test_meshes::sphere(12, 64, 32));
    const MeshId ring = bench.renderer.upload(test_meshes::torus(16, 5, 64, 24));
    const MeshId box = bench.renderer.upload(test_meshes::box({30, 18, 10}));
    const auto at = [](float x, float y, float z) {
        return glm::translate(glm::mat4(1), glm::vec3(x, y, z));
    };
    Scene scene;
    scene.items.push_back({ball, at(0, -38, 12), Look::bright_steel});
    scene.items.push_back({ring, at(0, 0, 5), Look::foam});
    scene.items.push_back({box, at(4, 38, 5), Look::carbon});
    scene.items.push_back({ball, at(-34, 16, 12), Look::white_plastic, Emphasis::alarm});
    scene.items.push_back({box, at(-34, -18, 5), Look::brass, Emphasis::picked});
    Camera camera;
    camera.target = {-10, 0, 6};
    camera.distance = 230;
    camera.azimuth = 0.35;
    camera.elevation = 0.55;
    return bench.draw(scene, camera);
}

}  // namespace

TEST_CASE("GL: the small scene looks as it did when a person last looked at it") {
    const Image actual = small_scene();
    const std::string stored =
        std::string(PODWRIGHT_SOURCE_DIR) + "/tests/draw/baseline/small_scene.png";
    const std::string build = PODWRIGHT_BINARY_DIR;
    const Image expected = read(stored);
    INFO("actual picture: " << build << "/small_scene_actual.png");
    if (expected.width != actual.width || expected.height != actual.height) {
        write(build + "/small_scene_actual.png", actual);
        FAIL("no baseline of this size in " << stored);
    }
    const Difference difference = compare(expected, actual);
    // The software renderer gives the same bytes again; another version of it, or a graphics
    // processor, rounds edges and highlights otherwise: single pixels may differ much (max), but
    // not many of them (mean). A part that moves by one pixel here changes the mean by about 0.003.
    const double most_mean = 0.0004;
    const double most_max = 0.35;
    if (difference.mean > most_mean || difference.max > most_max) {
        write(build + "/small_scene_actual.png", actual);
        write(build + "/small_scene_difference.png", difference.picture);
    }
    CHECK(difference.mean <= most_mean);
    CHECK(difference.max <= most_max);
}
