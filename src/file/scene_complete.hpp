#pragma once

#include <string>

#include "core/parameters.hpp"

namespace podwright {

/// A complete scene with every key, its meaning and its range as comments.
std::string complete_scene(const Setup& setup);

/// Whether `setup` has a value for the parameter that a scene file shows: optional ones may be
/// absent, and of module and diametral pitch only one is written.
bool is_present(const Parameter& parameter, const Setup& setup);

/// Module or diametral pitch.
bool is_tooth_size(const Parameter& parameter);

/// Whether a scene of `setup` is refused without this key.
bool is_needed(const Parameter& parameter, const Setup& setup);

}  // namespace podwright
