#include "core/material.hpp"
#include "core/text.hpp"
#include "file/scene.hpp"
#include "file/value_text.hpp"

namespace podwright {

std::string material_table() {
    std::string text =
        "| key | material | density | E | G | expansion | strength | in shear | source |\n"
        "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
    for (const MaterialData& m : materials())
        text += "| `" + std::string(m.key) + "` | " + std::string(m.title) + " | " +
                number_text(m.density) + " | " + fixed(m.elastic_modulus, 1) + " | " +
                fixed(m.shear_modulus, 1) + " | " + fixed(m.expansion, 1) + " | " +
                fixed(m.strength, 0) + " | " + fixed(m.shear_strength, 0) + " | " +
                std::string(m.source) + " |\n";
    return text;
}

}  // namespace podwright
