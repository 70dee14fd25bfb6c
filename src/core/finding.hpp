#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/parameters.hpp"

namespace podwright {

enum class Level { note, caution, stop };

/// "note", "caution", "stop".
std::string_view word(Level);

/// One statement about the setup.
struct Finding {
    Level level = Level::note;
    std::string code;                ///< "float.bind"
    std::string text;                ///< a sentence with the number in it
    std::string fix;                 ///< what to do about it
    std::vector<std::string> parts;  ///< keys of the parts concerned
    std::vector<Change> changes;     ///< edits that carry out the fix; empty if it takes a decision
};

}  // namespace podwright
