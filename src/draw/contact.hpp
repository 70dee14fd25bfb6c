#pragma once

#include <cstdint>
#include <vector>

namespace podwright {

/// Share (0..255) of the hemisphere above each point of the ground that is hidden by what hangs
/// over it. `heights` holds size x size heights of the lowest surface, 0..254 = 0..`greatest` mm,
/// 255 = nothing; `texel` is the distance of neighbours, mm. A level element dA at height h and
/// distance r hides h² dA / (pi (r² + h²)²) (form factor of parallel elements; derived); the sum
/// is taken as one Gaussian blur for each of four layers of height, which keeps half of the kernel
/// within r = h.
std::vector<std::uint8_t> contact_shadow(const std::vector<std::uint8_t>& heights, int size,
                                         double texel, double greatest);

}  // namespace podwright
