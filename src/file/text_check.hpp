#pragma once

#include <string_view>

namespace podwright {

/// Throws FileError if `text` is not UTF-8 text, or is nested deeper than any scene: a parser would
/// follow it until the stack is used up.
void check_text(std::string_view text, std::string_view name);

}  // namespace podwright
