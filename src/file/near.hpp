#pragma once

#include <span>
#include <string>
#include <string_view>

namespace podwright {

/// Fewest insertions, deletions, exchanges and swaps of neighbours that turn `a` into `b`, each
/// place edited at most once (optimal string alignment), in bytes.
std::size_t edit_distance(std::string_view a, std::string_view b);

/// The candidate nearest to `word`, if it is near enough to be a slip of the pen (at most 2 edits
/// and fewer than half of the word); otherwise empty.
std::string nearest(std::string_view word, std::span<const std::string> candidates);

/// `; did you mean "seat"?` or nothing.
std::string did_you_mean(std::string_view word, std::span<const std::string> candidates);

}  // namespace podwright
