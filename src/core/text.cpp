#include "core/text.hpp"

#include <cmath>
#include <cstdio>

#include "core/units.hpp"

namespace podwright {

std::string fixed(double value, int decimals) {
    char buffer[400];
    const int written = std::snprintf(buffer, sizeof buffer, "%.*f", decimals, value);
    std::string text(buffer, static_cast<std::size_t>(written));
    for (char& c : text)
        if (c == ',') c = '.';  // some locales
    if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
    return text;
}

std::string angle(double rad) {
    constexpr double small = 0.1;  // degrees
    const double value = degrees(rad);
    return fixed(value, std::abs(value) < small ? 3 : 2) + "°";
}

std::string length(double mm, LengthUnit shown) {
    return shown == LengthUnit::mm ? fixed(mm, 2) + " mm" : fixed(mm / mm_per_inch, 4) + " in";
}

Written written_as(std::string_view unit, LengthUnit shown) {
    if (unit == "mm")
        return shown == LengthUnit::inch ? Written{"in", 1 / mm_per_inch, 4} : Written{"mm", 1, 2};
    if (unit == "N/mm2") return {"N/mm²", 1, 1};
    if (unit == "um") return {"µm", 1, 0};
    if (unit == "g cm2") return {"g cm²", 1, 1};
    if (unit == "N mm") return {"N·mm", 1, 2};
    if (unit == "rev/min" || unit == "h" || unit == "Hz") return {std::string(unit), 1, 0};
    if (unit == "km/h" || unit == "N" || unit == "g" || unit == "arcmin")
        return {std::string(unit), 1, 1};
    if (unit == "deg") return {"°", 1, 2};
    return {std::string(unit), 1, 2};
}

std::string amount(double value, std::string_view unit, LengthUnit shown) {
    if (unit == "mm") return length(value, shown);
    if (unit == "deg") return fixed(value, 2) + "\xC2\xB0";
    const bool whole = std::abs(value - std::round(value)) < 1e-9 && std::abs(value) >= 1;
    return fixed(value, whole ? 0 : 2) + (unit.empty() ? "" : " ") + std::string(unit);
}

std::string likelihood(double share) {
    if (share < 0.005) return "< 1 %";
    return share > 0.995 ? "> 99 %" : fixed(100 * share, 0) + " %";
}

}  // namespace podwright
