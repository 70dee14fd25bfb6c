#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace podwright {

/// `root` as a text with a line break at its end: UTF-8, never -0, and without anything that a
/// terminal would obey.
std::string json_text(nlohmann::ordered_json root);

/// A number, or null where it has no meaning: not finite, or endless (core/reading.hpp).
nlohmann::ordered_json json_number(double value);

}  // namespace podwright
