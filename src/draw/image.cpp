#include "draw/image.hpp"

#include <stb_image.h>
#include <zlib.h>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

namespace podwright {

namespace {

void append_number(std::vector<std::uint8_t>& bytes, std::uint32_t value) {
    for (const unsigned shift : {24U, 16U, 8U, 0U})
        bytes.push_back(static_cast<std::uint8_t>(value >> shift & 255U));
}

// PNG (ISO/IEC 15948), 5.3: length, name, content, check sum of name and content.
void append_chunk(std::vector<std::uint8_t>& bytes, std::string_view name,
                  const std::vector<std::uint8_t>& content) {
    append_number(bytes, static_cast<std::uint32_t>(content.size()));
    const std::size_t start = bytes.size();
    bytes.insert(bytes.end(), name.begin(), name.end());
    bytes.insert(bytes.end(), content.begin(), content.end());
    append_number(bytes, static_cast<std::uint32_t>(crc32(
                             0, bytes.data() + start, static_cast<uInt>(bytes.size() - start))));
}

// Each row as its difference from the one above (filter type 2), without opacity if `channels`
// is 3.
std::vector<std::uint8_t> filtered_rows(const Image& image, std::size_t channels) {
    const auto width = static_cast<std::size_t>(image.width);
    const auto height = static_cast<std::size_t>(image.height);
    std::vector<std::uint8_t> rows(height * (1 + channels * width));
    std::uint8_t* out = rows.data();
    const std::vector<std::uint8_t> nothing(4 * width);
    const std::uint8_t* above = nothing.data();
    for (std::size_t y = 0; y < height; ++y) {
        *out++ = 2;
        const std::uint8_t* row = image.rgba.data() + 4 * width * y;
        for (std::size_t i = 0; i < 4 * width; i += 4)
            for (std::size_t k = i; k < i + channels; ++k)
                *out++ = static_cast<std::uint8_t>(row[k] - above[k]);
        above = row;
    }
    return rows;
}

std::string size_text(const Image& image) {
    return std::to_string(image.width) + " x " + std::to_string(image.height);
}

}  // namespace

std::vector<std::uint8_t> png_bytes(const Image& image) {
    const std::size_t width = static_cast<std::size_t>(image.width);
    const std::size_t height = static_cast<std::size_t>(image.height);
    if (width == 0 || height == 0 || image.rgba.size() != 4 * width * height)
        throw std::runtime_error("The picture could not be written as PNG: it is empty.");
    bool opaque = true;
    for (std::size_t i = 3; i < image.rgba.size(); i += 4) opaque &= image.rgba[i] == 255;
    const std::vector<std::uint8_t> rows = filtered_rows(image, opaque ? 3 : 4);
    uLongf size = compressBound(static_cast<uLong>(rows.size()));
    std::vector<std::uint8_t> packed(size);
    // A quick search makes files a little larger in a quarter of the time.
    if (compress2(packed.data(), &size, rows.data(), static_cast<uLong>(rows.size()), 2) != Z_OK)
        throw std::runtime_error("The picture could not be written as PNG.");
    packed.resize(size);

    std::vector<std::uint8_t> bytes{0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
    std::vector<std::uint8_t> header;
    append_number(header, static_cast<std::uint32_t>(image.width));
    append_number(header, static_cast<std::uint32_t>(image.height));
    const std::uint8_t colour_type = opaque ? 2 : 6;
    header.insert(header.end(), {8, colour_type, 0, 0, 0});
    append_chunk(bytes, "IHDR", header);
    append_chunk(bytes, "IDAT", packed);
    append_chunk(bytes, "IEND", {});
    return bytes;
}

Image image_from_png(std::span<const std::uint8_t> bytes) {
    Image image;
    int channels = 0;
    const std::unique_ptr<stbi_uc, void (*)(void*)> pixels(
        stbi_load_from_memory(bytes.data(), static_cast<int>(bytes.size()), &image.width,
                              &image.height, &channels, 4),
        stbi_image_free);
    if (!pixels)
        throw std::runtime_error(std::string("This is not a PNG picture that can be read: ") +
                                 stbi_failure_reason() + ".");
    const auto size =
        4 * static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height);
    image.rgba.assign(pixels.get(), pixels.get() + size);
    return image;
}

Difference compare(const Image& a, const Image& b) {
    if (a.width != b.width || a.height != b.height)
        throw std::runtime_error("Pictures of different sizes cannot be compared: " + size_text(a) +
                                 " and " + size_text(b) + ".");
    Difference result;
    result.picture = {a.width, a.height, std::vector<std::uint8_t>(a.rgba.size(), 255)};
    std::uint64_t sum = 0;
    int most = 0;
    for (std::size_t i = 0; i < a.rgba.size(); ++i) {
        if (i % 4 == 3) continue;
        const int delta = std::abs(int{a.rgba[i]} - int{b.rgba[i]});
        sum += static_cast<std::uint64_t>(delta);
        most = std::max(most, delta);
        result.picture.rgba[i] = static_cast<std::uint8_t>(std::min(8 * delta, 255));
    }
    const std::size_t samples = a.rgba.size() / 4 * 3;
    if (samples > 0) result.mean = static_cast<double>(sum) / 255 / static_cast<double>(samples);
    result.max = most / 255.0;
    return result;
}

}  // namespace podwright
