#pragma once

#include <string_view>

#include "core/reading.hpp"

namespace podwright {

/// What is said of a reading beside its number, in the trade's words: "ok", "binds", "tight",
/// "loose", "too wide", "too low". Empty if it has no limit.
std::string_view status_word(const Reading& reading);

}  // namespace podwright
