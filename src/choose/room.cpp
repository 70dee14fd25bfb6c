#include "choose/room.hpp"

#include <algorithm>

#include "choose/limit.hpp"
#include "shape/assembly.hpp"

namespace podwright {

namespace {

constexpr std::size_t most_tight = 4;
constexpr std::size_t effort_of_depth = 50;

}  // namespace

bool Room::fails(const Setup& setup, const Clearance& clearance) {
    const Status status = clearance.worst.status;
    const bool leans = holder_offset(setup.left) != holder_offset(setup.right);
    if (leans && status == Status::stop) effort_ = effort_of_depth;
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
    effort_ = 1;
    const Calculated c = calculate(setup);
    const Assembly assembly = assemble(setup, c.stack, c.stance, c.drive);
    for (std::size_t i = 0; i < suspects_.size(); ++i) {
        const auto [a, b] = suspects_[i];
        const bool there = assembly.find(a) && (b == ground_key || assembly.find(b));
        if (there && fails(setup, meter_.clearance(setup, assembly, a, b))) return {};
    }
    double least = clearance_horizon;
    const Clearance* tightest = nullptr;
    const std::vector<Clearance> all = meter_.clearances(setup, assembly);
    for (const Clearance& clearance : all) {
        if (fails(setup, clearance)) return {};
        if (clearance.need == 0 || clearance.margin() >= least) continue;
        least = clearance.margin();
        tightest = &clearance;
    }
    if (tightest) remember_tight(tightest->a, tightest->b);
    return least;
}

void Room::remember_tight(const std::string& a, const std::string& b) {
    const std::pair<std::string, std::string> pair{a, b};
    tight_.erase(std::remove(tight_.begin(), tight_.end(), pair), tight_.end());
    tight_.insert(tight_.begin(), pair);
    if (tight_.size() > most_tight) tight_.pop_back();
}

std::optional<double> Room::at_most(const Setup& setup) {
    double least = clearance_horizon;
    effort_ = 1;
    if (tight_.empty()) return least;
    const Calculated c = calculate(setup);
    const Assembly assembly = assemble(setup, c.stack, c.stance, c.drive);
    for (const auto& [a, b] : tight_) {
        const bool there = assembly.find(a) && (b == ground_key || assembly.find(b));
        if (!there) continue;
        const Clearance clearance = meter_.clearance(setup, assembly, a, b);
        if (fails(setup, clearance)) {
            remember_tight(clearance.a, clearance.b);
            return {};
        }
        least = std::min(least, clearance.margin());
    }
    return least;
}

}  // namespace podwright
