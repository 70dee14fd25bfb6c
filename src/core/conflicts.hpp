#pragma once

#include <optional>
#include <string>

#include "core/setup.hpp"

namespace podwright {

/// Two values that are each in range but cannot both be true of one car.
struct Conflict {
    std::string key;   ///< the parameter to look at
    std::string text;  ///< what is wrong, what would be right
};

/// The first conflict in `setup`, or nothing. A setup without one can be built as solids.
std::optional<Conflict> find_conflict(const Setup& setup);

}  // namespace podwright
