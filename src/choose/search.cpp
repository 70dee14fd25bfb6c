#include "choose/search.hpp"

#include <algorithm>

#include "choose/wheel_room.hpp"

namespace podwright {

const Search::Stacked* Search::Stream::at(std::size_t k) {
    while (sorted.size() <= k && !rest.empty()) {
        std::pop_heap(rest.begin(), rest.end(), Later{});
        sorted.push_back(rest.back());
        rest.pop_back();
    }
    return k < sorted.size() ? &sorted[k] : nullptr;
}

Search::Search(const Setup& today, const Lists& lists, Limits soft, KnownRoom rooms)
    : today_(today), lists_(lists), soft_(soft), rooms_(rooms), asks_(asks_of(today, soft)) {
    const KeyRules rules(today, lists);
    if (!soft.has(Limit::rules) && !rules.hold_always()) return;  // nothing to list
    judge_singles(rules);
    most_lean_ = most_lean();
    list_wheels();
}

std::optional<std::int64_t> Search::points_of(
    std::initializer_list<std::pair<Term, double>> values) const {
    std::int64_t sum = 0;
    for (const auto& [term, value] : values) {
        const auto points = ask(term).points(value);
        if (!points) return {};
        sum += *points;
    }
    return sum;
}

bool Search::sunk(std::size_t at, const Stacked& stacked) {
    const Wheels& wheels = wheels_[at];
    if (!rooms_.meter || grips_[wheels.grip].empty() || geared_[wheels.gears].empty()) return false;
    sunk_.resize(wheels_.size());
    if (!sunk_[at]) {
        const Opened any{at, stacked, {grips_[wheels.grip].front()}, 0};
        const Setup sample = lists_.setup(build_of(any, 0, 0));
        const Kin& kin = kin_[wheels.kin];
        const double track = kin.track_high - kin.track_low;
        const double right = kin.right_high - kin.right_low;
        const StackRange range{track + right, kin.float_high - kin.float_low, track, kin.track_low};
        sunk_[at] = most_wheel_room(sample, *rooms_.meter, range) < 0;
    }
    return *sunk_[at];
}

Stack Search::stack_of_sums(const Kin& kin, const Stacked& stacked) const {
    const ShimPair& pair = lists_.shims.pairs()[stacked.pair];
    const FloatChoice& setting = lists_.floats[stacked.setting];
    Stack stack{};
    const auto begin = [&](SideStack& s, const AxleSide& side, int sum) {
        s.bearing = side.seat + side.standout;
        s.shims = sum / 1000.0;
    };
    begin(stack.left, today_.left, pair.left);
    begin(stack.right, today_.right, pair.right);
    const double loop =
        stack.left.bearing + stack.left.shims + stack.right.bearing + stack.right.shims;
    const bool by_blade = today_.axial_float.set_by == FloatBy::blade;
    stack.axial_float = by_blade ? setting.blade : setting.shoulder - loop;
    stack.thrust_faces = loop + stack.axial_float;
    const auto place = [&](SideStack& s, const AxleSide& side, const Rolling& rolling) {
        s.thrust = s.bearing + s.shims + stack.axial_float / 2;
        s.mounting = s.thrust + side.reach;
        s.wheel = s.mounting - rolling.inset;
        s.outer = s.wheel + rolling.size.width / 2;
    };
    place(stack.left, today_.left, kin.left);
    place(stack.right, today_.right, kin.right);
    stack.overall_width = stack.left.outer + stack.right.outer;
    stack.track = stack.left.wheel + stack.right.wheel;
    stack.shift = (stack.left.outer - stack.right.outer) / 2;
    return stack;
}

/// All stacks of these wheels that no limit forbids. Pairs of sums are in the order of their
/// difference, of which the limit on shift leaves a stretch.
void Search::fill(Kin& kin) {
    const auto& pairs = lists_.shims.pairs();
    double low = -1e300;
    double high = 1e300;
    for (const Ask::Bound& bound : ask(Term::shift).bounds) {
        if (bound.soft) continue;
        if (bound.low) low = std::max(low, *bound.low);
        if (bound.high) high = std::min(high, *bound.high);
    }
    constexpr double slack = 1e-3;
    const double even = stack_of_sums(kin, {{}, 0, 0, 0}).shift -
                        (pairs[0].left - pairs[0].right) / 2000.0;  // without shims
    const auto difference = [](const ShimPair& pair) { return (pair.left - pair.right) / 2000.0; };
    const auto first = std::partition_point(pairs.begin(), pairs.end(), [&](const ShimPair& pair) {
        return difference(pair) + even < low - slack;
    });
    kin.track_low = kin.right_low = kin.float_low = 1e300;
    kin.track_high = kin.right_high = kin.float_high = -1e300;
    const auto at_least = [&](const ShimPair& pair) {
        return rooms_.floor ? rooms_.floor->points(pair, 0) : 0;
    };
    for (auto pair = first; pair != pairs.end() && difference(*pair) + even <= high + slack;
         ++pair) {
        if (rooms_.floor && rooms_.floor->forbids(*pair, most_lean_)) continue;
        for (std::size_t setting = 0; setting < lists_.floats.size(); ++setting) {
            if (!good_setting_[setting]) continue;
            Stacked stacked{lists_.stack_cost(*pair, setting),
                            static_cast<std::uint32_t>(pair - pairs.begin()),
                            static_cast<std::uint32_t>(setting), at_least(*pair)};
            const Stack stack = stack_of_sums(kin, stacked);
            const auto points = points_of({{Term::axial_float, stack.axial_float},
                                           {Term::width, stack.overall_width},
                                           {Term::shift, stack.shift},
                                           {Term::track, stack.track},
                                           {Term::left, stack.left.outer},
                                           {Term::right, stack.right.outer}});
            if (!points) continue;
            stacked.cost.points = *points + stacked.floor;
            kin.stacks.push_back(stacked);
            kin.track_low = std::min(kin.track_low, stack.track);
            kin.track_high = std::max(kin.track_high, stack.track);
            kin.right_low = std::min(kin.right_low, stack.right.wheel);
            kin.right_high = std::max(kin.right_high, stack.right.wheel);
            kin.float_low = std::min(kin.float_low, stack.axial_float);
            kin.float_high = std::max(kin.float_high, stack.axial_float);
        }
    }
    kin.any.rest = kin.stacks;
    std::make_heap(kin.any.rest.begin(), kin.any.rest.end(), Later{});
}

bool Search::reaches(const Held& held, std::size_t gears) const {
    if (held.level >= 0) return reach_[static_cast<std::size_t>(held.level)][gears];
    return !rooms_.gears || rooms_.gears->motor(gearing_[gears]->distance, held.lean) >= 0;
}

/// What holders and gears cost at least on these wheels, with no more changes than `budget`.
std::optional<Cost> Search::least_inside(const Wheels& wheels, int budget) const {
    const std::vector<Geared>& geared = geared_[wheels.gears];
    if (geared.empty()) return {};
    std::optional<Cost> least;
    for (const Held& held : grips_[wheels.grip]) {
        if (least && !(held.cost + geared.front().cost < *least)) break;
        for (const Geared& gears : geared) {
            const Cost cost = held.cost + gears.cost;
            if (least && !(cost < *least)) break;
            if (cost.changes > budget || !reaches(held, gears.gears)) continue;
            least = cost;
            break;
        }
    }
    return least;
}

Search::Opened Search::open(std::size_t at, const Stacked& stacked, int budget) {
    const Wheels& wheels = wheels_[at];
    const Kin& kin = kin_[wheels.kin];
    const Stack stack = stack_of_sums(kin, stacked);
    Setup setup = Setup{};
    setup.pod = today_.pod;
    setup.car = today_.car;
    setup.left = today_.left;
    setup.right = today_.right;
    lists_.set_rolling(setup, wheels.left, wheels.right);
    const double gear_u = stack.right.thrust + today_.gears.spur_offset;
    Opened opened{at, stacked, {}, budget};
    begun_ += grips_[wheels.grip].size();
    for (Held held : grips_[wheels.grip]) {
        if (held.cost.changes > budget) continue;
        const ShimPair& shims = lists_.shims.pairs()[stacked.pair];
        if (rooms_.floor && rooms_.floor->forbids(shims, held.lean)) continue;
        lists_.set_holders(setup, held.left, held.right);
        const Stance stance = stance_of(setup, stack);
        const auto points = points_of({{Term::ride, stance.ride},
                                       {Term::roll, degrees(stance.roll)},
                                       {Term::rake, degrees(stance.rake)},
                                       {Term::ride_left, stance.left.ride},
                                       {Term::ride_right, stance.right.ride},
                                       {Term::axle_height, stance.axle_height},
                                       {Term::axle_tilt, degrees(stance.axle_tilt)}});
        if (!points) continue;
        if (rooms_.floor) held.floor = rooms_.floor->points(shims, held.lean) - stacked.floor;
        held.cost.points = *points + held.floor;
        held.axle_z = stance.axle_z(-gear_u);
        opened.held.push_back(held);
    }
    std::sort(opened.held.begin(), opened.held.end(),
              [](const Held& a, const Held& b) { return a.cost < b.cost; });
    return opened;
}

std::optional<std::size_t> Search::next_gears(const Opened& opened, std::size_t at,
                                              std::size_t from) const {
    const Held& held = opened.held[at];
    const std::vector<Geared>& geared = geared_[wheels_[opened.wheels].gears];
    for (std::size_t j = from; j < geared.size(); ++j) {
        const std::size_t g = geared[j].gears;
        if (held.cost.changes + geared[j].cost.changes > opened.budget) continue;
        if (!reaches(held, g)) continue;
        if (held.level >= 0 || soft_.has(Limit::slot) ||
            place_on_slot(today_.motor, held.axle_z, gearing_[g]->distance).reached)
            return j;
    }
    return {};
}

Build Search::build_of(const Opened& opened, std::size_t held, std::size_t gears) const {
    const Wheels& wheels = wheels_[opened.wheels];
    Build build;
    build.left_rolling = wheels.left;
    build.right_rolling = wheels.right;
    build.shims = lists_.shims.pairs()[opened.stack.pair];
    build.setting = opened.stack.setting;
    build.left_holder = opened.held[held].left;
    build.right_holder = opened.held[held].right;
    build.gears = geared_[wheels.gears][gears].gears;
    return build;
}

}  // namespace podwright
