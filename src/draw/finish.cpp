#include "draw/finish.hpp"

#include <array>

namespace podwright {

namespace {

constexpr glm::vec4 dark_line{0.07F, 0.08F, 0.10F, 0.52F};
constexpr glm::vec4 light_line{0.50F, 0.53F, 0.57F, 0.55F};

// In the order of Look: base, metal, roughness, reflectance, grooves, sheen, pattern, line, cap,
// fill. Metals' colours: reflectance at normal incidence, from memory; all else is chosen by eye.
constexpr std::array<Finish, 11> finishes{{
    {{0.69F, 0.69F, 0.70F},
     1,
     0.17F,
     0.04F,
     0.25F,
     0,
     Pattern::none,
     dark_line,
     {0.76F, 0.79F, 0.83F},
     Fill::lines},
    {{0.19F, 0.19F, 0.20F},
     1,
     0.33F,
     0.04F,
     0,
     0,
     Pattern::none,
     dark_line,
     {0.56F, 0.59F, 0.64F},
     Fill::lines},
    {{0.83F, 0.835F, 0.845F},
     1,
     0.27F,
     0.04F,
     0.45F,
     0,
     Pattern::none,
     dark_line,
     {0.84F, 0.86F, 0.88F},
     Fill::lines},
    {{0.035F, 0.29F, 0.33F},
     1,
     0.27F,
     0.04F,
     0.40F,
     0,
     Pattern::none,
     dark_line,
     {0.55F, 0.74F, 0.75F},
     Fill::lines},
    {{0.88F, 0.65F, 0.29F},
     1,
     0.20F,
     0.04F,
     0.30F,
     0,
     Pattern::none,
     dark_line,
     {0.90F, 0.80F, 0.53F},
     Fill::lines},
    {{0.93F, 0.52F, 0.36F},
     1,
     0.20F,
     0.04F,
     0.30F,
     0,
     Pattern::none,
     dark_line,
     {0.91F, 0.68F, 0.56F},
     Fill::lines},
    {{0.022F, 0.0225F, 0.024F},
     0,
     0.34F,
     0.045F,
     0,
     0,
     Pattern::none,
     light_line,
     {0.52F, 0.53F, 0.55F},
     Fill::lines},
    {{0.66F, 0.66F, 0.64F},
     0,
     0.34F,
     0.04F,
     0,
     0,
     Pattern::none,
     dark_line,
     {0.93F, 0.93F, 0.91F},
     Fill::lines},
    {{0.010F, 0.010F, 0.011F},
     0,
     0.10F,
     0.036F,
     0.09F,
     0,
     Pattern::woven,
     light_line,
     {0.44F, 0.46F, 0.49F},
     Fill::lines},
    {{0.026F, 0.026F, 0.027F},
     0,
     0.85F,
     0.02F,
     0,
     0.05F,
     Pattern::porous,
     light_line,
     {0.60F, 0.60F, 0.59F},
     Fill::crossed},
    {{0.020F, 0.020F, 0.021F},
     0,
     0.60F,
     0.03F,
     0,
     0.03F,
     Pattern::none,
     light_line,
     {0.48F, 0.47F, 0.46F},
     Fill::crossed},
}};

}  // namespace

const Finish& finish_of(Look look) { return finishes.at(static_cast<std::size_t>(look)); }

Accent accent_of(Emphasis emphasis) {
    switch (emphasis) {
        case Emphasis::normal: return {};
        case Emphasis::hovered: return {1.22F, glm::vec4(picked_colour, 0), false, 0.35F, 1};
        case Emphasis::picked: return {1.08F, glm::vec4(picked_colour, 0.16F), false, 0.55F, 1};
        case Emphasis::faded: return {1, glm::vec4(0), false, 0, 0.14F};
        case Emphasis::ghost: return {1, glm::vec4(ghost_colour, 0.85F), false, 0, 0.17F};
        case Emphasis::alarm: return {1, glm::vec4(alarm_colour, 0.92F), true, 0, 1};
    }
    return {};
}

}  // namespace podwright
