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
constexpr double unbounded = 1e3;         // mm

// What leans with the axle is nearer than this to the middle of its bearing, mm.
constexpr double reach = 12;

}  // namespace

/// Measures level cars that are otherwise as today.
class RoomFloor::Sampler {
public:
    Sampler(const Setup& today, const Lists& lists, Meter& meter)
        : today_(today), lists_(lists), meter_(meter) {}

    std::optional<SideRoom> side(Side side, int least_sum, double thinnest) {
        SideRoom room{least_sum, -unbounded, -unbounded};
        bool any = false;
        for (const HolderChoice& holder : lists_.holders[side == Side::left ? 0 : 1]) {
            const auto bare = margin(side, holder, least_sum / 1000.0, thrust_part(side), true);
            const auto shim = margin(side, holder, thinnest, shim_part(side), true);
            if (!bare || !shim) continue;
            any = true;
            room.thrust = std::max(room.thrust, *bare);
            room.shim = std::max(room.shim, *shim);
        }
        return any ? std::optional(room) : std::nullopt;
    }

    /// Only the thrust face's part against the bearing, in the holders of today.
    std::optional<SideRoom> bare_side(Side side, int least_sum) {
        const HolderChoice holder{-1, today_.left.holder_step, today_.left.holder_way, 0};
        const double shim = least_sum / 1000.0;
        const auto bare = margin(side, holder, shim, thrust_part(side), false);
        if (!bare) return {};
        SideRoom room{least_sum, *bare};
        // Where a shim more is just that much more room, whatever the float, no bound is open.
        constexpr double more = 0.1;
        constexpr double same = 1e-9;
        const auto farther = margin(side, holder, shim + more, thrust_part(side), false);
        const double blade = today_.axial_float.blade;
        today_.axial_float.blade = blade + more;
        const auto looser = margin(side, holder, shim, thrust_part(side), false);
        today_.axial_float.blade = blade;
        room.exact = is_round_ && farther && looser && std::abs(*farther - *bare - more) < same &&
                     std::abs(*looser - *bare) < same;
        return room;
    }

private:
    static std::string thrust_part(Side side) {
        return side == Side::left ? "left.hub" : "carrier";
    }
    static std::string shim_part(Side side) {
        return side == Side::left ? "left.shim.1" : "right.shim.1";
    }

    /// Of `turning` to the bearing and, if asked, to the holder; level in the pod, and otherwise as
    /// today. Nothing where no car could be built so.
    std::optional<double> margin(Side side, const HolderChoice& holder, double shim,
                                 const std::string& turning, bool to_holder) {
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
        is_round_ = std::none_of(assembly.parts.begin(), assembly.parts.end(), has_own_mesh);
        const std::string at = side == Side::left ? "left." : "right.";
        double least = unbounded;
        for (const char* fixed : {"bearing", "holder"}) {
            if (!to_holder && std::string_view(fixed) == "holder") continue;
            const Part* a = assembly.find(at + fixed);
            const Part* b = assembly.find(turning);
            if (!a || !b || fit_between(assembly, *a, *b) != Fit::clearance) continue;
            if (need_between(sample.needs, *a, *b) == 0) continue;
            least = std::min(least, meter_.clearance(sample, assembly, a->key, b->key).margin());
        }
        return least;
    }

    Setup today_;
    const Lists& lists_;
    Meter& meter_;
    bool is_round_ = true;  ///< no mesh of the user's, which could have any shape
};

RoomFloor::RoomFloor(const Setup& today, const Lists& lists, Meter* meter) {
    if (!meter) return;
    for (const Goal& goal : today.choosing.goals)
        if (goal.reading == "clearance") goals_.push_back(goal);
    const auto& pairs = lists.shims.pairs();
    int left = pairs[0].left;
    int right = pairs[0].right;
    for (const ShimPair& pair : pairs) {
        left = std::min(left, pair.left);
        right = std::min(right, pair.right);
    }
    Sampler sampler(today, lists, *meter);
    left_bare_ = sampler.bare_side(Side::left, left);
    right_bare_ = sampler.bare_side(Side::right, right);
    double thinnest = 0;
    for (const ShimKind& kind : today.choosing.box.shims)
        thinnest = thinnest > 0 ? std::min(thinnest, kind.thickness) : kind.thickness;
    if (goals_.empty() || thinnest == 0) return;
    left_ = sampler.side(Side::left, left, thinnest);
    right_ = sampler.side(Side::right, right, thinnest);
}

bool RoomFloor::forbids(const ShimPair& pair, double lean) const {
    const auto too_close = [&](const std::optional<SideRoom>& side, int sum) {
        if (!side) return false;
        // A round hub that leans comes nearer on one side by what it gains on the other; only the
        // way along the leaning axle is left, which goes with the square.
        constexpr double rounding = 1e-6;
        constexpr double far_out = 40;  // mm, more than from the middle to a thrust face
        const double slack =
            side->exact ? rounding + far_out * lean * lean : measured_within + reach * lean;
        return most(*side, sum) + slack < 0;
    };
    return too_close(left_bare_, pair.left) || too_close(right_bare_, pair.right);
}

double RoomFloor::most(const SideRoom& side, int sum) {
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
