#pragma once

#include <span>
#include <string_view>

namespace podwright {

/// Materials of the parts; the order is that of materials(). An axle is made of one of the first.
enum class Material {
    steel_4130,
    steel_4140,
    titanium_6al4v,
    aluminium_7075,
    carbon_tube,
    carbon_wrapped,
    carbon_plate,
    brass,
    pom,
    pom_glass,
    pa66,
    pa66_glass
};

struct MaterialData {
    std::string_view key;    ///< as written in a scene file
    std::string_view title;  ///< as shown
    double density;          ///< g/cm³
    double elastic_modulus;  ///< along the axle, GPa
    double shear_modulus;    ///< GPa
    double expansion;        ///< along the axle, 1e-6/K
    double strength;         ///< in bending along the axle, N/mm²: yield, or break if it does not
    double shear_strength;   ///< N/mm²; strength / sqrt 3 where the material is the same all ways
    std::string_view source;
};

/// All of them. Moulded and laminated materials vary: a maker's sheet comes first.
std::span<const MaterialData> materials();
/// The first of materials(): those that an axle can be made of.
std::span<const MaterialData> axle_materials();
const MaterialData& data(Material);

}  // namespace podwright
