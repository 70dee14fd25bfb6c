#pragma once

#include <array>

// The sizes in which parts of this trade are sold, for what is suggested where a setup states no
// parts box. mm.
namespace podwright {

/// Shim rings: DIN 988 sizes, from memory.
inline constexpr std::array<double, 6> usual_shims = {0.1, 0.15, 0.2, 0.3, 0.5, 1.0};

/// A usual set of feeler blades: 13 blades after DIN 2275, from memory.
inline constexpr std::array<double, 13> usual_blades = {0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4,
                                                        0.5,  0.6, 0.7,  0.8, 0.9,  1.0};

/// Holders come in steps of this, up to that (common practice, no source).
inline constexpr double holder_grid = 0.5;
inline constexpr double holder_most = 3.0;

}  // namespace podwright
