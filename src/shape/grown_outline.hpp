#pragma once

#include <vector>

#include <glm/glm.hpp>

namespace podwright {

/// Outlines (counter-clockwise) and holes (clockwise) of an area that holds all the polygons and
/// nothing farther from them than about twice `slack` (mm > 0), with as few corners as that allows.
std::vector<std::vector<glm::dvec2>> grown_outline(
    const std::vector<std::vector<glm::dvec2>>& polygons, double slack);

}  // namespace podwright
