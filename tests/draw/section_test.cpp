#include "draw/section.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "draw/contact.hpp"
#include "test_meshes.hpp"

using namespace podwright;

namespace {

double length_of(const std::vector<glm::vec3>& lines) {
    double sum = 0;
    for (std::size_t i = 0; i + 1 < lines.size(); i += 2)
        sum += glm::length(glm::dvec3(lines[i + 1]) - glm::dvec3(lines[i]));
    return sum;
}

std::vector<glm::vec3> cut(const Mesh& mesh, const glm::dvec3& normal, double offset) {
    std::vector<glm::vec3> positions;
    for (const Vertex& vertex : mesh.vertices) positions.push_back(vertex.position);
    return section_lines(positions, mesh.triangles, normal, offset);
}

}  // namespace

TEST_CASE("the section of a sphere is a circle of the right length in the plane") {
    const Mesh ball = test_meshes::sphere(20, 256, 128);
    const auto lines = cut(ball, {1, 0, 0}, 12);
    const double radius = 16;  // 12, 16, 20: Pythagoras
    CHECK(length_of(lines) == Approx(2 * 3.14159265 * radius).epsilon(0.001));
    for (const auto& p : lines) CHECK(p.x == Approx(12).margin(1e-4));
    CHECK(cut(ball, {1, 0, 0}, 20.5).empty());
}

TEST_CASE("the section of a box through its vertices' plane is closed") {
    const Mesh box = test_meshes::box({10, 20, 30});
    CHECK(length_of(cut(box, {0, 0, 1}, 0)) == Approx(60));
    CHECK(length_of(cut(box, {0, 0, 1}, -15)) == Approx(0).margin(1e-9));
    CHECK(length_of(cut(box, {0, 0, 1}, 15)) == Approx(60));  // on the plane counts as above
}

TEST_CASE("the contact shadow under a disc falls off as the disc's share of the hemisphere") {
    // A disc of radius R at height h hides R² / (R² + h²) of a level surface's view below its
    // middle (form factor; handbook of radiation, from memory). The blurred layers come near it.
    constexpr int size = 128;
    const double texel = 1;
    const double greatest = 60;
    for (const double h : {4.0, 12.0}) {
        std::vector<std::uint8_t> heights(std::size_t{size} * size, 255);
        const double radius = 15;
        for (int y = 0; y < size; ++y)
            for (int x = 0; x < size; ++x)
                if (std::hypot(x - 64, y - 64) < radius)
                    heights[y * size + x] =
                        static_cast<std::uint8_t>(std::lround(h / greatest * 254));
        const auto hidden = contact_shadow(heights, size, texel, greatest);
        const double expected = radius * radius / (radius * radius + h * h);
        CHECK(hidden[64 * size + 64] / 255.0 == Approx(expected).margin(0.12));
        CHECK(hidden[64 * size + 64] > hidden[64 * size + 76]);
        CHECK(hidden[64 * size + 76] > hidden[64 * size + 90]);
        CHECK(int{hidden[2 * size + 2]} == 0);
    }
}
