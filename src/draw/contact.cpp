#include "draw/contact.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace podwright {

namespace {

using Field = std::vector<float>;

// A running mean of 2 radius + 1 neighbours along lines of `size` values, `step` apart.
void mean_lines(Field& field, Field& scratch, int size, int radius, int step, int next_line) {
    const float share = 1.0F / static_cast<float>(2 * radius + 1);
    for (int line = 0; line < size; ++line) {
        const int start = line * next_line;
        const auto value = [&](int i) {
            return i < 0 || i >= size ? 0.0F : field[start + i * step];
        };
        float sum = 0;
        for (int i = -radius; i <= radius; ++i) sum += value(i);
        for (int i = 0; i < size; ++i) {
            scratch[i] = sum * share;
            sum += value(i + radius + 1) - value(i - radius);
        }
        for (int i = 0; i < size; ++i) field[start + i * step] = std::max(scratch[i], 0.0F);
    }
}

// Three means come close to a Gaussian of sigma² = 3 ((2 radius + 1)² - 1) / 12.
void blur(Field& field, Field& scratch, int size, double sigma) {
    const int radius =
        std::max(1, static_cast<int>(std::lround((std::sqrt(4 * sigma * sigma + 1) - 1) / 2)));
    for (int round = 0; round < 3; ++round) {
        mean_lines(field, scratch, size, radius, 1, size);
        mean_lines(field, scratch, size, radius, size, 1);
    }
}

constexpr std::array<double, 4> layers{1, 4, 12, 32};  // mm

// Share of layer `k` in a height: linear in its logarithm between the layers.
float share_of(std::size_t k, double height) {
    const double h = std::clamp(height, layers.front(), layers.back());
    const auto between = [&](double from, double to) {
        return std::log(h / from) / std::log(to / from);
    };
    double share = h == layers[k] ? 1 : 0;
    if (k > 0 && h < layers[k])
        share = between(layers[k - 1], layers[k]);
    else if (k + 1 < layers.size() && h > layers[k])
        share = between(layers[k + 1], layers[k]);
    return static_cast<float>(std::clamp(share, 0.0, 1.0));
}

}  // namespace

std::vector<std::uint8_t> contact_shadow(const std::vector<std::uint8_t>& heights, int size,
                                         double texel, double greatest) {
    constexpr std::uint8_t nothing = 255;
    const auto count = heights.size();
    Field hidden(count, 0.0F);
    Field layer(count);
    Field scratch(static_cast<std::size_t>(size));
    for (std::size_t k = 0; k < layers.size(); ++k) {
        std::array<float, 256> shares{};
        for (std::size_t h = 0; h < nothing; ++h)
            shares.at(h) = share_of(k, static_cast<double>(h) / 254 * greatest);
        for (std::size_t i = 0; i < count; ++i) layer[i] = shares[heights[i]];
        // A Gaussian holds half of its weight within 1.18 sigma.
        blur(layer, scratch, size, layers[k] / 1.18 / texel);
        for (std::size_t i = 0; i < count; ++i) hidden[i] += layer[i];
    }
    std::vector<std::uint8_t> result(count);
    for (std::size_t i = 0; i < count; ++i)
        result[i] = static_cast<std::uint8_t>(std::lround(std::min(hidden[i], 1.0F) * 255));
    return result;
}

}  // namespace podwright
