#include "core/material.hpp"

#include <array>

namespace podwright {

namespace {

constexpr double sqrt_3 = 1.7320508075688772;

constexpr std::array<MaterialData, 12> table = {{
    {"steel-4130", "chrome-molybdenum steel 25CrMo4 / 4130", 7.85, 205, 80, 12.0, 460, 460 / sqrt_3,
     "asm.matweb.com m4130r; expansion, yield (normalised) from memory"},
    {"steel-4140", "chrome-molybdenum steel 42CrMo4 / 4140", 7.85, 207, 80, 12.3, 655, 655 / sqrt_3,
     "Callister tables B.2, B.6; shear modulus, yield (normalised) from memory"},
    {"titanium-6al4v", "titanium Ti-6Al-4V, annealed", 4.43, 113.8, 44, 8.6, 880, 880 / sqrt_3,
     "asm.matweb.com MTP641, MTP644; Callister table B.6; yield from memory"},
    {"aluminium-7075", "aluminium 7075-T6", 2.81, 71.7, 26.9, 23.4, 503, 503 / sqrt_3,
     "asm.matweb.com; Callister tables B.2, B.6; shear modulus, yield from memory"},
    {"carbon-tube", "carbon fibre tube, unidirectional, standard modulus", 1.55, 138.964, 5, 0.0,
     800, 60, "rule of mixtures on Callister table B.2; all others from memory"},
    {"carbon-wrapped", "carbon fibre tube, roll-wrapped fabric", 1.55, 60, 15, 2.0, 450, 90,
     "from memory: shear by lay-up, 5 to 25 GPa"},
    {"carbon-plate", "carbon fibre plate, woven", 1.55, 55, 4, 3.0, 500, 80, "from memory"},
    {"brass", "brass CuZn37", 8.44, 105, 39, 20.2, 200, 200 / sqrt_3, "from memory"},
    {"pom", "POM copolymer, moulded", 1.41, 2.7, 1.0, 110, 65, 65 / sqrt_3,
     "engineeringtoolbox.com 85 to 110e-6/K; modulus 2.5 to 2.86 (plastics handbooks); shear, "
     "yield from memory"},
    {"pom-glass", "POM with glass fibre", 1.58, 8.0, 2.9, 40, 110, 110 / sqrt_3,
     "engineeringtoolbox.com for expansion; all others from memory"},
    {"pa66", "PA66, dry", 1.14, 2.8, 1.0, 81, 80, 80 / sqrt_3,
     "Callister table B.2 1.59 to 3.79 GPa; expansion lon-so.com; all others from memory"},
    {"pa66-glass", "PA66 with 30 % glass fibre, dry", 1.36, 9.5, 3.4, 23, 180, 180 / sqrt_3,
     "lon-so.com for expansion along the flow, across 60 to 80; all others from memory"},
}};

constexpr std::size_t axle_material_count = 6;

}  // namespace

std::span<const MaterialData> materials() { return table; }

std::span<const MaterialData> axle_materials() {
    return std::span(table).first(axle_material_count);
}

const MaterialData& data(Material material) { return table.at(static_cast<std::size_t>(material)); }

}  // namespace podwright
