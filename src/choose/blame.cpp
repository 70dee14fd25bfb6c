#include "choose/blame.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "choose/felt.hpp"
#include "choose/room.hpp"
#include "choose/search.hpp"
#include "core/limits.hpp"
#include "core/rules.hpp"
#include "core/shim_search.hpp"
#include "core/traded.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

namespace {

/// The best build that breaks no limit outside of `soft`.
class Finder {
public:
    /// After `most` measured builds of which none would do it gives up: what fails so often, as a
    /// tyre that meets the motor, fails with everything else, too.
    Finder(const Setup& setup, const ChooseOptions& options, Patience most)
        : today_(setup), options_(options), most_(most) {}

    using Accept = std::function<bool(const Setup&)>;

    std::optional<Search::Found> run(Limits soft, const Accept& accept = {}) {
        const Lists lists(today_);
        std::optional<Room> room;
        if (options_.meter && !soft.has(Limit::clearances)) room.emplace(*options_.meter);
        const GearRoom gears(today_, room ? options_.meter : nullptr);
        const RoomFloor floor(today_, lists, room ? options_.meter : nullptr);
        Search search(today_, lists, soft, {&floor, &gears, room ? options_.meter : nullptr});
        std::optional<Felt> felt;
        if (options_.felt) felt.emplace(today_);
        Search::Query query;
        query.most = 1;
        query.go_on = [this] { return !gave_up() && go_on(); };
        query.judge = [&](const Setup& build) -> std::optional<std::int64_t> {
            ++calculated_;
            if (stopped_ || gave_up() || (accept && !accept(build)) ||
                breaks(broken(build, calculate(build)), soft))
                return {};
            if (felt && breaks(felt->against(build), soft)) return {};
            if (!room) return 0;
            ++judged_;
            go_on();
            margin_ = room->of(build);
            if (!margin_) close_ = room->last();
            return margin_ ? std::optional<std::int64_t>(clearance_points(build, *margin_))
                           : std::nullopt;
        };
        auto found = search.run(query);
        if (found.empty()) return {};
        return std::move(found.front());
    }

    std::optional<double> margin() const { return margin_; }
    bool stopped() const { return stopped_; }
    bool gave_up() const { return judged_ > most_.measured || calculated_ > most_.calculated; }

private:
    bool go_on() {
        if (options_.watch.go_on && !options_.watch.go_on("looking for what is in the way"))
            stopped_ = true;
        return !stopped_;
    }

    static bool breaks(Limits limits, Limits soft) {
        for (int i = 0; i < limit_count; ++i) {
            const auto limit = static_cast<Limit>(i);
            // Out of the slot's reach the mesh is somewhere else: nothing to hold against it.
            const bool of_mesh = limit == Limit::contact_ratio || limit == Limit::mesh_tilt;
            if (limits.has(limit) && !soft.has(limit) && !(of_mesh && soft.has(Limit::slot)))
                return true;
        }
        return false;
    }

    const Setup& today_;
    const ChooseOptions& options_;
    std::optional<double> margin_;
    Room::Close close_;
    Patience most_;
    std::size_t judged_ = 0, calculated_ = 0;
    bool stopped_ = false;
};

/// "5.40 mm at best, 0.40 mm more than the 5.00 mm allowed"
std::string beyond(const Reading& reading, LengthUnit shown) {
    const bool low = reading.low && below(reading.value, *reading.low);
    const double limit = low ? *reading.low : reading.high.value_or(0);
    const auto amount = [&](double value) {
        return reading.unit == "mm" ? length(value, shown)
                                    : fixed(value, 2) + (reading.unit.empty() ? "" : " ") +
                                          std::string(reading.unit);
    };
    return amount(reading.value) + " at best, " + amount(std::abs(reading.value - limit)) +
           (low ? " less than the " : " more than the ") + amount(limit) + " allowed";
}

std::string obstacle_text(Limit limit, const Setup& nearest, LengthUnit shown, bool in_vain) {
    const std::string start = std::string(name(limit)) + ": ";
    const Calculated c = calculate(nearest);
    const std::vector<Reading> readings = readings_of(nearest, c.stack, c.stance, c.drive);
    const auto of = [&](std::string_view wanted) {
        return *std::find_if(readings.begin(), readings.end(),
                             [&](const Reading& reading) { return reading.name == wanted; });
    };
    switch (limit) {
        case Limit::axial_float: return start + beyond(of("float.nominal"), shown);
        case Limit::width: return start + beyond(of("width.overall"), shown);
        case Limit::shift: return start + beyond(of("width.shift"), shown);
        case Limit::ride: return start + beyond(of("ride.rear"), shown);
        case Limit::roll: return start + beyond(of("ride.roll"), shown);
        case Limit::rollout: return start + beyond(of("gear.rollout"), shown);
        case Limit::slot: return start + beyond(of("mesh.slot_position"), shown);
        case Limit::contact_ratio: return start + beyond(of("mesh.contact_ratio"), shown);
        case Limit::backlash: return start + beyond(of("mesh.backlash"), shown);
        case Limit::worn: return start + "only tyres below it are left";
        case Limit::rules:
            for (const RuleState& state : rule_states(nearest, evaluate(nearest).readings))
                if (state.broken())
                    return start + state.label + ", " + fixed(-state.margin, 2) + " " + state.unit +
                           " beyond what " + state.rule->from + " allows";
            break;
        case Limit::clearances:
            return start + (in_vain ? "every build that was measured has parts too close"
                                    : "every build that fits otherwise has parts too close");
        case Limit::felt:
            for (const Finding& finding : evaluate(nearest).findings)
                if (finding.level != Level::note && is_felt(finding.code))
                    return start + finding.text;
            break;
        case Limit::mesh_tilt:
        case Limit::parts: break;
    }
    return start + "no build keeps this limit";
}

int micrometres(double mm) { return static_cast<int>(std::lround(mm * 1000)); }

/// A box that lists every kind of part: today's where it does not.
PartsBox listed_box(const Setup& setup) {
    PartsBox box = setup.choosing.box;
    const auto sides = {&setup.left, &setup.right};
    if (box.shims.empty())
        for (const AxleSide* side : sides)
            for (const double shim : side->shims) {
                const auto known =
                    std::find_if(box.shims.begin(), box.shims.end(), [&](const ShimKind& kind) {
                        return micrometres(kind.thickness) == micrometres(shim);
                    });
                if (known != box.shims.end())
                    ++known->count;
                else
                    box.shims.push_back({shim, 1});
            }
    if (box.holders.empty()) {
        box.holders = {{setup.left.holder_step, 1}};
        if (setup.right.holder_step == setup.left.holder_step)
            box.holders[0].count = 2;
        else
            box.holders.push_back({setup.right.holder_step, 1});
    }
    if (box.pinions.empty()) box.pinions = {setup.gears.pinion};
    if (box.spurs.empty()) box.spurs = {setup.gears.spur};
    if (box.blades.empty()) box.blades = {setup.axial_float.blade};
    if (box.wheels.empty())
        for (const AxleSide* side : sides)
            box.wheels.push_back({side == &setup.left ? "left of today" : "right of today",
                                  side->inset, side->rim_diameter, 1});
    return box;
}

/// A kind of part that could be added, `n` of it.
struct Offer {
    std::string what;  ///< "shim", for which the build is asked what it uses beyond the box
    std::function<void(PartsBox&, int)> add;
};

std::vector<Offer> offers_for(const Setup& setup) {
    std::vector<Offer> offers;
    offers.reserve(64);
    for (const double thickness : usual_shims)
        offers.push_back({"shim", [thickness](PartsBox& box, int n) {
                              for (ShimKind& kind : box.shims)
                                  if (micrometres(kind.thickness) == micrometres(thickness)) {
                                      kind.count += n;
                                      return;
                                  }
                              box.shims.push_back({thickness, n});
                          }});
    // Each size by itself: of two new sizes at once no build would be an answer.
    constexpr int steps = 6;  // half millimetres, up to 3 mm
    for (int i = 0; i <= steps; ++i)
        offers.push_back({"holder", [step = 0.5 * i](PartsBox& box, int n) {
                              for (HolderKind& kind : box.holders)
                                  if (std::abs(kind.step - step) < 1e-9) {
                                      kind.count += n;
                                      return;
                                  }
                              box.holders.push_back({step, n});
                          }});
    const auto teeth = [&offers](const char* what, std::vector<int> PartsBox::*list, int low,
                                 int high) {
        offers.push_back({what, [=](PartsBox& box, int) {
                              for (int z = low; z <= high; ++z)
                                  if (std::find((box.*list).begin(), (box.*list).end(), z) ==
                                      (box.*list).end())
                                      (box.*list).push_back(z);
                          }});
    };
    teeth("pinion", &PartsBox::pinions, 8, 80);
    teeth("spur", &PartsBox::spurs, 20, 160);
    if (setup.axial_float.set_by == FloatBy::blade)
        offers.push_back(
            {"blade", [](PartsBox& box, int) {
                 for (const double blade : usual_blades)
                     if (std::none_of(box.blades.begin(), box.blades.end(),
                                      [&](double b) { return std::abs(b - blade) < 1e-9; }))
                         box.blades.push_back(blade);
             }});
    constexpr int quarters = 32;  // of a millimetre, either way
    for (int i = -quarters; i <= quarters; ++i)
        offers.push_back(
            {"wheel", [inset = 0.25 * i](PartsBox& box, int n) {
                 box.wheels.push_back({"of " + fixed(inset, 2) + " mm inset", inset, {}, n});
             }});
    return offers;
}

/// How many parts of each kind and size `build` uses beyond the box.
std::map<std::string, int> beyond_box(const Setup& build, const PartsBox& box, LengthUnit shown) {
    std::map<std::string, int> need;
    std::map<int, int> shims;
    for (const AxleSide* side : {&build.left, &build.right}) {
        for (const double shim : side->shims) ++shims[micrometres(shim)];
    }
    for (const ShimKind& kind : box.shims) shims[micrometres(kind.thickness)] -= kind.count;
    for (const auto& [micro, n] : shims) need[length(micro / 1000.0, shown) + " shim"] = n;

    std::map<int, int> holders;
    for (const AxleSide* side : {&build.left, &build.right})
        ++holders[micrometres(side->holder_step)];
    for (const HolderKind& kind : box.holders) holders[micrometres(kind.step)] -= kind.count;
    for (const auto& [micro, n] : holders) need[length(micro / 1000.0, shown) + " holder"] = n;

    std::map<int, int> wheels;
    for (const AxleSide* side : {&build.left, &build.right}) ++wheels[micrometres(side->inset)];
    for (const WheelKind& kind : box.wheels) wheels[micrometres(kind.inset)] -= kind.count;
    for (const auto& [micro, n] : wheels)
        need["wheel of " + length(micro / 1000.0, shown) + " inset"] = n;

    const auto missing = [](const auto& list, const auto& value) {
        return std::find(list.begin(), list.end(), value) == list.end() ? 1 : 0;
    };
    need[std::to_string(build.gears.pinion) + "-tooth pinion"] =
        missing(box.pinions, build.gears.pinion);
    need[std::to_string(build.gears.spur) + "-tooth spur"] = missing(box.spurs, build.gears.spur);
    need[length(build.axial_float.blade, shown) + " blade"] =
        std::none_of(box.blades.begin(), box.blades.end(),
                     [&](double b) { return std::abs(b - build.axial_float.blade) < 1e-9; })
            ? 1
            : 0;
    for (auto it = need.begin(); it != need.end();)
        it = it->second <= 0 ? need.erase(it) : std::next(it);
    return need;
}

std::optional<Blame::Addition> smallest_addition(const Setup& setup, const ChooseOptions& options) {
    Setup listed = setup;
    listed.choosing.box = listed_box(setup);
    for (const int n : {1, 2}) {
        std::optional<Search::Found> best;
        std::optional<double> room;
        for (const Offer& offer : offers_for(setup)) {
            const bool single =
                offer.what == "pinion" || offer.what == "spur" || offer.what == "blade";
            // A wheel of a new inset is of no use without its like on the other side.
            if (n == 2 ? single : offer.what == "wheel") continue;
            Setup with = listed;
            offer.add(with.choosing.box, n);
            constexpr Patience most{20'000, 12};
            Finder finder(with, options, most);
            const auto found = finder.run({}, [&](const Setup& build) {
                const auto need = beyond_box(build, listed.choosing.box, options.shown);
                return need.size() <= 1 && (need.empty() || need.begin()->second <= n);
            });
            if (finder.stopped()) return {};
            const bool better =
                found &&
                (!best || std::tie(found->cost.points, found->cost.shims, found->cost.changes) <
                              std::tie(best->cost.points, best->cost.shims, best->cost.changes));
            if (!better) continue;
            best = found;
            room = finder.margin();
        }
        if (!best) continue;
        Blame::Addition addition;
        for (const auto& [what, count] :
             beyond_box(best->setup, listed.choosing.box, options.shown))
            addition.text +=
                (addition.text.empty() ? "" : ", ") + std::to_string(count) + " x " + what;
        best->setup.choosing = setup.choosing;
        addition.answer = answer_of(setup, best->setup, room, options.shown);
        addition.answer.changes = best->cost.changes;
        return addition;
    }
    return {};
}

}  // namespace

Blame find_blame(const Setup& setup, const ChooseOptions& options, bool in_vain) {
    Blame blame;
    blame.gave_up = in_vain;
    for (int i = 0; i < limit_count; ++i) {
        const auto limit = static_cast<Limit>(i);
        if (limit == Limit::parts || (limit == Limit::clearances && !options.meter) ||
            (limit == Limit::felt && !options.felt))
            continue;
        Limits soft;
        soft.add(limit);
        const Patience most{in_vain ? std::size_t{2'000} : std::size_t{20'000}, 1500};
        Finder finder(setup, options, most);
        const auto found = finder.run(soft);
        if (finder.stopped()) return blame;
        blame.gave_up = blame.gave_up || finder.gave_up();
        if (found)
            blame.obstacles.push_back(
                {limit, obstacle_text(limit, found->setup, options.shown, in_vain), found->setup});
    }
    // No part helps against a rule on what no part changes.
    if (in_vain || !KeyRules(setup, Lists(setup)).hold_always()) return blame;
    blame.addition = smallest_addition(setup, options);
    return blame;
}

}  // namespace podwright
