#include "draw/material.hpp"

#include <array>

namespace podwright {

namespace {

constexpr glm::vec4 dark_line{0.07F, 0.08F, 0.10F, 0.52F};
constexpr glm::vec4 light_line{0.50F, 0.53F, 0.57F, 0.55F};

// In the order of Look. Metals' colours: reflectance at normal incidence, from memory.
constexpr std::array<Material, 11> materials{{
    {{0.70F, 0.71F, 0.73F}, 1, 0.16F, 0.04F, 0, 0, dark_line, {0.76F, 0.79F, 0.83F}},
    {{0.20F, 0.205F, 0.22F}, 1, 0.34F, 0.04F, 0, 0, dark_line, {0.56F, 0.59F, 0.64F}},
    {{0.86F, 0.865F, 0.87F}, 1, 0.33F, 0.04F, 0, 0, dark_line, {0.84F, 0.86F, 0.88F}},
    {{0.12F, 0.40F, 0.42F}, 1, 0.32F, 0.04F, 0, 0, dark_line, {0.55F, 0.74F, 0.75F}},
    {{0.88F, 0.66F, 0.30F}, 1, 0.24F, 0.04F, 0, 0, dark_line, {0.90F, 0.80F, 0.53F}},
    {{0.93F, 0.52F, 0.36F}, 1, 0.24F, 0.04F, 0, 0, dark_line, {0.91F, 0.68F, 0.56F}},
    {{0.021F, 0.022F, 0.024F}, 0, 0.38F, 0.05F, 0, 0, light_line, {0.52F, 0.53F, 0.55F}},
    {{0.64F, 0.64F, 0.625F}, 0, 0.36F, 0.04F, 0, 0, dark_line, {0.93F, 0.93F, 0.91F}},
    {{0.024F, 0.025F, 0.027F}, 0, 0.24F, 0.05F, 1, 0, light_line, {0.44F, 0.46F, 0.49F}},
    {{0.042F, 0.042F, 0.044F}, 0, 0.90F, 0.02F, 0, 1, light_line, {0.60F, 0.60F, 0.59F}},
    {{0.020F, 0.020F, 0.021F}, 0, 0.66F, 0.03F, 0, 0.15F, light_line, {0.48F, 0.47F, 0.46F}},
}};

}  // namespace

const Material& material_of(Look look) { return materials.at(static_cast<std::size_t>(look)); }

Accent accent_of(Emphasis emphasis) {
    switch (emphasis) {
        case Emphasis::normal: return {};
        case Emphasis::hovered: return {1.22F, glm::vec4(picked_colour, 0), false, 0.35F, 1};
        case Emphasis::picked: return {1.08F, glm::vec4(picked_colour, 0.16F), false, 0.55F, 1};
        case Emphasis::faded: return {1, glm::vec4(0), false, 0, 0.20F};
        case Emphasis::ghost: return {1, glm::vec4(picked_colour, 0.6F), false, 0, 0.25F};
        case Emphasis::alarm: return {1, glm::vec4(alarm_colour, 0.92F), true, 0, 1};
    }
    return {};
}

}  // namespace podwright
