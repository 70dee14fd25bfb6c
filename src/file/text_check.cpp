#include "file/text_check.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>

#include "file/document.hpp"

namespace podwright {

namespace {

constexpr int deepest = 8;

/// Bytes of the UTF-8 character that starts at `i`, or 0 if there is none (RFC 3629, section 4).
std::size_t character_length(std::string_view text, std::size_t i) {
    const auto byte = [&](std::size_t k) -> unsigned {
        return k < text.size() ? static_cast<unsigned char>(text[k]) : 0U;
    };
    const unsigned first = byte(i);
    if (first < 0x80) return 1;
    const std::size_t length = first < 0xC2   ? 0
                               : first < 0xE0 ? 2
                               : first < 0xF0 ? 3
                               : first < 0xF5 ? 4
                                              : 0;
    if (length == 0) return 0;
    for (std::size_t k = 1; k < length; ++k)
        if ((byte(i + k) & 0xC0U) != 0x80U) return 0;
    const unsigned second = byte(i + 1);
    const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
    const bool beyond = (first == 0xED && second >= 0xA0) || (first == 0xF4 && second >= 0x90);
    return overlong || beyond ? 0 : length;
}

void step(Place& place, char c) {
    if (c == '\n')
        place = {place.line + 1, 1};
    else if (starts_character(c))
        ++place.column;
}

void check_characters(std::string_view text, std::string_view name) {
    if (text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF")
        fail_at(name, {}, "the text is UTF-16; save it as UTF-8");
    // Without a mark every second byte of a text in Latin letters is 0.
    if (text.size() > 1 && (text[0] == '\0') != (text[1] == '\0'))
        fail_at(name, {}, "the text looks like UTF-16; save it as UTF-8");
    Place place;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = character_length(text, i);
        if (length == 0)
            fail_at(name, place, "this is not UTF-8 text; save the scene as plain UTF-8 text");
        const auto code = static_cast<unsigned char>(text[i]);
        if ((code < 0x20 && code != '\t' && code != '\n' && code != '\r') || code == 0x7F)
            fail_at(
                name, place,
                "this is not a text file (it holds a control character); a scene is plain text");
        if (code == '\r' && text.substr(i + 1, 1) != "\n")
            fail_at(name, place,
                    "a line that ends in a carriage return alone; save the text with the line "
                    "breaks LF or CR LF");
        step(place, text[i]);
        i += length;
    }
}

/// What the reader of depth() is inside of.
enum class Inside { nothing, comment, basic, literal, basic_block, literal_block };

/// Walks through TOML and follows brackets and dotted names, and nothing else.
class DepthCheck {
public:
    DepthCheck(std::string_view text, std::string_view name) : text_(text), name_(name) {}

    void run() {
        while (i_ < text_.size()) {
            if (inside_ == Inside::nothing)
                outside();
            else
                within();
        }
    }

private:
    void move(std::size_t count) {
        for (; count > 0 && i_ < text_.size(); --count) step(place_, text_[i_++]);
    }

    void open(char quote, Inside single, Inside block) {
        const bool three = text_.substr(i_, 3) == std::string(3, quote);
        inside_ = three ? block : single;
        move(three ? 3 : 1);
    }

    void outside() {
        const char c = text_[i_];
        if (c == '"') return open('"', Inside::basic, Inside::basic_block);
        if (c == '\'') return open('\'', Inside::literal, Inside::literal_block);
        if (c == '#') inside_ = Inside::comment;
        if (c == '[' || c == '{') ++depth_;
        if ((c == ']' || c == '}') && depth_ > 0) --depth_;
        if (c == '.')
            ++dots_;
        else if (c == '=' || c == ',' || c == '\n' || c == '[' || c == '{')
            dots_ = 0;
        if (depth_ > deepest || dots_ > deepest)
            fail_at(name_, place_,
                    "nested too deep; a scene has tables of values and nothing deeper");
        move(1);
    }

    void within() {
        const char c = text_[i_];
        const bool block = inside_ == Inside::basic_block || inside_ == Inside::literal_block;
        const bool basic = inside_ == Inside::basic || inside_ == Inside::basic_block;
        if (c == '\n' && !block) {
            inside_ = Inside::nothing;
            dots_ = 0;
            return move(1);
        }
        if (inside_ == Inside::comment) return move(1);
        if (basic && c == '\\') return move(2);
        const char quote = basic ? '"' : '\'';
        if (c != quote) return move(1);
        if (!block || text_.substr(i_, 3) == std::string(3, quote)) {
            inside_ = Inside::nothing;
            move(block ? 3 : 1);
            // A block may end in up to two quotes of its own.
            while (block && i_ < text_.size() && text_[i_] == quote) move(1);
            return;
        }
        move(1);
    }

    std::string_view text_;
    std::string_view name_;
    std::size_t i_ = 0;
    Place place_;
    Inside inside_ = Inside::nothing;
    int depth_ = 0;
    int dots_ = 0;
};

}  // namespace

std::size_t characters(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), starts_character));
}

std::size_t obeyed_length(std::string_view text) {
    const auto byte = [&](std::size_t i) -> unsigned {
        return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
    };
    if (text.empty()) return 0;
    if (byte(0) < 0x20 || byte(0) == 0x7F) return 1;
    if (byte(0) == 0xC2 && byte(1) >= 0x80 && byte(1) <= 0x9F) return 2;  // U+0080 to U+009F
    if (byte(0) == 0xD8 && byte(1) == 0x9C) return 2;                     // U+061C
    if (byte(0) != 0xE2) return 0;
    const unsigned rest = byte(1) << 8U | byte(2);
    const bool marks = rest == 0x808E || rest == 0x808F;     // U+200E, U+200F
    const bool lines = rest >= 0x80A8 && rest <= 0x80AE;     // U+2028 to U+202E
    const bool isolates = rest >= 0x81A6 && rest <= 0x81A9;  // U+2066 to U+2069
    return marks || lines || isolates ? 3 : 0;
}

std::string without_obeyed(std::string_view text, char in_its_place) {
    std::string plain;
    while (!text.empty()) {
        const std::size_t obeyed = obeyed_length(text);
        plain += obeyed > 0 ? in_its_place : text.front();
        text.remove_prefix(std::max<std::size_t>(obeyed, 1));
    }
    return plain;
}

bool is_plain(std::string_view text) {
    for (; !text.empty(); text.remove_prefix(1))
        if (obeyed_length(text) > 0) return false;
    return true;
}

void check_text(std::string_view text, std::string_view name) {
    check_characters(text, name);
    DepthCheck(text, name).run();
}

}  // namespace podwright
