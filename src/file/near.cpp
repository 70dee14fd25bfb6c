#include "file/near.hpp"

#include <algorithm>
#include <vector>

namespace podwright {

namespace {

constexpr std::size_t most_edits = 2;
constexpr std::size_t longest_word = 64;

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
    const std::size_t columns = b.size() + 1;
    std::vector<std::size_t> before_last(columns), last(columns), row(columns);
    for (std::size_t j = 0; j < columns; ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        before_last.swap(last);
        last.swap(row);
        row[0] = i;
        for (std::size_t j = 1; j < columns; ++j) {
            const bool same = a[i - 1] == b[j - 1];
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0 : 1)});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
    }
    return row[b.size()];
}

std::string nearest(std::string_view word, std::span<const std::string> candidates) {
    if (word.size() > longest_word) return {};
    std::string best;
    std::size_t fewest = most_edits + 1;
    for (const std::string& candidate : candidates) {
        const std::size_t edits = edit_distance(word, candidate);
        if (edits < fewest && 2 * edits < std::max(word.size(), candidate.size())) {
            fewest = edits;
            best = candidate;
        }
    }
    return best;
}

std::string did_you_mean(std::string_view word, std::span<const std::string> candidates) {
    const std::string found = nearest(word, candidates);
    return found.empty() ? std::string{} : "; did you mean \"" + found + "\"?";
}

}  // namespace podwright
