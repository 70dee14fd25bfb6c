#pragma once

#include <cstddef>
#include <string>
#include <string_view>

// Text for people: pages of a fixed width.
namespace podwright {

inline constexpr std::size_t page_width = 100;

/// Every character of a report is one column wide.
std::size_t columns(std::string_view text);

/// `text` filled up with spaces to `width` columns.
std::string padded(std::string text, std::size_t width, bool to_the_right = false);

/// On one line and without what a terminal would obey.
std::string harmless(std::string_view text);

/// `text` for a cell of a Markdown table.
std::string markdown_cell(std::string text);

/// `text` broken between words; lines after the first start with `indent` spaces. `text` is taken
/// to start at that column already.
std::string wrapped(std::string_view text, std::size_t indent);

}  // namespace podwright
