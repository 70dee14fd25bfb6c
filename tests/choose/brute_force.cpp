#include "brute_force.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <tuple>

#include "choose/choose.hpp"

namespace podwright {

Setup random_problem(RandomSetups& random) {
    Setup s;
    PartsBox& box = s.choosing.box;
    const double shims[] = {0.1, 0.15, 0.2, 0.3, 0.5, 1.0};
    for (int i = random.whole(0, 3); i > 0; --i) {
        const double t = shims[random.whole(0, 5)];
        const bool known = std::any_of(box.shims.begin(), box.shims.end(),
                                       [&](const ShimKind& k) { return k.thickness == t; });
        if (!known) box.shims.push_back({t, random.whole(1, 3)});
    }
    for (int i = random.whole(0, 3); i > 0; --i) {
        const double step = 0.5 * random.whole(0, 4);
        const bool known = std::any_of(box.holders.begin(), box.holders.end(),
                                       [&](const HolderKind& k) { return k.step == step; });
        if (!known) box.holders.push_back({step, random.whole(1, 2)});
    }
    for (int i = random.whole(0, 3); i > 0; --i) {
        const int z = random.whole(26, 40);
        if (std::find(box.pinions.begin(), box.pinions.end(), z) == box.pinions.end())
            box.pinions.push_back(z);
    }
    for (int i = random.whole(0, 2); i > 0; --i) {
        const int z = random.whole(70, 84);
        if (std::find(box.spurs.begin(), box.spurs.end(), z) == box.spurs.end())
            box.spurs.push_back(z);
    }
    if (random.whole(0, 1)) box.blades = {0.1, 0.15, 0.3};
    for (int i = random.whole(0, 2); i > 0; --i)
        box.wheels.push_back({std::to_string(i), -5.0 + 0.25 * random.whole(0, 4), std::nullopt,
                              random.whole(1, 2)});
    for (int i = random.whole(0, 2); i > 0; --i) {
        TyreKind tyre;
        tyre.name = std::to_string(i);
        tyre.diameter = 42.0 + 0.1 * random.whole(0, 20);
        if (random.whole(0, 3) == 0) tyre.stiffness = 20;
        if (random.whole(0, 3) == 0) tyre.width = 40;
        tyre.count = random.whole(1, 2);
        box.tyres.push_back(tyre);
    }
    if (random.whole(0, 3) == 0) {
        s.axial_float.set_by = FloatBy::shoulder;
        s.axial_float.shoulder = 64.95;
        box.axles.push_back({"a", 6, 4, 0, 64.95});
        box.axles.push_back({"b", 6, 3, 1, 65.05});
    }
    s.event.roll_max = radians(random.whole(0, 1) ? 0.25 : 1.0);
    s.event.ride_low = 2.5;
    s.event.shift_max = random.whole(0, 1) ? 0.25 : 1.0;
    s.choosing.goals = {{"ride.rear", 3.4 + 0.1 * random.whole(0, 12), 0.05, 1},
                        {"width.overall", 170.5 + 0.1 * random.whole(0, 15), 0.1, 2},
                        {"width.shift", 0, 0.02, 5},
                        {"gear.rollout", 55.0 + random.whole(0, 8), 0.5, 0.3},
                        {"float.nominal", 0.15, 0, 4},
                        {"ride.roll", 0, 0.01, 1}};
    if (random.whole(0, 2) == 0)
        s.choosing.rules.push_back({"width.overall", {}, 171.5, "section 3 of a made-up rulebook"});
    if (random.whole(0, 4) == 0)
        s.choosing.rules.push_back({"gears.spur", 72, {}, "section 4 of a made-up rulebook"});
    return s;
}

std::vector<ShimPair> plain_shims(const Setup& s) {
    std::map<std::pair<int, int>, ShimPair> best;
    std::vector<ShimKind> kinds = s.choosing.box.shims;
    const auto micro = [](double mm) { return static_cast<int>(std::lround(mm * 1000)); };
    const auto today = [&](const std::vector<double>& shims, double t) {
        return static_cast<int>(std::count_if(shims.begin(), shims.end(),
                                              [&](double x) { return micro(x) == micro(t); }));
    };
    int known = 0;
    for (const ShimKind& k : kinds)
        known += today(s.left.shims, k.thickness) + today(s.right.shims, k.thickness);
    const int lost = static_cast<int>(s.left.shims.size() + s.right.shims.size()) - known;
    const std::function<void(std::size_t, ShimPair)> go = [&](std::size_t k, ShimPair pair) {
        if (k == kinds.size()) {
            const auto [at, fresh] = best.try_emplace({pair.left, pair.right}, pair);
            if (!fresh &&
                std::tie(pair.shims, pair.changes) < std::tie(at->second.shims, at->second.changes))
                at->second = pair;
            return;
        }
        for (int a = 0; a <= kinds[k].count; ++a)
            for (int b = 0; a + b <= kinds[k].count; ++b) {
                ShimPair next = pair;
                next.left += a * micro(kinds[k].thickness);
                next.right += b * micro(kinds[k].thickness);
                next.shims += a + b;
                next.changes += std::abs(a - today(s.left.shims, kinds[k].thickness)) +
                                std::abs(b - today(s.right.shims, kinds[k].thickness));
                go(k + 1, next);
            }
    };
    ShimPair none;
    none.changes = lost;
    go(0, none);
    std::vector<ShimPair> all;
    for (const auto& [sums, pair] : best) all.push_back(pair);
    return all;
}

std::vector<Plain> brute_force(const Setup& today, std::optional<std::size_t> most_changes) {
    const Lists lists(today);
    std::vector<Plain> all;
    for (std::size_t l = 0; l < lists.rolling[0].size(); ++l)
        for (std::size_t r = 0; r < lists.rolling[1].size(); ++r) {
            if (!lists.can_roll(l, r)) continue;
            for (const ShimPair& pair : lists.shims.pairs())
                for (std::size_t f = 0; f < lists.floats.size(); ++f)
                    for (std::size_t hl = 0; hl < lists.holders[0].size(); ++hl)
                        for (std::size_t hr = 0; hr < lists.holders[1].size(); ++hr) {
                            if (!lists.can_hold(hl, hr)) continue;
                            for (std::size_t g = 0; g < lists.gears.size(); ++g) {
                                const Build build{l, r, pair, f, hl, hr, g};
                                Plain plain{lists.setup(build), {}};
                                const Calculated c = calculate(plain.setup);
                                if (!broken(plain.setup, c).empty()) continue;
                                plain.cost = lists.rolling_cost(l, r) + lists.stack_cost(pair, f) +
                                             lists.holder_cost(hl, hr) + lists.gear_cost(g);
                                plain.cost.points = goal_points(plain.setup, c);
                                if (most_changes &&
                                    plain.cost.changes > static_cast<int>(*most_changes))
                                    continue;
                                all.push_back(std::move(plain));
                            }
                        }
        }
    std::sort(all.begin(), all.end(),
              [](const Plain& a, const Plain& b) { return a.cost < b.cost; });
    return all;
}

}  // namespace podwright
