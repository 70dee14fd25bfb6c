#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>

#include "core/setup.hpp"

// Scene files: TOML, in the words and units of parameters().
namespace podwright {

/// A file that cannot be used; what() is one line, "FILE:LINE:COLUMN: what is wrong, what would be
/// right" (without line and column where there are none).
struct FileError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Finds and checks the meshes of the own parts too. Throws FileError.
Setup read_scene(const std::filesystem::path& path);

/// The same from text, without looking at any other file: OwnPart::found stays empty. `name` stands
/// for the file in messages.
Setup parse_scene(std::string_view text, std::string_view name);

/// `setup` as the text of a scene. Where `original` is the text of a scene, only what differs is
/// changed, so that its comments and order stay; otherwise a complete commented scene is written.
/// parse_scene of the result gives `setup` back exactly, but for where own parts were found.
std::string scene_text(const Setup& setup, std::string_view original = {});

/// Writes the scene atomically (a new file beside it, flushed, then renamed over it), keeping the
/// comments of the file that is there. A mesh that `file` would not name from there is written with
/// its absolute path. Throws FileError; on failure the old file is untouched.
void save_scene(const Setup& setup, const std::filesystem::path& path);

/// The same for a scene that came from the file `from` and may go to another one, whose comments
/// would be about another car: it gets the comments and the order of `from`, or is complete if
/// there is no such scene (any more). What stood at `path` is replaced.
void save_scene(const Setup& setup, const std::filesystem::path& path,
                const std::filesystem::path& from);

/// The table of every key of the setup itself, in Markdown.
std::string key_table();

/// Everything that a scene can hold, for scenes/README.md: key_table(), and the table of what to
/// choose from, of rules, of what was measured and of own parts.
std::string key_tables();

/// A Markdown table of all materials with the values that are calculated with, and their sources:
/// g/cm³, GPa, GPa, 1e-6/K, N/mm², N/mm².
std::string material_table();

}  // namespace podwright
