#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace podwright {

/// Throws FileError if `text` is not UTF-8 text, or is nested deeper than any scene: a parser would
/// follow it until the stack is used up.
void check_text(std::string_view text, std::string_view name);

/// Whether a byte of UTF-8 is the first of a character.
inline bool starts_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
}

/// Characters of `text`, not bytes.
std::size_t characters(std::string_view text);

/// Bytes of the character that `text` begins with if a terminal would obey it instead of showing
/// it: a control character (C0, DEL, C1) or one that turns the direction of reading (Unicode
/// Standard Annex 9, explicit formatting). 0 for any other.
std::size_t obeyed_length(std::string_view text);

/// `text` with every such character replaced.
std::string without_obeyed(std::string_view text, char in_its_place);

/// Whether it holds none.
bool is_plain(std::string_view text);

}  // namespace podwright
