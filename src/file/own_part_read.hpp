#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/setup.hpp"
#include "file/document.hpp"

// `[[own_part]]` in a scene file.
namespace podwright {

inline constexpr std::string_view own_part_table = "own_part";

/// The own part that `table` describes. `before` are those that stand above it. Throws FileError.
OwnPart read_own_part(const TableNode& table, std::span<const OwnPart> before,
                      std::string_view name);

/// The tables of all own parts, as they stand in the text.
std::vector<const TableNode*> own_part_tables(const Document& document);

/// A row for each of its keys, for key_tables().
std::string own_part_key_rows();

}  // namespace podwright
