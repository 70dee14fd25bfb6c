#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "draw/image.hpp"

namespace podwright {

/// Pictures one after the other as an animated WebP that plays for ever. The same pictures give the
/// same bytes.
class Animation {
public:
    /// Size in pixels, each 1 to 16383; `rate` in pictures a second. Throws std::runtime_error.
    Animation(int width, int height, int rate);
    ~Animation();

    /// Throws std::runtime_error if the size is another.
    void add(const Image& image);
    /// The content of the file, once all pictures are added. Throws std::runtime_error.
    std::vector<std::uint8_t> bytes();

private:
    struct Encoder;
    std::unique_ptr<Encoder> encoder_;
};

}  // namespace podwright
