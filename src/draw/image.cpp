#include "draw/image.hpp"

#include <stb_image.h>
#include <stb_image_write.h>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <stdexcept>
#include <string>

namespace podwright {

namespace {

void append_bytes(void* context, void* data, int size) {
    auto& bytes = *static_cast<std::vector<std::uint8_t>*>(context);
    const auto* start = static_cast<const std::uint8_t*>(data);
    bytes.insert(bytes.end(), start, start + size);
}

std::string size_text(const Image& image) {
    return std::to_string(image.width) + " x " + std::to_string(image.height);
}

}  // namespace

std::vector<std::uint8_t> png_bytes(const Image& image) {
    std::vector<std::uint8_t> bytes;
    const int done = stbi_write_png_to_func(append_bytes, &bytes, image.width, image.height, 4,
                                            image.rgba.data(), image.width * 4);
    if (done == 0) throw std::runtime_error("The picture could not be written as PNG.");
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
