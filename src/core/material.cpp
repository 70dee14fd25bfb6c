#include "core/material.hpp"

#include <array>

namespace podwright {

namespace {

constexpr std::array<MaterialData, 5> table = {{
    {"steel-4130", "chrome-molybdenum steel 25CrMo4 / 4130", 7.85, 205, 80, 12.0,
     "asm.matweb.com m4130r; expansion from memory"},
    {"steel-4140", "chrome-molybdenum steel 42CrMo4 / 4140", 7.85, 207, 80, 12.3,
     "Callister tables B.2, B.6; shear modulus from memory"},
    {"titanium-6al4v", "titanium Ti-6Al-4V, annealed", 4.43, 113.8, 44, 8.6,
     "asm.matweb.com MTP641, MTP644; Callister table B.6"},
    {"aluminium-7075", "aluminium 7075-T6", 2.81, 71.7, 26.9, 23.4,
     "asm.matweb.com; Callister tables B.2, B.6; shear modulus from memory"},
    {"carbon-tube", "carbon fibre tube, unidirectional, standard modulus", 1.55, 138.964, 5, 0.0,
     "rule of mixtures on Callister table B.2; density, shear and expansion from memory"},
}};

}  // namespace

std::span<const MaterialData> materials() { return table; }

const MaterialData& data(Material material) { return table.at(static_cast<std::size_t>(material)); }

}  // namespace podwright
