#include "file/value_text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>

#include "file/value_read.hpp"

namespace podwright {

namespace {

std::string rounded(double value, int digits) {
    char buffer[64];
    const auto end =
        std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::general, digits);
    return {buffer, end.ptr};
}

/// The shortest decimal near `value` for which `gives_same` holds: what is kept is not what is
/// shown (radians for degrees, module for diametral pitch), so the conversion has to be undone to
/// the last bit.
template <class GivesSame>
std::string converted_number(double value, const GivesSame& gives_same) {
    for (int digits = 1; digits <= 17; ++digits) {
        const std::string text = rounded(value, digits);
        double shown = 0;
        std::from_chars(text.data(), text.data() + text.size(), shown);
        if (gives_same(shown)) return number_text(shown);
    }
    double above = value;
    double below = value;
    for (int step = 0; step < 4; ++step) {
        above = std::nextafter(above, HUGE_VAL);
        below = std::nextafter(below, -HUGE_VAL);
        if (gives_same(above)) return number_text(above);
        if (gives_same(below)) return number_text(below);
    }
    return number_text(value);
}

std::string converted_number(const Parameter& parameter, const Setup& setup) {
    return converted_number(parameter.get(setup).value(), [&](double shown) {
        Setup trial = setup;
        parameter.set(trial, shown);
        return parameter.get(trial) == parameter.get(setup) &&
               trial.gears.module == setup.gears.module;
    });
}

std::string list_text(const std::vector<double>& list) {
    std::string text = "[";
    for (std::size_t i = 0; i < list.size(); ++i)
        text += (i == 0 ? "" : ", ") + number_text(list[i]);
    return text + "]";
}

void append_escaped(std::string& text, char c, bool block) {
    static constexpr char hex[] = "0123456789ABCDEF";
    const auto code = static_cast<unsigned char>(c);
    const bool as_it_is = c == '\t' || (c == '\n' && block);
    if (c == '"' || c == '\\')
        text += {'\\', c};
    else if ((code >= 0x20 && code != 0x7F) || as_it_is)
        text += c;
    else if (c == '\n')
        text += "\\n";
    else
        text += {'\\', 'u', '0', '0', hex[code >> 4U], hex[code & 15U]};
}

}  // namespace

std::string number_text(double value) {
    char buffer[64];
    const double size = std::abs(value);
    const bool plain = value == 0 || (size >= 1e-6 && size < 1e15);
    const auto end =
        plain ? std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed)
              : std::to_chars(buffer, buffer + sizeof buffer, value);
    return {buffer, end.ptr};
}

std::string degrees_text(double angle) {
    return converted_number(degrees(angle), [&](double shown) { return radians(shown) == angle; });
}

std::optional<double> parse_length(std::string_view text) {
    const auto trim = [](std::string_view part) {
        const std::size_t begin = part.find_first_not_of(" \t");
        if (begin == std::string_view::npos) return std::string_view{};
        return part.substr(begin, part.find_last_not_of(" \t") - begin + 1);
    };
    text = trim(text);
    if (text.substr(0, 1) == "+") text.remove_prefix(1);
    double number = 0;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), number);
    if (end.ec != std::errc{}) return std::nullopt;
    const std::string_view unit =
        trim(text.substr(static_cast<std::size_t>(end.ptr - text.data())));
    if (unit == "mm") return number;
    // 25.4 is no binary fraction: by 254 and 10 the decimals that people write come out as written.
    if (unit == "in" || unit == "inch" || unit == "\"")
        return static_cast<double>(static_cast<long double>(number) * 254 / 10);
    return std::nullopt;
}

std::string quoted_text(std::string_view text) {
    const bool block = text.find('\n') != std::string_view::npos;
    std::string quoted = block ? "\"\"\"\n" : "\"";
    for (const char c : text) append_escaped(quoted, c, block);
    return quoted + (block ? "\"\"\"" : "\"");
}

std::string value_text(const Parameter& parameter, const Setup& setup) {
    switch (parameter.kind) {
        case ValueKind::text: return quoted_text(parameter.get_text(setup));
        case ValueKind::list: return list_text(parameter.get_list(setup));
        case ValueKind::choice:
            return quoted_text(
                parameter.options.at(static_cast<std::size_t>(parameter.get(setup).value())));
        case ValueKind::number: break;
    }
    if (parameter.unit == Unit::degree || parameter.unit == Unit::arc_minute ||
        parameter.unit == Unit::percent || parameter.key == "gears.diametral_pitch")
        return converted_number(parameter, setup);
    return number_text(parameter.get(setup).value());
}

bool same_value(const Parameter& parameter, const Setup& a, const Setup& b) {
    switch (parameter.kind) {
        case ValueKind::text: return parameter.get_text(a) == parameter.get_text(b);
        case ValueKind::list: return parameter.get_list(a) == parameter.get_list(b);
        case ValueKind::choice:
        case ValueKind::number: break;
    }
    return parameter.get(a) == parameter.get(b);
}

std::string range_text(const Parameter& parameter) {
    if (parameter.kind == ValueKind::text)
        return "at most " + std::to_string(parameter.longest) + " characters";
    if (parameter.kind == ValueKind::choice) return listed(parameter.options, "or");
    std::string text = number_text(parameter.low) + " to " + number_text(parameter.high);
    if (const std::string_view unit = symbol(parameter.unit); !unit.empty())
        text += " " + std::string(unit);
    if (parameter.kind == ValueKind::list)
        text = "at most " + std::to_string(parameter.longest) + ", each " + text;
    return text;
}

Dedendum usual_dedendum(const Gears& gears) {
    // AGMA fine pitch begins at 20 teeth per inch (Mott, Machine Elements in Mechanical Design,
    // table 8-4).
    constexpr double finest_coarse_module = module_from_diametral_pitch(20);
    const bool fine = gears.by_diametral_pitch && gears.module <= finest_coarse_module;
    return fine ? Dedendum::fine_pitch : Dedendum::full_depth;
}

Setup default_setup() {
    Setup setup;
    for (const Side side : both_sides) setup.side(side).shims.clear();
    return setup;
}

}  // namespace podwright
