#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/choosing.hpp"
#include "file/document.hpp"
#include "file/own_part_write.hpp"

// The parts box, goals, rules, the day and what was measured in a scene, or in files of their own.
namespace podwright {

/// Whether a table of this name, or a value `box = "FILE"` or `rules = "FILE"`, belongs here.
bool is_choosing_name(std::string_view name);

/// Names of the tables, for suggestions.
std::vector<std::string> choosing_table_names();

/// What `document` says; a box or rules that stand in files of their own stay empty. Throws
/// FileError at the first mistake.
Choosing read_choosing(const Document& document, std::string_view name);

/// Reads the box and the rules that `choosing` names, from the folder of the scene at `path`.
/// Throws FileError in the file that is wrong, or at its name in `document`.
void find_choosing_files(Choosing& choosing, const Document& document,
                         const std::filesystem::path& path);

/// As a scene at `path` has to write it: files that would not be found from there by their absolute
/// paths.
Choosing choosing_from(const std::filesystem::path& path, Choosing choosing);

/// All tables, each after an empty line; nothing if there are none. What stands in files of their
/// own is only named.
std::string choosing_text(const Choosing& choosing, const std::string& newline);
/// `box = "FILE"` and `rules = "FILE"`, lines that stand outside of tables.
std::string choosing_top_text(const Choosing& choosing, const std::string& newline);

/// Whether both are written alike in a scene.
bool same_choosing(const Choosing& a, const Choosing& b);

/// What has to change in `text`: every kind of table that differs is written again at the end.
std::vector<Edit> choosing_edits(std::string_view text, const Document& document,
                                 const Choosing& before, const Choosing& after,
                                 const std::string& newline);

/// A row for each key of these tables, for key_tables().
std::string choosing_key_rows();

}  // namespace podwright
