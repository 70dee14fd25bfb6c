#pragma once

#include <glm/glm.hpp>

#include "draw/renderer.hpp"
#include "shape/look.hpp"

namespace podwright {

enum class Pattern { none, woven, porous };
enum class Fill { lines, crossed };

/// How a look answers to light, and how its lines and cut faces are drawn. `base` is linear; the
/// others are colours of the screen (sRGB).
struct Finish {
    glm::vec3 base;
    float metal = 0;         ///< 1: a conductor, reflects in its own colour
    float roughness = 0.4F;  ///< 0..1, squared in the distribution
    float reflectance = 0.04F;
    float grooves = 0;  ///< of turning, about the mesh's x axis: how far they spread the light;
                        ///< of woven carbon: how strongly the fibres shine
    float sheen = 0;    ///< of loose fibres or pores at a grazing view
    Pattern pattern = Pattern::none;
    glm::vec4 edge;  ///< feature edges: colour and opacity
    glm::vec3 cap;   ///< cut faces
    Fill fill = Fill::lines;
};

const Finish& finish_of(Look look);

/// What an emphasis adds.
struct Accent {
    float lift = 1;        ///< factor of the light
    glm::vec4 tint{0};     ///< colour of the screen and its share
    bool striped = false;  ///< the tint comes in diagonal stripes
    float rim = 0;         ///< share of the tint's colour where the surface turns away
    float opacity = 1;
};

Accent accent_of(Emphasis emphasis);

/// The one colour that marks what is picked.
constexpr glm::vec3 picked_colour{0.05F, 0.50F, 0.92F};
/// The colour of another setup.
constexpr glm::vec3 ghost_colour{0.26F, 0.47F, 0.78F};
/// Vermillion of the Okabe-Ito palette (Okabe and Ito, 2008: D55E00).
constexpr glm::vec3 alarm_colour{213.0F / 255, 94.0F / 255, 0.0F};

}  // namespace podwright
