#pragma once

#include <span>
#include <string>
#include <string_view>

#include "file/document.hpp"

// What every part of a scene is read with: numbers in range, lengths with their unit, keys that
// there are. Whatever is wrong is a FileError at its place.
namespace podwright {

/// What a number must be.
struct NumberRule {
    double low = 0;
    double high = 0;
    std::string unit;  ///< as written behind the range, or empty
    bool whole = false;
    bool length = false;   ///< may be a text with its unit
    std::string why = {};  ///< follows the range: ", the unit of ride.roll"
};

/// "10 to 80 mm".
std::string range_text(const NumberRule& rule);

/// "a length, 10 to 80 mm, as a number or as a text such as "0.25 in"".
std::string wanted(const NumberRule& rule);

/// The number at `node`; a length in mm. `what` names it in messages: "left.seat".
double read_number(const Node& node, const NumberRule& rule, const std::string& what,
                   std::string_view name);

/// "shim 2 of left.shims" for the element `index` of a list, from 0.
std::string element_name(const std::string& key, std::size_t index);

/// The complaint about a key that stands `where` ("in [left]"): that it belongs at the top, or
/// which of the keys that stand `here` was meant; `otherwise` follows where neither helps.
std::string unknown_key(const std::string& key, const std::string& where,
                        std::span<const std::string> here, const std::string& otherwise);

/// "a, b and c", with `last` for "and".
std::string listed(std::span<const std::string> texts, std::string_view last);

}  // namespace podwright
