#pragma once

#include <algorithm>
#include <string>
#include <vector>

// Lists of keys of parts.
namespace podwright {

inline bool contains(const std::vector<std::string>& keys, const std::string& key) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
}

/// Adds the key, or takes it out.
inline void toggle(std::vector<std::string>& keys, const std::string& key) {
    const auto found = std::find(keys.begin(), keys.end(), key);
    if (found == keys.end())
        keys.push_back(key);
    else
        keys.erase(found);
}

}  // namespace podwright
