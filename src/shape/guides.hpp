#pragma once

#include <string>
#include <vector>

#include "shape/part.hpp"

namespace podwright {

/// A line along which parts go back to where they belong; mm, pod axes.
struct Guide {
    glm::dvec3 from, to;
    std::vector<std::string> parts;  ///< keys of those that it strings
};

/// The lines of the exploded view at this spread (0..1): one along the axle, one along the motor,
/// and one for each body that leaves across them. Empty at rest.
std::vector<Guide> guides(const Assembly& assembly, double spread);

}  // namespace podwright
