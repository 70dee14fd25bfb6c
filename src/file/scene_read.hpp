#pragma once

#include <string_view>

#include "core/setup.hpp"
#include "file/document.hpp"

namespace podwright {

/// The setup that the document describes, without looking for conflicts between its values. Throws
/// FileError at the first mistake in the order of the text.
Setup read_setup(const Document& document, std::string_view name);

/// Place of the parameter with this key: of the value, or of its table where it is left out.
Place place_of(const Document& document, std::string_view key);

/// `text` without the mark that some editors put before UTF-8.
std::string_view without_mark(std::string_view text);

}  // namespace podwright
