#pragma once

#include <cstddef>
#include <string_view>

// Where the lines of a text begin and end.
namespace podwright {

/// Of the line that holds the byte `at`.
inline std::size_t line_begin(std::string_view text, std::size_t at) {
    const std::size_t found = at == 0 ? std::string_view::npos : text.rfind('\n', at - 1);
    return found == std::string_view::npos ? 0 : found + 1;
}

/// After its line break.
inline std::size_t line_end(std::string_view text, std::size_t at) {
    const std::size_t found = text.find('\n', at);
    return found == std::string_view::npos ? text.size() : found + 1;
}

}  // namespace podwright
