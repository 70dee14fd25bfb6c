#include "file/page.hpp"

#include <algorithm>

#include "file/text_check.hpp"

namespace podwright {

std::size_t columns(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    }));
}

std::string padded(std::string text, std::size_t width, bool to_the_right) {
    const std::size_t used = columns(text);
    if (used >= width) return text;
    const std::string space(width - used, ' ');
    return to_the_right ? space + text : text + space;
}

std::string harmless(std::string_view text) { return without_obeyed(text, ' '); }

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
