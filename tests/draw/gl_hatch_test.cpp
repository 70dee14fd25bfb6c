#include <catch2/catch.hpp>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>
#include <vector>

#include "gl_bench.hpp"
#include "test_meshes.hpp"

using namespace podwright;
using test_meshes::changed;
using test_meshes::count;
using test_meshes::GlBench;

namespace {

// A block of 40 by 40 mm cut through its middle, seen square to the cut; 50 mm fill the picture.
Camera square_on() {
    Camera camera;
    camera.distance = 4000;
    camera.elevation = 0;
    camera.field_of_view = 0.0125;
    return camera;
}

Scene cut_block(GlBench& bench, int hatch, Look look = Look::white_plastic) {
    Scene scene;
    scene.show_ground = false;
    Item item;
    item.mesh = bench.renderer.upload(test_meshes::box({40, 40, 40}));
    item.look = look;
    item.hatch = hatch;
    scene.items.push_back(item);
    scene.cut = Cut{{1, 0, 0}, 0};
    return scene;
}

Image picture(int height, int hatch, Look look = Look::white_plastic) {
    GlBench bench(height, height);
    return bench.draw(cut_block(bench, hatch, look), square_on());
}

/// Lines that row `y` crosses from column `from` to `to`.
int lines_in_row(const Image& image, int y, int from, int to) {
    int lines = 0;
    bool on_line = true;
    for (int x = from; x < to; ++x) {
        const int level = image.at(x, y)[1];
        if (!on_line && level < 190) ++lines;
        on_line = level < 190;
    }
    return lines;
}

}  // namespace

TEST_CASE("GL: a hatch has the lines that its spacing gives, at every size of the picture") {
    for (const int height : {720, 1440}) {
        const Image image = picture(height, 0);
        // Lines at 45 degrees, nine pixels apart at 720 lines: along a row 9 sqrt 2 (derived).
        const double apart = 9 * std::sqrt(2.0) * height / 720;
        const int from = height / 5;
        const int to = height * 4 / 5;
        for (const double place : {0.3, 0.5, 0.7})
            CHECK(lines_in_row(image, static_cast<int>(place * height), from, to) ==
                  Approx((to - from) / apart).margin(1));
    }
}

TEST_CASE("GL: hatch lines cover the share of the cut face that their width gives") {
    const Image image = picture(720, 0);
    double sum = 0;
    int most = 0;
    constexpr int from = 150;
    constexpr int to = 570;
    for (int y = from; y < to; ++y)
        for (int x = from; x < to; ++x) most = std::max(most, int{image.at(x, y)[1]});
    for (int y = from; y < to; ++y)
        for (int x = from; x < to; ++x) sum += most - image.at(x, y)[1];
    // One pixel of line every nine, half as light as the face.
    const double share = sum / (0.5 * most) / ((to - from) * (to - from));
    CHECK(share == Approx(1.0 / 9).epsilon(0.06));
}

TEST_CASE("GL: no two hatches are alike, and a thin part is filled") {
    std::vector<Image> pictures;
    for (int hatch = 0; hatch < hatch_count; ++hatch) pictures.push_back(picture(360, hatch));
    for (std::size_t a = 0; a < pictures.size(); ++a)
        for (std::size_t b = 0; b < a; ++b) {
            INFO("hatches " << a << " and " << b);
            CHECK(changed(pictures[a], pictures[b], 20) > 5000);
        }
    const Image filled = picture(360, solid_hatch);
    for (int y = 100; y < 260; ++y)
        for (int x = 100; x < 260; ++x)
            if (filled.at(x, y)[1] != filled.at(180, 180)[1]) FAIL(x << ", " << y);
    CHECK(int{filled.at(180, 180)[1]} < 90);
}

TEST_CASE("GL: soft parts are hatched crosswise") {
    const Image plain = picture(720, 0, Look::white_plastic);
    const Image foam = picture(720, 0, Look::foam);
    // Along a line of the hatch, which rises at 45 degrees to the left, only crossed lines vary.
    const auto varies = [](const Image& image) {
        int least = 255;
        int most = 0;
        for (int i = 0; i < 60; ++i) {
            const int level = image.at(330 + i, 330 + i)[1];
            const int other = image.at(330 + i, 390 - i)[1];
            least = std::min({least, level, other});
            most = std::max({most, level, other});
        }
        return most - least;
    };
    CHECK(varies(foam) > 30);
    const int dark = count(foam, [](int r, int g, int b) { return r < 100 && g < 100 && b < 100; });
    const int dark_plain =
        count(plain, [](int r, int g, int b) { return r < 140 && g < 140 && b < 140; });
    CHECK(dark > dark_plain);
}

TEST_CASE("GL: a faded part is cut and capped like the others") {
    GlBench bench(360, 360);
    Scene scene = cut_block(bench, 0);
    scene.items[0].emphasis = Emphasis::faded;
    scene.cut.reset();
    const Image whole = bench.draw(scene, square_on());
    scene.cut = Cut{{1, 0, 0}, 0};
    const Image image = bench.draw(scene, square_on());
    // 40 of 50 mm are the block.
    const double area = 0.8 * 360 * 0.8 * 360;
    CHECK(changed(whole, image, 3) > 0.9 * area);
    CHECK(lines_in_row(image, 180, 72, 288) == 0);  // faint: lighter than any line of a solid part
    scene.cut = Cut{{1, 0, 0}, -30};
    const Image gone = bench.draw(scene, square_on());
    scene.items.clear();
    CHECK(changed(gone, bench.draw(scene, square_on()), 0) == 0);
}
