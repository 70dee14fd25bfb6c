#include "core/look.hpp"

#include <algorithm>
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
    const auto found = std::find(table().begin(), table().end(), key);
    if (found == table().end()) return std::nullopt;
    return static_cast<Look>(found - table().begin());
}

}  // namespace podwright
