#include "choose/room_floor.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "choose/cost.hpp"
#include "choose/limit.hpp"
#include "core/conflicts.hpp"
#include "gap/fit.hpp"
#include "shape/assembly.hpp"

namespace podwright {

namespace {

constexpr double measured_within = 0.01;  // mm, of a clearance over the envelope

// What leans with the axle is nearer than this to the middle of its bearing, mm.
constexpr double reach = 12;

}  // namespace

/// Measures level cars that are otherwise as today.
class RoomFloor::Sampler {
public:
    Sampler(const Setup& today, const Lists& lists, Meter& meter)
        : today_(today), lists_(lists), meter_(meter) {}

    std::optional<SideRoom> side(Side side, int least_sum, double thinnest) {
        SideRoom room{least_sum, -clearance_horizon, -clearance_horizon};
        bool any = false;
        for (const HolderChoice& holder : lists_.holders[side == Side::left ? 0 : 1]) {
            const auto bare = margin(side, holder, least_sum / 1000.0, false);
            const auto shim = margin(side, holder, thinnest, true);
            if (!bare || !shim) continue;
            any = true;
            room.thrust = std::max(room.thrust, *bare);
            room.shim = std::max(room.shim, *shim);
        }
        return any ? std::optional(room) : std::nullopt;
    }

private:
    /// Of hub or carrier, or of the shim, to bearing and holder; level in the pod, and otherwise as
    /// today. Nothing where no car could be built so.
    std::optional<double> margin(Side side, const HolderChoice& holder, double shim, bool of_shim) {
        Setup sample = today_;
        for (const Side s : both_sides) {
            sample.side(s).holder_step = holder.step;
            sample.side(s).holder_way = holder.way;
        }
        sample.side(side).shims.clear();
        if (shim > 0) sample.side(side).shims = {shim};
        sample.axial_float.set_by = FloatBy::blade;
        if (find_conflict(sample)) return {};
        const Calculated c = calculate(sample);
        const Assembly assembly = assemble(sample, c.stack, c.stance, c.drive);
        const std::string at = side == Side::left ? "left." : "right.";
        const std::string thrust = side == Side::left ? "left.hub" : "carrier";
        const std::string turning = of_shim ? at + "shim.1" : thrust;
        double least = clearance_horizon;
        for (const char* fixed : {"bearing", "holder"}) {
            const Part* a = assembly.find(at + fixed);
            const Part* b = assembly.find(turning);
            if (!a || !b || fit_between(assembly, *a, *b) != Fit::clearance) continue;
            if (need_between(sample.needs, *a, *b) == 0) continue;
            least = std::min(least, meter_.clearance(sample, assembly, a->key, b->key).margin());
        }
        return least;
    }

    const Setup& today_;
    const Lists& lists_;
    Meter& meter_;
};

RoomFloor::RoomFloor(const Setup& today, const Lists& lists, Meter* meter) {
    if (!meter) return;
    for (const Goal& goal : today.choosing.goals)
        if (goal.reading == "clearance") goals_.push_back(goal);
    double thinnest = 0;
    for (const ShimKind& kind : today.choosing.box.shims)
        thinnest = thinnest > 0 ? std::min(thinnest, kind.thickness) : kind.thickness;
    if (goals_.empty() || thinnest == 0) return;
    const auto& pairs = lists.shims.pairs();
    int left = pairs[0].left;
    int right = pairs[0].right;
    for (const ShimPair& pair : pairs) {
        left = std::min(left, pair.left);
        right = std::min(right, pair.right);
    }
    Sampler sampler(today, lists, *meter);
    left_ = sampler.side(Side::left, left, thinnest);
    right_ = sampler.side(Side::right, right, thinnest);
}

double RoomFloor::most(const SideRoom& side, int sum) const {
    // What is moved by s has no more than s more room.
    const double thrust = side.thrust + std::abs(sum - side.sum) / 1000.0;
    return sum > 0 ? std::min(thrust, side.shim) : thrust;
}

std::int64_t RoomFloor::points(const ShimPair& pair, double lean) const {
    if (!left_ || !right_) return 0;
    return clearance_points(goals_, std::min(most(*left_, pair.left), most(*right_, pair.right)) +
                                        measured_within + reach * lean);
}

std::int64_t RoomFloor::credit(double lean) const {
    if (!left_ || !right_ || lean == 0) return 0;
    double weight = 0;
    for (const Goal& goal : goals_) weight += goal.weight;
    return static_cast<std::int64_t>(std::ceil(weight * reach * lean * point)) + 2;
}

}  // namespace podwright
