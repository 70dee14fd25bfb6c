#include "file/json_text.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/reading.hpp"
#include "file/text_check.hpp"

namespace podwright {

namespace {

using nlohmann::ordered_json;

void without_negative_zero(ordered_json& json) {
    if (json.is_structured())
        for (ordered_json& part : json) without_negative_zero(part);
    else if (json.is_number_float() && json.get<double>() == 0)
        json = 0.0;
}

/// The code of the character of two or three bytes that `text` begins with, or of one.
unsigned code_of(std::string_view text, std::size_t length) {
    const auto byte = [&](std::size_t i) -> unsigned {
        return static_cast<unsigned char>(text[i]);
    };
    if (length == 1) return byte(0);
    if (length == 2) return (byte(0) & 0x1FU) << 6U | (byte(1) & 0x3FU);
    return (byte(0) & 0x0FU) << 12U | (byte(1) & 0x3FU) << 6U | (byte(2) & 0x3FU);
}

std::string escaped(unsigned code) {
    constexpr char hex[] = "0123456789abcdef";
    std::string text = "\\u";
    for (const unsigned shift : {12U, 8U, 4U, 0U}) text += hex[(code >> shift) & 0xFU];
    return text;
}

}  // namespace

std::string json_text(ordered_json root) {
    without_negative_zero(root);
    const std::string dumped = root.dump(2, ' ', false, ordered_json::error_handler_t::replace);
    std::string text;
    for (std::string_view rest = dumped; !rest.empty();) {
        // Line breaks between values are the only such characters outside of texts.
        const std::size_t obeyed = rest.front() == '\n' ? 0 : obeyed_length(rest);
        if (obeyed == 0)
            text += rest.front();
        else
            text += escaped(code_of(rest, obeyed));
        rest.remove_prefix(std::max<std::size_t>(obeyed, 1));
    }
    return text + "\n";
}

ordered_json json_number(double value) {
    return std::isfinite(value) && !is_endless(value) ? ordered_json(value) : ordered_json(nullptr);
}

}  // namespace podwright
