#include "choose/limit.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "choose/cost.hpp"
#include "core/conflicts.hpp"
#include "core/limits.hpp"
#include "core/parameters.hpp"
#include "core/rules.hpp"

namespace podwright {

namespace {

constexpr double soft_weight = 1000;

std::int64_t whole(double value) { return std::llround(value * point); }

/// Millionths by which `value` lies beyond the limits.
std::int64_t beyond(const Ask::Bound& bound, double value) {
    if (bound.low && below(value, *bound.low)) return whole(*bound.low) - whole(value);
    if (bound.high && above(value, *bound.high)) return whole(value) - whole(*bound.high);
    return 0;
}

std::int64_t lost(double weight, std::int64_t millionths) {
    return millionths <= 0 ? 0 : std::llround(weight * static_cast<double>(millionths));
}

std::int64_t lost(const Ask::Target& target, double value) {
    return lost(target.weight, std::abs(whole(value) - whole(target.target)) - whole(target.band));
}

std::optional<Term> find_term(const std::string& reading) {
    for (int i = 0; i < term_count; ++i)
        if (reading == reading_name(static_cast<Term>(i))) return static_cast<Term>(i);
    return {};
}

}  // namespace

const char* name(Limit limit) {
    switch (limit) {
        case Limit::axial_float: return "float";
        case Limit::width: return "overall width";
        case Limit::shift: return "shift of the wheels";
        case Limit::ride: return "ride height";
        case Limit::roll: return "roll at rest";
        case Limit::rollout: return "rollout";
        case Limit::backlash: return "backlash";
        case Limit::contact_ratio: return "contact ratio";
        case Limit::mesh_tilt: return "backlash across tilted teeth";
        case Limit::slot: return "reach of the motor's slot";
        case Limit::worn: return "worn diameter of the tyres";
        case Limit::rules: return "event's rules";
        case Limit::parts: return "parts that go together";
        case Limit::felt: return "axle, bearings and warmth";
        case Limit::clearances: return "clearances";
    }
    return "";
}

const char* reading_name(Term term) {
    switch (term) {
        case Term::axial_float: return "float.nominal";
        case Term::width: return "width.overall";
        case Term::track: return "width.track";
        case Term::shift: return "width.shift";
        case Term::ride: return "ride.rear";
        case Term::roll: return "ride.roll";
        case Term::rake: return "ride.rake";
        case Term::rollout: return "gear.rollout";
        case Term::final_drive: return "gear.final_drive";
        case Term::backlash: return "mesh.backlash";
        case Term::left: return "width.left";
        case Term::right: return "width.right";
        case Term::ride_left: return "ride.left";
        case Term::ride_right: return "ride.right";
        case Term::axle_height: return "axle.height";
        case Term::axle_tilt: return "axle.tilt";
        case Term::spur_outside: return "gear.spur_outside";
        case Term::pinion_outside: return "gear.pinion_outside";
        case Term::standard_distance: return "mesh.standard_distance";
        case Term::speed: return "gear.speed";
    }
    return "";
}

std::optional<std::int64_t> Ask::points(double value) const {
    std::int64_t sum = 0;
    for (const Bound& bound : bounds) {
        const std::int64_t over = beyond(bound, value);
        if (over == 0) continue;
        if (!bound.soft) return {};
        sum += lost(soft_weight, over);
    }
    for (const Target& target : targets) sum += lost(target, value);
    return sum;
}

std::optional<std::int64_t> Ask::least_points(double low, double high) const {
    constexpr double slack = 1e-7;  // the ends are rounded sums themselves
    low -= slack;
    high += slack;
    std::int64_t sum = 0;
    for (const Bound& bound : bounds) {
        // Beyond is nothing inside, and grows outward: the least stands at the nearest point.
        double nearest = low;
        if (bound.low) nearest = std::max(nearest, std::min(high, *bound.low));
        if (bound.high && nearest > *bound.high) nearest = std::max(low, *bound.high);
        const std::int64_t over = beyond(bound, nearest);
        if (over == 0) continue;
        if (!bound.soft) return {};
        sum += lost(soft_weight, over);
    }
    for (const Target& target : targets) sum += lost(target, std::clamp(target.target, low, high));
    return sum;
}

std::vector<Ask> asks_of(const Setup& setup, Limits soft) {
    std::vector<Ask> asks(term_count);
    const auto at = [&](Term term) -> Ask& { return asks[static_cast<std::size_t>(term)]; };
    const auto bound = [&](Term term, Limit limit, std::optional<double> low,
                           std::optional<double> high) {
        if (low || high) at(term).bounds.push_back({limit, low, high, soft.has(limit)});
    };
    const FloatSetting& window = setup.axial_float;
    const Event& event = setup.event;
    bound(Term::axial_float, Limit::axial_float, std::max(0.0, window.low), window.high);
    bound(Term::width, Limit::width, {}, event.width_max);
    bound(Term::shift, Limit::shift, -event.shift_max, event.shift_max);
    bound(Term::ride, Limit::ride, event.ride_low, event.ride_high);
    bound(Term::roll, Limit::roll, -degrees(event.roll_max), degrees(event.roll_max));
    bound(Term::rollout, Limit::rollout, unless_zero(event.rollout_low),
          unless_zero(event.rollout_high));
    bound(Term::backlash, Limit::backlash, setup.gears.backlash_low, setup.gears.backlash_high);
    for (const EventRule& rule : setup.choosing.rules)
        if (const auto term = find_term(rule.of)) bound(*term, Limit::rules, rule.low, rule.high);
    for (const Goal& goal : setup.choosing.goals)
        if (const auto term = find_term(goal.reading))
            at(*term).targets.push_back({goal.target, goal.band, goal.weight});
    return asks;
}

std::int64_t clearance_points(const Setup& setup, double room) {
    return clearance_points(setup.choosing.goals, room);
}

std::int64_t clearance_points(const std::vector<Goal>& goals, double room) {
    std::int64_t sum = 0;
    for (const Goal& goal : goals)
        if (goal.reading == "clearance")
            sum += lost(goal.weight, whole(goal.target) - whole(goal.band) - whole(room));
    return sum;
}

bool has_clearance_goal(const Setup& setup) {
    const auto& goals = setup.choosing.goals;
    return std::any_of(goals.begin(), goals.end(),
                       [](const Goal& goal) { return goal.reading == "clearance"; });
}

Calculated calculate(const Setup& setup) {
    Calculated c;
    c.stack = stack_of(setup);
    c.stance = stance_of(setup, c.stack);
    c.drive = drive_of(setup, c.stack, c.stance);
    return c;
}

double value_of(Term term, const Calculated& c) {
    switch (term) {
        case Term::axial_float: return c.stack.axial_float;
        case Term::width: return c.stack.overall_width;
        case Term::track: return c.stack.track;
        case Term::shift: return c.stack.shift;
        case Term::ride: return c.stance.ride;
        case Term::roll: return degrees(c.stance.roll);
        case Term::rake: return degrees(c.stance.rake);
        case Term::rollout: return c.drive.rollout;
        case Term::final_drive: return c.drive.final_drive;
        case Term::backlash: return c.drive.mesh.backlash;
        case Term::left: return c.stack.left.outer;
        case Term::right: return c.stack.right.outer;
        case Term::ride_left: return c.stance.left.ride;
        case Term::ride_right: return c.stance.right.ride;
        case Term::axle_height: return c.stance.axle_height;
        case Term::axle_tilt: return degrees(c.stance.axle_tilt);
        case Term::spur_outside: return diameters(c.drive.spur).outside;
        case Term::pinion_outside: return diameters(c.drive.pinion).outside;
        case Term::standard_distance: return c.drive.mesh.standard_distance;
        case Term::speed: return c.drive.speed;
    }
    return 0;
}

Limits broken(const Setup& setup, const Calculated& c) {
    Limits limits;
    const auto check = [&](Limit limit, Status status) {
        if (status == Status::caution || status == Status::stop) limits.add(limit);
    };
    check(Limit::axial_float, float_status(setup, c.stack.axial_float));
    check(Limit::width, width_status(setup, c.stack.overall_width));
    check(Limit::shift, shift_status(setup, c.stack.shift));
    check(Limit::ride, ride_status(setup, c.stance.ride));
    check(Limit::roll, roll_status(setup, c.stance.roll));
    check(Limit::rollout, rollout_status(setup, c.drive.rollout));
    check(Limit::contact_ratio, contact_ratio_status(c.drive.mesh.contact_ratio));
    if (c.drive.slot.reached)
        check(Limit::backlash, backlash_status(setup, c.drive.mesh.backlash));
    else
        limits.add(Limit::slot);
    check(Limit::mesh_tilt, mesh_tilt_status(setup, c.drive));
    for (const Side side : both_sides) {
        const Tyre& tyre = setup.side(side).tyre;
        if (below(tyre.diameter, tyre.worn_diameter)) limits.add(Limit::worn);
    }
    if (!setup.choosing.rules.empty()) {
        const auto states = rule_states(setup, readings_of(setup, c.stack, c.stance, c.drive));
        if (std::any_of(states.begin(), states.end(),
                        [](const RuleState& state) { return state.broken(); }))
            limits.add(Limit::rules);
    }
    if (find_conflict(setup)) limits.add(Limit::parts);
    return limits;
}

std::int64_t goal_points(const Setup& setup, const Calculated& c) {
    std::int64_t sum = 0;
    for (const Goal& goal : setup.choosing.goals)
        if (const auto term = find_term(goal.reading))
            sum += lost({goal.target, goal.band, goal.weight}, value_of(*term, c));
    return sum;
}

}  // namespace podwright
