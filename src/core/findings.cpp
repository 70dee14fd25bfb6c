#include "core/findings.hpp"

#include <algorithm>

namespace podwright {

std::string_view word(Level level) {
    switch (level) {
        case Level::note: return "note";
        case Level::caution: return "caution";
        case Level::stop: return "stop";
    }
    return "";
}

std::vector<Finding> findings_of(const FindingInput& input) {
    std::vector<Finding> out;
    find_float_and_width(input, out);
    find_stance(input, out);
    find_gears(input, out);
    if (input.feel) {
        find_shaft(input, out);
        find_bearings(input, out);
        find_day(input, out);
        find_scatter(input, out);
    }
    std::stable_sort(out.begin(), out.end(),
                     [](const Finding& a, const Finding& b) { return a.level > b.level; });
    return out;
}

}  // namespace podwright
