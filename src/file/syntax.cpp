#include <algorithm>
#include <string>
#include <string_view>

#include "file/document.hpp"
#include "file/scene.hpp"
#include "file/text_check.hpp"

namespace podwright {

namespace {

bool has(std::string_view text, std::string_view part) {
    return text.find(part) != std::string_view::npos;
}

/// What stands between the last pair of ' in the complaint.
std::string_view quoted(std::string_view complaint) {
    const std::size_t end = complaint.rfind('\'');
    if (end == std::string_view::npos || end == 0) return {};
    const std::size_t begin = complaint.rfind('\'', end - 1);
    return begin == std::string_view::npos ? std::string_view{}
                                           : complaint.substr(begin + 1, end - begin - 1);
}

/// The line after its first `=`, without spaces before.
std::string_view value_part(std::string_view line) {
    const std::size_t equals = line.find('=');
    if (equals == std::string_view::npos) return {};
    const std::size_t begin = line.find_first_not_of(" \t", equals + 1);
    return begin == std::string_view::npos ? std::string_view{} : line.substr(begin);
}

bool starts_like_number(std::string_view value) {
    return !value.empty() && value.find_first_of("0123456789+-.") == 0;
}

/// A word without quotes: the parser took it for the beginning of true, false, nan or inf.
bool is_bare_word(std::string_view complaint, std::string_view value) {
    if (starts_like_number(value)) return false;
    for (const char* word :
         {"expected 'true'", "expected 'false'", "expected 'nan'", "expected 'inf'"})
        if (has(complaint, word)) return true;
    const char first = value.empty() ? '\0' : value.front();
    return has(complaint, "expected value-terminator") && first >= 'a' && first <= 'z';
}

/// The byte at which `column` begins.
std::size_t byte_at(std::string_view line, int column) {
    std::size_t at = 0;
    for (int passed = 0; at < line.size(); ++at)
        if (starts_character(line[at]) && ++passed == column) break;
    return at;
}

int column_at(std::string_view line, std::size_t at) {
    return static_cast<int>(characters(line.substr(0, at))) + 1;
}

/// Where the word or number begins that ends before the byte `at`.
std::size_t word_begin(std::string_view line, std::size_t at) {
    const auto of_word = [](char c) {
        return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
               c == '_' || c == '+' || c == '-' || c == '.';
    };
    while (at > 0 && of_word(line[at - 1])) --at;
    return at;
}

/// The name, as written, that belongs to the value at the byte `at`.
std::string_view name_before(std::string_view line, std::size_t at) {
    std::size_t begin = 0;
    std::size_t equals = at;
    char quote = '\0';
    for (std::size_t i = 0; i < at && i < line.size(); ++i) {
        const char c = line[i];
        if (quote != '\0')
            quote = c == quote ? '\0' : quote;
        else if (c == '"' || c == '\'')
            quote = c;
        else if (c == '{' || c == ',')
            begin = i + 1;
        else if (c == '=')
            equals = i;
    }
    begin = std::min(line.find_first_not_of(" \t", begin), equals);
    std::string_view name = line.substr(begin, equals - begin);
    while (!name.empty() && (name.back() == ' ' || name.back() == '\t')) name.remove_suffix(1);
    return name;
}

/// A key is given twice: where it stands again, not its value.
SyntaxMistake about_second(std::string_view complaint, std::string_view line, int column) {
    const std::string_view table = quoted(complaint.substr(0, complaint.find(" as ")));
    const std::string second = " is given a second time; keep only one";
    if (!has(complaint, "key-value pair")) return {"\"" + shown(table) + "\"" + second, column};
    const std::string_view name = name_before(line, byte_at(line, column));
    const bool has_quotes = name.find_first_of("\"'") == 0;
    return {(has_quotes ? shown(name) : "\"" + shown(name) + "\"") + second,
            column_at(line, static_cast<std::size_t>(name.data() - line.data()))};
}

/// A number that is written wrongly: where it begins, not where the parser gave up.
SyntaxMistake about_number(std::string_view complaint, std::string_view line, int column) {
    const std::size_t at = byte_at(line, column);
    const std::size_t begin = word_begin(line, at);
    const int place = column_at(line, begin);
    if (has(complaint, "leading zeroes"))
        return {"a number may not start with a spare 0; write 7, not 07", place};
    const std::string_view number = line.substr(begin, at - begin);
    const bool digits = number.find_first_of("0123456789") != std::string_view::npos;
    if (digits && number.back() == '.' && has(complaint, "floating-point"))
        return {"a digit is missing behind the point; write 31.0 or 31, not 31.", place};
    if (has(complaint, "underscores"))
        return {"an underscore in a number stands between two digits; write 12000 or 12_000",
                place};
    if (has(complaint, "is not representable in 64 bits") ||
        has(complaint, "could not be interpreted as a value"))
        return {"the number is too " +
                    std::string(has(quoted(complaint), "e-") ? "small; write 0" : "large") +
                    "; no value of a scene is beyond a million",
                place};
    return {};
}

std::string about_value(std::string_view complaint, std::string_view line, int column) {
    const std::string_view value = value_part(line);
    const bool after_value = has(complaint, "expected a comment or whitespace, saw");
    if (value.substr(0, 1) == "." || has(value, "-.") || has(value, "+."))
        return "a digit is missing before the point; write 0.5, not .5";
    if (after_value && has(complaint, "','")) {
        const std::size_t next = byte_at(line, column) + 1;
        const bool digit = next < line.size() && line[next] >= '0' && line[next] <= '9';
        return starts_like_number(value) && digit
                   ? "a comma in a number; the decimal sign is a point: 0.25"
                   : "a comma after the value; write name = value, each on a line of its own";
    }
    if (starts_like_number(value) && (after_value || has(complaint, "expected d")))
        return "the number is followed by something else; a length with its unit stands in quotes: "
               "\"0.25 in\"";
    if (has(complaint, "could not determine value type") || is_bare_word(complaint, value))
        return "this is neither a number nor a text; texts stand in quotes: \"up\"";
    return {};
}

std::string about_form(std::string_view complaint) {
    if (has(complaint, "parsing string") || has(complaint, "parsing literal string")) {
        if (has(complaint, "control characters") || has(complaint, "end-of-file"))
            return "the text is not closed; end it with the quote that it starts with";
        if (has(complaint, "escape sequence"))
            return "a backslash that means nothing in a text; write it twice: \\\\";
    }
    if (has(complaint, "expected a comment or whitespace, saw"))
        return "the value is followed by something else; write name = value, each on a line of its "
               "own";
    if (has(complaint, "expected '='")) return "no \"=\" after the name; write name = value";
    if (has(complaint, "expected value, saw"))
        return "no value after \"=\"; write name = value on one line";
    if (has(complaint, "parsing table header"))
        return "the name of the table is not well formed; write it as [left] on a line of its own";
    if (has(complaint, "parsing array")) return "the list is not well formed; write [0.3, 0.2]";
    if (has(complaint, "parsing inline table"))
        return "the table is not well formed; write { seat = 31.0, reach = 28.0 } on one line";
    if (has(complaint, "parsing root table"))
        return "neither a name nor a table; write name = value, or [table]";
    if (has(complaint, "encountered end-of-file"))
        return "the file ends in the middle of a line; write name = value, or [table]";
    if (has(complaint, "unicode scalar"))
        return "\\u in a text is followed by four hexadecimal digits; a backslash itself is \\\\";
    if (has(complaint, "parsing key"))
        return "the name is not well formed; write name = value, or [table]";
    for (const char* what :
         {"parsing floating-point", " integer: ", "parsing time", "parsing date"})
        if (has(complaint, what))
            return "the number is not well formed; write 31 or 0.25, and nothing else";
    return {};
}

}  // namespace

std::string_view kind_word(NodeKind kind) {
    switch (kind) {
        case NodeKind::boolean: return "true or false";
        case NodeKind::number: return "a number";
        case NodeKind::text: return "a text";
        case NodeKind::list: return "a list";
        case NodeKind::table: return "a table";
        case NodeKind::moment: break;
    }
    return "a date or time";
}

std::string shown(std::string_view text) {
    constexpr std::size_t most = 40;
    std::string line;
    std::size_t count = 0;
    for (const char c : without_obeyed(text, '?')) {
        if (starts_character(c) && ++count > most) return line + "...";
        line += c;
    }
    return line;
}

SyntaxMistake plain_syntax_error(std::string_view complaint, std::string_view line, int column) {
    if (has(complaint, "cannot redefine existing")) return about_second(complaint, line, column);
    SyntaxMistake mistake = about_number(complaint, line, column);
    if (!mistake.what.empty()) return mistake;
    std::string plain = about_value(complaint, line, column);
    if (plain.empty()) plain = about_form(complaint);
    if (!plain.empty()) return {plain, column};
    constexpr std::string_view opening = "Error while parsing ";
    if (complaint.substr(0, opening.size()) == opening) complaint.remove_prefix(opening.size());
    return {"this is not TOML (" + without_obeyed(complaint.substr(0, 160), ' ') +
                "); write name = value, or [table]",
            column};
}

void fail_at(std::string_view name, Place place, const std::string& what) {
    throw FileError(std::string(name) + ":" + std::to_string(place.line) + ":" +
                    std::to_string(place.column) + ": " + what);
}

}  // namespace podwright
