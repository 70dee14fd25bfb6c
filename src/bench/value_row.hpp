#pragma once

#include <string>

#include "bench/widgets.hpp"
#include "core/reading.hpp"

namespace podwright {

/// What the pointer does on a row.
struct Row {
    bool hovered = false, pressed = false;
};

/// One row of a list: the status's sign, words, and a value at the right; under the words, if there
/// are any, more words on a line of their own. `name` is its own.
Row value_row(WindowFrame& frame, const std::string& name, Status status, const std::string& words,
              const std::string& value, ImU32 value_colour, bool chosen,
              const std::string& below = {});

}  // namespace podwright
