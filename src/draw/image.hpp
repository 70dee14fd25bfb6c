#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace podwright {

/// A picture: rows from the top, four bytes a pixel (red, green, blue, opacity; sRGB).
struct Image {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> rgba;

    /// Four bytes of the pixel in column x, row y.
    const std::uint8_t* at(int x, int y) const {
        return rgba.data() + 4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                                  static_cast<std::size_t>(x));
    }
};

/// The picture as the content of a PNG file. Throws std::runtime_error.
std::vector<std::uint8_t> png_bytes(const Image& image);

/// Reads the content of a PNG file. Throws std::runtime_error with one plain line.
Image image_from_png(std::span<const std::uint8_t> bytes);

/// How far two pictures differ. On this scale, of one channel's range: 0 = the same bytes; mean
/// below 0.002 = the same to the eye (rounding of another driver); mean above 0.01 or many pixels
/// near the maximum = something moved or changed colour.
struct Difference {
    double mean = 0;  ///< of |a - b| over all pixels and red, green, blue; 0..1
    double max = 0;   ///< greatest |a - b| of any pixel and colour; 0..1
    Image picture;    ///< |a - b| per colour, eight times as strong, on black
};

/// Throws std::runtime_error if the sizes differ.
Difference compare(const Image& a, const Image& b);

}  // namespace podwright
