#include "core/text.hpp"

#include <cmath>
#include <cstdio>

#include "core/reading.hpp"
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

std::string unit_text(std::string_view unit) {
    if (unit == "N/mm2") return "N/mm²";
    if (unit == "um") return "µm";
    if (unit == "g cm2") return "g cm²";
    if (unit == "g/cm3") return "g/cm³";
    if (unit == "N mm") return "N·mm";
    if (unit == "deg") return "°";
    if (unit == "degC") return "°C";
    return std::string(unit);
}

std::string with_unit(const std::string& number, std::string_view unit) {
    if (unit.empty()) return number;
    return number + (unit == "deg" ? "" : " ") + unit_text(unit);
}

Written written_as(std::string_view unit, LengthUnit shown) {
    constexpr double longest_life = 100000;  // h
    constexpr double most_safety = 100;
    if (unit == "mm")
        return shown == LengthUnit::inch ? Written{"in", 1 / mm_per_inch, 4} : Written{"mm", 1, 2};
    if (unit == "h") return {"h", 1, 0, longest_life};
    if (unit.empty()) return {"", 1, 2, most_safety};
    if (unit == "um" || unit == "rev/min" || unit == "Hz") return {unit_text(unit), 1, 0};
    if (unit == "N/mm2" || unit == "g cm2" || unit == "km/h" || unit == "N" || unit == "g" ||
        unit == "arcmin")
        return {unit_text(unit), 1, 1};
    return {unit_text(unit), 1, 2};
}

std::string number_as(const Written& as, double value) {
    const double number = value * as.factor;
    return number > as.most ? "over " + fixed(as.most, 0) : fixed(number, as.decimals);
}

int limit_decimals(double limit, int least) {
    constexpr int most = 3;
    double scale = std::pow(10.0, least);
    for (int decimals = least; decimals <= most; ++decimals, scale *= 10)
        if (std::abs(limit * scale - std::round(limit * scale)) < 1e-6) return decimals;
    return least;
}

std::string amount(double value, std::string_view unit, LengthUnit shown) {
    if (unit == "mm") return length(value, shown);
    const Written as = written_as(unit, shown);
    if (is_endless(value)) return with_unit(number_as(as, std::abs(value)), unit);
    const bool whole = std::abs(value - std::round(value)) < 1e-9 && std::abs(value) >= 1;
    return with_unit(fixed(value, whole ? 0 : limit_decimals(value, as.decimals)), unit);
}

std::string range_text(const std::string& low, const std::string& high) {
    if (!low.empty() && !high.empty()) return low + " to " + high;
    if (!low.empty()) return "at least " + low;
    return high.empty() ? "" : "at most " + high;
}

std::string likelihood(double share) {
    if (share < 0.005) return "< 1 %";
    return share > 0.995 ? "> 99 %" : fixed(100 * share, 0) + " %";
}

}  // namespace podwright
