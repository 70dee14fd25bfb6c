#include "bench/status_word.hpp"

#include "core/limits.hpp"

namespace podwright {

std::string_view status_word(const Reading& r) {
    if (r.status == Status::none) return {};
    if (r.status == Status::ok) return "ok";
    const bool is_low = r.low && r.value < *r.low;
    const std::string_view area = r.name.substr(0, r.name.find('.'));
    if (r.name == "float.outside_share") return "too many";
    if (area == "float") return below(r.value, 0) ? "binds" : is_low ? "tight" : "loose";
    if (r.name.substr(0, 13) == "mesh.backlash")
        return below(r.value, 0) ? "jams" : is_low ? "tight" : "loose";
    if (r.name == "width.shift" || r.name == "ride.roll") return "uneven";
    if (r.name == "mesh.slot_position") return "out of reach";
    if (area == "width") return is_low ? "too narrow" : "too wide";
    return is_low ? "too low" : "too high";
}

}  // namespace podwright
