#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "core/setup.hpp"
#include "file/document.hpp"

namespace podwright {

/// The setup that the document describes, without looking for conflicts between its values. Throws
/// FileError at the first mistake in the order of the text.
Setup read_setup(const Document& document, std::string_view name);

/// Place of the parameter with this key: of the value, or of its table where it is left out.
Place place_of(const Document& document, std::string_view key);

inline constexpr std::size_t largest_scene = 1U << 20U;  ///< bytes

/// "left" of "left.seat", and its "seat"; of a key outside of the tables nothing, and the key.
std::string table_of(std::string_view key);
std::string name_of(std::string_view key);

/// Whether a key of this name stands outside of the tables; what is said where it does not.
bool belongs_at_top(std::string_view key);
inline constexpr std::string_view top_hint = "; it belongs at the top, before the first table";

/// `text` without the mark that some editors put before UTF-8.
std::string_view without_mark(std::string_view text);

}  // namespace podwright
