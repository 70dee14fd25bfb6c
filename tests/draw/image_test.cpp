#include "draw/image.hpp"

#include <catch2/catch.hpp>
#include <cstdint>
#include <stdexcept>

using namespace podwright;

namespace {

Image gradient(int width, int height) {
    Image image{width, height, {}};
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            for (const int value : {x * 7, y * 11, x ^ y, 255})
                image.rgba.push_back(static_cast<std::uint8_t>(value));
    return image;
}

}  // namespace

TEST_CASE("PNG bytes have PNG's signature and give the same picture back") {
    const Image image = gradient(37, 23);
    const auto bytes = png_bytes(image);
    // First eight bytes of every PNG file: ISO/IEC 15948, 5.2.
    const std::vector<std::uint8_t> signature{137, 80, 78, 71, 13, 10, 26, 10};
    REQUIRE(bytes.size() > signature.size());
    CHECK(std::equal(signature.begin(), signature.end(), bytes.begin()));
    const Image back = image_from_png(bytes);
    CHECK(back.width == 37);
    CHECK(back.height == 23);
    CHECK(back.rgba == image.rgba);
}

TEST_CASE("what is no PNG is refused with a sentence") {
    const std::vector<std::uint8_t> bytes{'n', 'o', ' ', 'p', 'n', 'g', '.', '.'};
    CHECK_THROWS_AS(image_from_png(bytes), std::runtime_error);
    auto cut_short = png_bytes(gradient(37, 23));
    cut_short.resize(cut_short.size() / 2);
    CHECK_THROWS_AS(image_from_png(cut_short), std::runtime_error);
}

TEST_CASE("the difference of pictures is counted over red, green and blue") {
    const Image a = gradient(10, 10);
    CHECK(compare(a, a).mean == 0);
    CHECK(compare(a, a).max == 0);
    Image b = a;
    // Pixel 55: bytes 220 to 223.
    b.rgba[221] = static_cast<std::uint8_t>(b.rgba[221] + 51);  // a fifth of 255
    b.rgba[223] = 0;                                            // opacity: not counted
    const Difference difference = compare(a, b);
    CHECK(difference.max == Approx(0.2));
    CHECK(difference.mean == Approx(0.2 / 300));
    CHECK(int{difference.picture.rgba[221]} == 255);  // 8 x 51, at most 255
    CHECK(int{difference.picture.rgba[220]} == 0);
    CHECK_THROWS_AS(compare(a, gradient(10, 11)), std::runtime_error);
}
