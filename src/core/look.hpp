#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace podwright {

/// What a surface is made of, for the eye; the order is that of look_names().
enum class Look {
    bright_steel,
    dark_steel,
    aluminium,
    anodised,
    brass,
    copper,
    black_plastic,
    white_plastic,
    carbon,
    foam,
    rubber
};

/// The looks as written in a scene file.
std::span<const std::string> look_names();
const std::string& look_name(Look);
/// The look called `key`, or nothing.
std::optional<Look> find_look(std::string_view key);

}  // namespace podwright
