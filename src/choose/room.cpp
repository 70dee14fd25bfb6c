#include "choose/room.hpp"

#include <algorithm>

#include "choose/limit.hpp"
#include "shape/assembly.hpp"

namespace podwright {

bool Room::fails(const Clearance& clearance) {
    const Status status = clearance.worst.status;
    if (status != Status::caution && status != Status::stop) return false;
    const std::pair<std::string, std::string> pair{clearance.a, clearance.b};
    const auto known = std::find(suspects_.begin(), suspects_.end(), pair);
    if (known != suspects_.end()) suspects_.erase(known);
    suspects_.insert(suspects_.begin(), pair);
    last_ = {clearance.a, clearance.b, -clearance.margin()};
    return true;
}

std::optional<double> Room::of(const Setup& setup) {
    ++measured_;
    const Calculated c = calculate(setup);
    const Assembly assembly = assemble(setup, c.stack, c.stance, c.drive);
    for (std::size_t i = 0; i < suspects_.size(); ++i) {
        const auto [a, b] = suspects_[i];
        const bool there = assembly.find(a) && (b == ground_key || assembly.find(b));
        if (there && fails(meter_.clearance(setup, assembly, a, b))) return {};
    }
    double least = clearance_horizon;
    for (const Clearance& clearance : meter_.clearances(setup, assembly)) {
        if (fails(clearance)) return {};
        if (clearance.need > 0) least = std::min(least, clearance.margin());
    }
    return least;
}

}  // namespace podwright
