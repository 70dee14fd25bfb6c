#pragma once

#include <span>
#include <string_view>

namespace podwright {

/// Materials that an axle can be made of; the order is that of materials().
enum class Material { steel_4130, steel_4140, titanium_6al4v, aluminium_7075, carbon_tube };

struct MaterialData {
    std::string_view key;    ///< as written in a scene file
    std::string_view title;  ///< as shown
    double density;          ///< g/cm³
    double elastic_modulus;  ///< along the axle, GPa
    double shear_modulus;    ///< GPa
    double expansion;        ///< along the axle, 1e-6/K
    std::string_view source;
};

std::span<const MaterialData> materials();
const MaterialData& data(Material);

}  // namespace podwright
