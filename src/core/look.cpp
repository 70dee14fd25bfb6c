#include "core/look.hpp"

#include <array>

namespace podwright {

namespace {

const std::array<std::string, 11>& table() {
    static const std::array<std::string, 11> names = {
        "bright-steel",  "dark-steel",    "aluminium", "anodised", "brass", "copper",
        "black-plastic", "white-plastic", "carbon",    "foam",     "rubber"};
    return names;
}

}  // namespace

std::span<const std::string> look_names() { return table(); }

const std::string& look_name(Look look) { return table().at(static_cast<std::size_t>(look)); }

std::optional<Look> find_look(std::string_view key) {
    for (std::size_t i = 0; i < table().size(); ++i)
        if (table()[i] == key) return static_cast<Look>(i);
    return std::nullopt;
}

}  // namespace podwright
