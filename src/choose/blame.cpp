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
    /// After `most` builds of which none would do it gives up: what fails so often, as a tyre that
    /// meets the motor, most likely fails with everything else, too.
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
        query.enough = [&] {
            begun_ = search.begun();
            return gave_up();
        };
        query.judge = [&](const Setup& build) -> std::optional<std::int64_t> {
            ++calculated_;
            if (stopped_ || gave_up() || (accept && !accept(build)) ||
                breaks(broken(build, calculate(build)), soft))
                return {};
            if (felt && breaks(felt->against(build), soft)) return {};
            if (!room) return 0;
            go_on();
            const auto margin = room->of(build);
            judged_ += room->effort();
            if (!margin) return {};
            return clearance_points(build, *margin);
        };
        auto found = search.run(query);
        if (found.empty()) return {};
        return std::move(found.front());
    }

    bool stopped() const { return stopped_; }
    bool gave_up() const {
        return judged_ > most_.measured || calculated_ > most_.calculated || begun_ > most_.begun;
    }

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
    Patience most_;
    std::size_t judged_ = 0, calculated_ = 0, begun_ = 0;
    bool stopped_ = false;
};

/// The reading that a limit is on, where it is on one that builds are told by.
std::optional<Term> term_of(Limit limit) {
    switch (limit) {
        case Limit::axial_float: return Term::axial_float;
        case Limit::width: return Term::width;
        case Limit::shift: return Term::shift;
        case Limit::ride: return Term::ride;
        case Limit::roll: return Term::roll;
        case Limit::rollout: return Term::rollout;
        case Limit::backlash: return Term::backlash;
        default: return {};
    }
}

/// `setup` without a limit that has a term, or without rules; asked for as little change of that
/// reading as can be, as the car of today is most likely clear of itself.
Setup without(Setup setup, Limit limit) {
    setup.choosing.goals.clear();
    if (const auto term = term_of(limit))
        setup.choosing.goals = {{reading_name(*term), value_of(*term, calculate(setup)), 0, 1}};
    constexpr double far = 1e6;
    Event& event = setup.event;
    if (limit == Limit::width) event.width_max = far;
    if (limit == Limit::shift) event.shift_max = far;
    if (limit == Limit::roll) event.roll_max = 1.5;  // rad
    if (limit == Limit::rollout) event.rollout_low = event.rollout_high = 0;
    if (limit == Limit::rules) setup.choosing.rules.clear();
    if (limit == Limit::axial_float) {
        setup.axial_float.low = 0;
        setup.axial_float.high = far;
    }
    if (limit == Limit::ride) {
        event.ride_low = -far;
        event.ride_high = far;
    }
    if (limit == Limit::backlash) {
        setup.gears.backlash_low = 0;
        setup.gears.backlash_high = far;
    }
    return setup;
}

/// The limits of `setup` on a build that was found without one of them.
Setup with_limits_of(const Setup& setup, Setup build) {
    build.event = setup.event;
    build.axial_float.low = setup.axial_float.low;
    build.axial_float.high = setup.axial_float.high;
    build.gears.backlash_low = setup.gears.backlash_low;
    build.gears.backlash_high = setup.gears.backlash_high;
    build.choosing = setup.choosing;
    return build;
}

/// "5.40 mm at best, 0.40 mm more than the 5.00 mm allowed"; not "at best" if it is one of many.
std::string beyond(const Reading& reading, LengthUnit shown, bool nearest) {
    const bool low = reading.low && below(reading.value, *reading.low);
    const double limit = low ? *reading.low : reading.high.value_or(0);
    const auto amount = [&](double value) {
        return reading.unit == "mm" ? length(value, shown)
                                    : fixed(value, 2) + (reading.unit.empty() ? "" : " ") +
                                          std::string(reading.unit);
    };
    return amount(reading.value) + (nearest ? " at best, " : " in a build that keeps all else, ") +
           amount(std::abs(reading.value - limit)) + (low ? " less than the " : " more than the ") +
           amount(limit) + " allowed";
}

/// `is_nearest`: no other build comes nearer to the limit.
std::string obstacle_text(Limit limit, const Setup& nearest, LengthUnit shown, bool in_vain,
                          bool is_nearest) {
    const std::string start = std::string(name(limit)) + ": ";
    const Calculated c = calculate(nearest);
    const std::vector<Reading> readings = readings_of(nearest, c.stack, c.stance, c.drive);
    const auto of = [&](std::string_view wanted) {
        return *std::find_if(readings.begin(), readings.end(),
                             [&](const Reading& reading) { return reading.name == wanted; });
    };
    switch (limit) {
        case Limit::axial_float: return start + beyond(of("float.nominal"), shown, is_nearest);
        case Limit::width: return start + beyond(of("width.overall"), shown, is_nearest);
        case Limit::shift: return start + beyond(of("width.shift"), shown, is_nearest);
        case Limit::ride: return start + beyond(of("ride.rear"), shown, is_nearest);
        case Limit::roll: return start + beyond(of("ride.roll"), shown, is_nearest);
        case Limit::rollout: return start + beyond(of("gear.rollout"), shown, is_nearest);
        case Limit::slot: return start + beyond(of("mesh.slot_position"), shown, is_nearest);
        case Limit::contact_ratio:
            return start + beyond(of("mesh.contact_ratio"), shown, is_nearest);
        case Limit::backlash: return start + beyond(of("mesh.backlash"), shown, is_nearest);
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
    const int steps = static_cast<int>(std::lround(holder_most / holder_grid));
    for (int i = 0; i <= steps; ++i)
        offers.push_back({"holder", [step = holder_grid * i](PartsBox& box, int n) {
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

/// With no answer: whether a search gave up that might have had one.
struct Additions {
    std::optional<Blame::Addition> smallest;
    bool gave_up = false;
};

Additions smallest_addition(const Setup& setup, const ChooseOptions& options) {
    bool gave_up = false;
    Setup listed = setup;
    listed.choosing.box = listed_box(setup);
    for (const int n : {1, 2}) {
        std::optional<Search::Found> best;
        for (const Offer& offer : offers_for(setup)) {
            const bool single =
                offer.what == "pinion" || offer.what == "spur" || offer.what == "blade";
            // A wheel of a new inset is of no use without its like on the other side.
            if (n == 2 ? single : offer.what == "wheel") continue;
            Setup with = listed;
            offer.add(with.choosing.box, n);
            constexpr Patience most{20'000, 12, 0, 500'000};
            Finder finder(with, options, most);
            const auto found = finder.run({}, [&](const Setup& build) {
                const auto need = beyond_box(build, listed.choosing.box, options.shown);
                return need.size() <= 1 && (need.empty() || need.begin()->second <= n);
            });
            if (finder.stopped()) return {{}, true};
            gave_up = gave_up || (!found && finder.gave_up());
            const bool better =
                found &&
                (!best || std::tie(found->cost.points, found->cost.shims, found->cost.changes) <
                              std::tie(best->cost.points, best->cost.shims, best->cost.changes));
            if (!better) continue;
            best = found;
        }
        if (!best) continue;
        Blame::Addition addition;
        for (const auto& [what, count] :
             beyond_box(best->setup, listed.choosing.box, options.shown))
            addition.text +=
                (addition.text.empty() ? "" : ", ") + std::to_string(count) + " x " + what;
        best->setup.choosing = setup.choosing;
        const auto room =
            options.meter ? Room(*options.meter).of(best->setup) : std::optional<double>();
        addition.answer = answer_of(setup, best->setup, room, options.shown);
        addition.answer.changes = best->cost.changes;
        return {addition, gave_up};
    }
    return {{}, gave_up};
}

/// Whether this limit alone is in the way, and the build that shows it.
struct Tried {
    std::optional<Blame::Obstacle> obstacle;
    bool gave_up = false, stopped = false;
};

Tried try_limit(const Setup& setup, const ChooseOptions& options, Limit limit, bool in_vain) {
    // After a search in vain every limit's is most likely as much in vain.
    const Patience most =
        in_vain ? Patience{2'000, 150, 0, 500'000} : Patience{20'000, 1'500, 0, 500'000};
    Limits soft;
    soft.add(limit);
    Finder finder(setup, options, most);
    if (const auto found = finder.run(soft))
        return {Blame::Obstacle{
            limit, obstacle_text(limit, found->setup, options.shown, in_vain, !finder.gave_up()),
            found->setup}};
    if (finder.stopped() || !finder.gave_up()) return {{}, false, finder.stopped()};
    // What comes near the limit fails otherwise. If anything at all does without the limit, it is
    // in the way all the same.
    if (!term_of(limit) && limit != Limit::rules) return {{}, true};
    const Setup waived = without(setup, limit);
    Finder any(waived, options, most);
    const auto found = any.run({});
    if (!found) return {{}, any.gave_up(), any.stopped()};
    const Setup build = with_limits_of(setup, found->setup);
    return {
        Blame::Obstacle{limit, obstacle_text(limit, build, options.shown, in_vain, false), build}};
}

}  // namespace

Blame find_blame(const Setup& setup, const ChooseOptions& options, bool in_vain) {
    Blame blame;
    blame.gave_up = in_vain;
    blame.additions = Blame::Additions::not_tried;
    for (int i = 0; i < limit_count; ++i) {
        const auto limit = static_cast<Limit>(i);
        if (limit == Limit::parts || (limit == Limit::clearances && !options.meter) ||
            (limit == Limit::felt && !options.felt))
            continue;
        Tried tried = try_limit(setup, options, limit, in_vain);
        if (tried.stopped) {
            for (int rest = i; rest < limit_count; ++rest)
                if (static_cast<Limit>(rest) != Limit::parts)
                    blame.unknown.push_back(static_cast<Limit>(rest));
            return blame;
        }
        if (tried.obstacle) blame.obstacles.push_back(std::move(*tried.obstacle));
        if (tried.gave_up) blame.unknown.push_back(limit);
    }
    if (in_vain) return blame;
    blame.additions = Blame::Additions::none_helps;
    // No part helps against a rule on what no part changes.
    if (!KeyRules(setup, Lists(setup)).hold_always()) return blame;
    Additions additions = smallest_addition(setup, options);
    blame.addition = std::move(additions.smallest);
    if (additions.gave_up) blame.additions = Blame::Additions::not_found_out;
    return blame;
}

std::vector<std::string> found_out(const Blame& blame) {
    std::vector<std::string> sentences;
    const bool any = !blame.obstacles.empty();
    const std::vector<Limit>& unknown = blame.unknown;
    constexpr std::size_t few = 3;
    std::string names;
    for (std::size_t i = 0; i < unknown.size(); ++i) {
        const char* before = i + 1 < unknown.size() ? ", " : " or ";
        names += (i == 0 ? "" : before) + std::string(name(unknown[i]));
    }
    const std::string start = "Not found out: ";
    if (unknown.empty() && !any)
        sentences.emplace_back(blame.gave_up
                                   ? "What is in the way was not found out."
                                   : "No single limit is to blame: it takes more than one.");
    else if (unknown.size() > few)
        sentences.push_back(start + (any ? "whether another limit is in the way, too."
                                         : "which limit is in the way."));
    else if (!unknown.empty())
        sentences.push_back(start + "whether " + names + " alone is in the way" +
                            (any ? ", too." : "."));
    if (blame.addition) return sentences;
    switch (blame.additions) {
        case Blame::Additions::none_helps:
            sentences.emplace_back(
                "No one or two parts alike would help; change a limit or the car.");
            break;
        case Blame::Additions::not_tried:
            sentences.emplace_back("Whether a part more would help was not tried.");
            break;
        case Blame::Additions::not_found_out:
            sentences.emplace_back(
                "Whether one or two parts alike would help was not found out: those that were "
                "tried "
                "come too close in too many builds.");
            break;
    }
    return sentences;
}

}  // namespace podwright
