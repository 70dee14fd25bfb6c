#include "draw/grain.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>
#include <vector>

namespace podwright {

namespace {

constexpr int size = 32;

std::size_t at(int x, int y, int z) {
    const auto wrapped = [](int i) { return static_cast<std::size_t>((i + size) % size); };
    return (wrapped(z) * size + wrapped(y)) * size + wrapped(x);
}

// Random levels, each averaged with its neighbours: pores of about two texels.
std::vector<float> levels() {
    std::mt19937 random(20);  // always the same foam
    std::vector<float> raw(static_cast<std::size_t>(size) * size * size);
    for (float& level : raw)
        level = static_cast<float>(random() >> 8U) / static_cast<float>(1U << 24U) - 0.5F;
    std::vector<float> smooth(raw.size());
    for (int z = 0; z < size; ++z)
        for (int y = 0; y < size; ++y)
            for (int x = 0; x < size; ++x) {
                const float beside = raw[at(x - 1, y, z)] + raw[at(x + 1, y, z)] +
                                     raw[at(x, y - 1, z)] + raw[at(x, y + 1, z)] +
                                     raw[at(x, y, z - 1)] + raw[at(x, y, z + 1)];
                smooth[at(x, y, z)] = 0.5F * raw[at(x, y, z)] + 0.12F * beside;
            }
    return smooth;
}

std::uint8_t byte_of(float value) {
    return static_cast<std::uint8_t>(std::lround(std::clamp(value + 0.5F, 0.0F, 1.0F) * 255));
}

// RGBA of a cube of side `from`, each texel of half the side the mean of eight.
std::vector<std::uint8_t> halved(const std::vector<std::uint8_t>& texels, std::size_t from) {
    const std::size_t to = from / 2;
    std::vector<std::uint8_t> result;
    result.reserve(texels.size() / 8);
    for (std::size_t z = 0; z < to; ++z)
        for (std::size_t y = 0; y < to; ++y)
            for (std::size_t x = 0; x < to; ++x)
                for (std::size_t channel = 0; channel < 4; ++channel) {
                    int sum = 0;
                    for (std::size_t i = 0; i < 8; ++i) {
                        const std::size_t column = 2 * x + (i & 1U);
                        const std::size_t row = 2 * y + (i >> 1U & 1U);
                        const std::size_t layer = 2 * z + (i >> 2U);
                        sum += texels[4 * ((layer * from + row) * from + column) + channel];
                    }
                    result.push_back(static_cast<std::uint8_t>((sum + 4) / 8));
                }
    return result;
}

}  // namespace

GlTexture make_grain() {
    const std::vector<float> level = levels();
    std::vector<std::uint8_t> texels;
    texels.reserve(4 * level.size());
    for (int z = 0; z < size; ++z)
        for (int y = 0; y < size; ++y)
            for (int x = 0; x < size; ++x)
                for (const float value :
                     {level[at(x - 1, y, z)] - level[at(x + 1, y, z)],
                      level[at(x, y - 1, z)] - level[at(x, y + 1, z)],
                      level[at(x, y, z - 1)] - level[at(x, y, z + 1)], level[at(x, y, z)]})
                    texels.push_back(byte_of(value));
    GlTexture texture = GlTexture::make();
    glBindTexture(GL_TEXTURE_3D, texture.id());
    glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
    // A software renderer takes longer over the making of mipmaps than over a whole picture.
    for (int side = size, depth = 0; side > 0; side /= 2, ++depth) {
        glTexImage3D(GL_TEXTURE_3D, depth, GL_RGBA8, side, side, side, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                     texels.data());
        texels = halved(texels, static_cast<std::size_t>(side));
    }
    glTexParameteri(GL_TEXTURE_3D, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_NEAREST);
    glTexParameteri(GL_TEXTURE_3D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    for (const GLenum axis : {GL_TEXTURE_WRAP_S, GL_TEXTURE_WRAP_T, GL_TEXTURE_WRAP_R})
        glTexParameteri(GL_TEXTURE_3D, axis, GL_REPEAT);
    glBindTexture(GL_TEXTURE_3D, 0);
    return texture;
}

}  // namespace podwright
