#include "choose/plan.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "choose/cost.hpp"
#include "choose/felt.hpp"
#include "choose/room.hpp"
#include "core/conflicts.hpp"
#include "core/limits.hpp"

namespace podwright {

namespace {

constexpr std::int64_t impossible = std::int64_t{1} << 50;  // the mesh cannot be set, no such parts
constexpr std::int64_t too_close = std::int64_t{1} << 45;   // but for clearances it would do

/// Only holders and pinions are picked.
Setup only_holders_and_pinions(Setup setup) {
    PartsBox& box = setup.choosing.box;
    box.shims.clear();
    box.spurs.clear();
    box.blades.clear();
    box.wheels.clear();
    box.tyres.clear();
    box.axles.clear();
    return setup;
}

Limits all_limits() {
    Limits limits;
    for (int i = 0; i < limit_count; ++i) limits.add(static_cast<Limit>(i));
    return limits;
}

std::int64_t distance(const Ask& ask, double value) {
    double sum = 0;
    for (const Ask::Target& target : ask.targets)
        sum += target.weight * std::abs(value - target.target);
    return std::llround(sum * point);
}

void set_tyres(Setup& setup, const Wear& left, const Wear& right, int run) {
    setup.left.tyre.diameter = left.before(run);
    setup.right.tyre.diameter = right.before(run);
}

}  // namespace

DayTable::DayTable(const Setup& setup, const Wear& left, const Wear& right, int runs)
    : today_(only_holders_and_pinions(setup)), left_(left), right_(right), lists_(today_) {
    for (int run = 1; run <= runs; ++run) {
        Setup worn = today_;
        set_tyres(worn, left, right, run);
        if (find_conflict(worn)) return;  // down to the rim
        costs_.emplace_back(states());
        fill(run);
    }
}

const PlanCost& DayTable::cost(int run, std::size_t state) const {
    return costs_[static_cast<std::size_t>(run) - 1][state];
}

void DayTable::forbid(int run, std::size_t state) {
    costs_[static_cast<std::size_t>(run) - 1][state].points += too_close;
}

void DayTable::fill(int run) {
    const std::vector<Ask> asks = asks_of(today_, all_limits());
    const auto ask = [&](Term term) -> const Ask& { return asks[static_cast<std::size_t>(term)]; };
    Setup setup = today_;
    set_tyres(setup, left_, right_, run);
    const Stack stack = stack_of(setup);
    const double gear_u = stack.right.thrust + setup.gears.spur_offset;
    struct OfGear {
        PlanCost cost;
        double distance;
        bool possible;
    };
    const Calculated of_run = calculate(setup);
    PlanCost of_stack;  // the same for every choice: what holders and gears cannot mend
    for (const Term term :
         {Term::axial_float, Term::width, Term::shift, Term::track, Term::left, Term::right})
        of_stack.points += ask(term).points(value_of(term, of_run)).value_or(0);
    fixed_.push_back(of_stack.points);
    std::vector<OfGear> of_gear;
    for (std::size_t g = 0; g < gear_count(); ++g) {
        lists_.set_gears(setup, g);
        const Drive drive = drive_of(setup, stack, stance_of(setup, stack));
        const double wanted = distance_for_backlash(drive.pinion, drive.spur, setup.gears.backlash);
        const PairState mesh = pair_at(drive.pinion, drive.spur, wanted);
        OfGear one{{},
                   wanted,
                   contact_ratio_status(mesh.contact_ratio) == Status::ok && !find_conflict(setup)};
        const std::pair<Term, double> values[] = {{Term::rollout, drive.rollout},
                                                  {Term::final_drive, drive.final_drive},
                                                  {Term::backlash, mesh.backlash}};
        for (const auto& [term, value] : values) {
            one.cost.points += ask(term).points(value).value_or(0);
            one.cost.distance += distance(ask(term), value);
        }
        of_gear.push_back(one);
    }
    std::vector<PlanCost>& costs = costs_[static_cast<std::size_t>(run) - 1];
    for (std::size_t l = 0; l < lists_.holders[0].size(); ++l)
        for (std::size_t r = 0; r < right_count(); ++r) {
            lists_.set_holders(setup, l, r);
            const Stance stance = stance_of(setup, stack);
            PlanCost held = of_stack;
            const std::pair<Term, double> values[] = {{Term::ride, stance.ride},
                                                      {Term::roll, degrees(stance.roll)},
                                                      {Term::rake, degrees(stance.rake)},
                                                      {Term::ride_left, stance.left.ride},
                                                      {Term::ride_right, stance.right.ride}};
            for (const auto& [term, value] : values) {
                held.points += ask(term).points(value).value_or(0);
                held.distance += distance(ask(term), value);
            }
            if (!lists_.can_hold(l, r) || find_conflict(setup)) held.points += impossible;
            const double axle_z = stance.axle_z(-gear_u);
            for (std::size_t g = 0; g < gear_count(); ++g) {
                PlanCost& cost = costs[(l * right_count() + r) * gear_count() + g];
                cost = held + of_gear[g].cost;
                if (!of_gear[g].possible ||
                    !place_on_slot(setup.motor, axle_z, of_gear[g].distance).reached)
                    cost.points += impossible;
            }
        }
}

int DayTable::changes(std::size_t from, std::size_t to) const {
    const std::size_t gears = gear_count();
    const std::size_t block = right_count() * gears;
    return (from / block != to / block ? 1 : 0) +
           (from / gears % right_count() != to / gears % right_count() ? 1 : 0) +
           (from % gears != to % gears ? 1 : 0);
}

int DayTable::changes_from_today(std::size_t state) const {
    const std::size_t gears = gear_count();
    return lists_.holders[0][state / (right_count() * gears)].changes +
           lists_.holders[1][state / gears % right_count()].changes +
           lists_.gears[state % gears].changes;
}

Setup DayTable::setup(int run, std::size_t state) const {
    Build build;
    build.left_holder = state / (right_count() * gear_count());
    build.right_holder = state / gear_count() % right_count();
    build.gears = state % gear_count();
    build.shims = lists_.shims.pairs().front();
    Setup setup = lists_.setup(build);
    set_tyres(setup, left_, right_, run);
    return setup;
}

std::vector<std::size_t> DayTable::best() const {
    struct Reached {
        PlanCost cost;
        std::size_t from = 0;
    };
    const std::size_t n = states();
    const std::size_t gears = gear_count();
    const std::size_t strides[] = {right_count() * gears, gears, 1};
    const std::size_t counts[] = {lists_.holders[0].size(), right_count(), gears};
    const PlanCost one{0, 1, 0};
    std::vector<std::vector<std::size_t>> came(costs_.size(), std::vector<std::size_t>(n));
    std::vector<Reached> now(n);
    for (std::size_t s = 0; s < n; ++s)
        now[s] = {costs_[0][s] + PlanCost{0, changes_from_today(s), 0}, s};
    for (std::size_t run = 1; run < costs_.size(); ++run) {
        for (std::size_t s = 0; s < n; ++s) now[s].from = s;
        // A change of each kind costs one, whatever it is to: along each coordinate in turn it is
        // enough to know the cheapest place to come from.
        for (int axis = 0; axis < 3; ++axis)
            for (std::size_t s = 0; s < n; ++s) {
                if (s / strides[axis] % counts[axis] != 0) continue;
                Reached least = now[s];
                for (std::size_t i = 1; i < counts[axis]; ++i)
                    if (const Reached& other = now[s + i * strides[axis]]; other.cost < least.cost)
                        least = other;
                least.cost = least.cost + one;
                for (std::size_t i = 0; i < counts[axis]; ++i)
                    if (Reached& here = now[s + i * strides[axis]]; least.cost < here.cost)
                        here = least;
            }
        for (std::size_t s = 0; s < n; ++s) {
            came[run][s] = now[s].from;
            now[s].cost = now[s].cost + costs_[run][s];
        }
    }
    const auto last = std::min_element(
        now.begin(), now.end(), [](const auto& a, const auto& b) { return a.cost < b.cost; });
    std::vector<std::size_t> path(costs_.size());
    auto state = static_cast<std::size_t>(last - now.begin());
    for (std::size_t run = costs_.size(); run-- > 0;) {
        path[run] = state;
        state = came[run][state];
    }
    return path;
}

int broken_runs(const DayPlan& plan) {
    return static_cast<int>(std::count_if(plan.runs.begin(), plan.runs.end(),
                                          [](const RunPlan& run) { return !run.broken.empty(); }));
}

std::vector<std::string> caveats(const DayPlan& plan, LengthUnit shown) {
    std::vector<std::string> sentences;
    const auto growing = [&](const char* side, const Wear& wear) {
        if (wear.growing)
            sentences.push_back(
                "The " + std::string(side) +
                " tyre as measured does not shrink from run to run, which is no "
                "wear: " +
                length(wear.start, shown) +
                " is taken throughout. Measure again, or state its wear with wear_" + side +
                " under [day].");
    };
    growing("left", plan.left);
    growing("right", plan.right);
    const bool left = !plan.left.stated;
    const bool right = !plan.right.stated;
    const auto keys = [&](const std::string& start) {
        return (left ? start + "left" : "") + (left && right ? " and " : "") +
               (right ? start + "right" : "");
    };
    if (left || right)
        sentences.push_back("No wear " + std::string(left && right ? "" : "of the ") +
                            (left && right ? ""
                             : left        ? "left tyre "
                                           : "right tyre ") +
                            "is stated: give what a run takes off its diameter as " +
                            keys("wear_") +
                            " under [day], or its diameters as measured, the first before run 1 "
                            "and one after each run, as " +
                            keys("") + ".");
    if (plan.left.per_run == 0 && plan.right.per_run == 0 && plan.runs_asked > 1)
        sentences.emplace_back("Without wear every run is the same.");
    return sentences;
}

DayPlan plan_day(const Setup& setup, const ChooseOptions& options) {
    DayPlan plan;
    plan.left = wear_of(setup, Side::left);
    plan.right = wear_of(setup, Side::right);
    plan.runs_asked = setup.choosing.day.runs;
    DayTable table(setup, plan.left, plan.right, plan.runs_asked);
    if (table.runs() == 0) return plan;

    std::optional<Room> room;
    if (options.meter) room.emplace(*options.meter);
    std::vector<std::vector<std::pair<std::size_t, std::optional<double>>>> known(
        static_cast<std::size_t>(table.runs()));
    std::vector<std::size_t> path = table.best();
    // Clearances only of what the best plan would use; what fails costs from then on.
    for (bool settled = !room; !settled && !plan.stopped;) {
        settled = true;
        for (int run = 1; run <= table.runs(); ++run) {
            const std::size_t state = path[static_cast<std::size_t>(run) - 1];
            auto& here = known[static_cast<std::size_t>(run) - 1];
            const bool done = std::any_of(here.begin(), here.end(),
                                          [&](const auto& k) { return k.first == state; });
            if (done) continue;
            if (options.watch.go_on && !options.watch.go_on("planning")) {
                plan.stopped = true;
                break;
            }
            here.emplace_back(state, room->of(table.setup(run, state)));
            if (here.back().second) continue;
            table.forbid(run, state);
            settled = false;
        }
        if (!settled) path = table.best();
    }

    Setup before = setup;
    for (int run = 1; run <= table.runs(); ++run) {
        const std::size_t state = path[static_cast<std::size_t>(run) - 1];
        RunPlan one;
        one.run = run;
        one.setup = table.setup(run, state);
        one.setup.choosing = setup.choosing;
        Setup worn = before;
        set_tyres(worn, plan.left, plan.right, run);
        one.steps = steps_between(worn, one.setup, options.shown);
        one.changes = run == 1 ? table.changes_from_today(state)
                               : table.changes(path[static_cast<std::size_t>(run) - 2], state);
        one.points = static_cast<double>(table.cost(run, state).points % too_close) / point;
        one.broken = broken(one.setup, calculate(one.setup));
        if (!one.broken.has(Limit::rules) && breaks_rules(one.setup)) one.broken.add(Limit::rules);
        for (const auto& [measured, margin] : known[static_cast<std::size_t>(run) - 1])
            if (measured == state) {
                one.room = margin;
                if (!margin) one.broken.add(Limit::clearances);
            }
        plan.points += one.points;
        plan.fixed_points += static_cast<double>(table.fixed(run)) / point;
        plan.changes += one.changes;
        before = one.setup;
        plan.runs.push_back(std::move(one));
    }
    return plan;
}

}  // namespace podwright
