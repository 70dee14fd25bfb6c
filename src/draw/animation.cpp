#include "draw/animation.hpp"

#include <webp/encode.h>
#include <webp/mux.h>

#include <cmath>
#include <stdexcept>
#include <string>

namespace podwright {

namespace {

constexpr float quality = 88;  // of 100: no visible rings about thin lines
constexpr int effort = 2;      // of 6: a little larger, several times as fast

[[noreturn]] void fail(const std::string& why) {
    throw std::runtime_error("The animation could not be written as WebP: " + why + ".");
}

}  // namespace

struct Animation::Encoder {
    Encoder(int w, int h, int pictures_a_second) : width(w), height(h), rate(pictures_a_second) {
        WebPAnimEncoderOptions options;
        if (!WebPAnimEncoderOptionsInit(&options) || !WebPConfigInit(&config))
            fail("the library is of another version");
        config.quality = quality;
        config.method = effort;
        config.thread_level = 0;
        encoder = WebPAnimEncoderNew(width, height, &options);
        if (!encoder) fail("there is not enough memory, or the size is out of range");
    }
    ~Encoder() { WebPAnimEncoderDelete(encoder); }
    Encoder(const Encoder&) = delete;
    Encoder& operator=(const Encoder&) = delete;

    int now() const { return static_cast<int>(std::lround(1000.0 * count / rate)); }  // ms
    void check(int done) const {
        if (!done) fail(WebPAnimEncoderGetError(encoder));
    }

    int width, height, rate;
    int count = 0;
    WebPConfig config{};
    WebPAnimEncoder* encoder = nullptr;
};

Animation::Animation(int width, int height, int rate)
    : encoder_(std::make_unique<Encoder>(width, height, rate)) {}

Animation::~Animation() = default;

void Animation::add(const Image& image) {
    if (image.width != encoder_->width || image.height != encoder_->height)
        fail("its pictures are not all of one size");
    WebPPicture picture;
    if (!WebPPictureInit(&picture)) fail("the library is of another version");
    picture.use_argb = 1;
    picture.width = image.width;
    picture.height = image.height;
    // The pictures are opaque: what the fourth byte holds does not matter.
    const int read = WebPPictureImportRGBX(&picture, image.rgba.data(), 4 * image.width);
    const int added =
        read ? WebPAnimEncoderAdd(encoder_->encoder, &picture, encoder_->now(), &encoder_->config)
             : 0;
    WebPPictureFree(&picture);
    if (!read) fail("there is not enough memory");
    encoder_->check(added);
    ++encoder_->count;
}

std::vector<std::uint8_t> Animation::bytes() {
    encoder_->check(WebPAnimEncoderAdd(encoder_->encoder, nullptr, encoder_->now(), nullptr));
    WebPData data;
    WebPDataInit(&data);
    encoder_->check(WebPAnimEncoderAssemble(encoder_->encoder, &data));
    std::vector<std::uint8_t> bytes(data.bytes, data.bytes + data.size);
    WebPDataClear(&data);
    return bytes;
}

}  // namespace podwright
