#include "file/page.hpp"

#include <algorithm>

#include "file/text_check.hpp"

namespace podwright {

std::size_t columns(std::string_view text) { return characters(text); }

std::string padded(std::string text, std::size_t width, bool to_the_right) {
    const std::size_t used = columns(text);
    if (used >= width) return text;
    const std::string space(width - used, ' ');
    return to_the_right ? space + text : text + space;
}

std::string harmless(std::string_view text) { return without_obeyed(text, ' '); }

std::string markdown_cell(std::string text) {
    for (std::size_t at = 0; (at = text.find('|', at)) != std::string::npos; at += 2)
        text.insert(at, 1, '\\');
    return text;
}

std::string wrapped(std::string_view text, std::size_t indent) {
    std::string result;
    std::size_t used = indent;
    bool at_start = true;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        const std::string_view part = text.substr(0, end);
        if (!at_start && used + 1 + columns(part) > page_width) {
            result += "\n" + std::string(indent, ' ');
            used = indent;
            at_start = true;
        }
        if (!at_start) {
            result += ' ';
            ++used;
        }
        result += part;
        used += columns(part);
        at_start = false;
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return result;
}

}  // namespace podwright
