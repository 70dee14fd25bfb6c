#include "file/value_read.hpp"

#include <cmath>

#include "file/near.hpp"
#include "file/scene_read.hpp"
#include "file/value_text.hpp"

namespace podwright {

std::string range_text(const NumberRule& rule) {
    return number_text(rule.low) + " to " + number_text(rule.high) +
           (rule.unit.empty() ? "" : " " + rule.unit);
}

std::string wanted(const NumberRule& rule) {
    const std::string kind = rule.length  ? "a length, "
                             : rule.whole ? "a whole number, "
                                          : "a number, ";
    return kind + range_text(rule) + rule.why +
           (rule.length ? ", as a number or as a text such as \"0.25 in\"" : "");
}

double read_number(const Node& node, const NumberRule& rule, const std::string& what,
                   std::string_view name) {
    double value = node.number;
    std::string written = number_text(value);
    if (rule.length && node.kind == NodeKind::text) {
        written = "\"" + shown(node.text) + "\"";
        const auto length = parse_length(node.text);
        if (!length)
            fail_at(name, node.place,
                    what + " is " + written +
                        ", which is not a length; write a number in mm or, for example, "
                        "\"0.25 in\" or \"6.35 mm\"");
        value = *length;
    } else if (node.kind != NodeKind::number) {
        fail_at(name, node.place,
                what + " is " + std::string(kind_word(node.kind)) + "; it must be " + wanted(rule));
    }
    const bool in_range = std::isfinite(value) && value >= rule.low && value <= rule.high;
    if (!in_range || (rule.whole && value != std::floor(value)))
        fail_at(name, node.place,
                what + " is " + written + "; it must be " + (rule.whole ? "a whole number, " : "") +
                    range_text(rule) + rule.why);
    return value;
}

std::string element_name(const std::string& key, std::size_t index) {
    std::string one = name_of(key);
    if (one.back() == 's')
        one.pop_back();
    else
        one = "value";
    return one + " " + std::to_string(index + 1) + " of " + key;
}

std::string unknown_key(const std::string& key, const std::string& where,
                        std::span<const std::string> here, const std::string& otherwise) {
    const std::string what = "unknown key \"" + shown(key) + "\" " + where;
    if (belongs_at_top(key)) return what + std::string(top_hint);
    const std::string hint = did_you_mean(key, here);
    return what + (hint.empty() ? otherwise : hint);
}

std::string listed(std::span<const std::string> texts, std::string_view last) {
    std::string line;
    for (std::size_t i = 0; i < texts.size(); ++i) {
        if (i > 0) line += i + 1 == texts.size() ? " " + std::string(last) + " " : ", ";
        line += texts[i];
    }
    return line;
}

}  // namespace podwright
