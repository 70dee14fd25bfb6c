#include "core/material.hpp"
#include "core/text.hpp"
#include "file/scene.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace {

/// With one decimal, and with more where one would not be what is calculated with.
std::string modulus(double value) {
    const std::string exact = number_text(value);
    const std::size_t point = exact.find('.');
    return point == std::string::npos || exact.size() <= point + 2 ? fixed(value, 1) : exact;
}

}  // namespace

std::string material_table() {
    std::string text =
        "| key | material | density | E | G | expansion | strength | in shear | source |\n"
        "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
    for (const MaterialData& m : materials())
        text += "| `" + std::string(m.key) + "` | " + std::string(m.title) + " | " +
                number_text(m.density) + " | " + modulus(m.elastic_modulus) + " | " +
                modulus(m.shear_modulus) + " | " + fixed(m.expansion, 1) + " | " +
                fixed(m.strength, 0) + " | " + fixed(m.shear_strength, 0) + " | " +
                std::string(m.source) + " |\n";
    return text;
}

}  // namespace podwright
