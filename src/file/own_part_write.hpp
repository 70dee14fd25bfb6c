#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/setup.hpp"
#include "file/document.hpp"

// `[[own_part]]` in the text of a scene.
namespace podwright {

/// `text` in place of the bytes of `span`.
struct Edit {
    Span span;
    std::string text;
};

/// Whether both are written alike; where the files were found does not matter.
bool same_own_parts(const std::vector<OwnPart>& a, const std::vector<OwnPart>& b);

/// The tables of all own parts, each after an empty line; nothing if there are none.
std::string own_part_text(const std::vector<OwnPart>& own_parts, const std::string& newline);

/// What has to change in `text` to make its own parts, `before`, those of `after`. `text` is that
/// of `document`.
std::vector<Edit> own_part_edits(std::string_view text, const Document& document,
                                 const std::vector<OwnPart>& before,
                                 const std::vector<OwnPart>& after, const std::string& newline);

}  // namespace podwright
