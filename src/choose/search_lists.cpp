#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "choose/search.hpp"
#include "core/conflicts.hpp"
#include "core/limits.hpp"
#include "core/parameters.hpp"

// What the search lists ahead: what one list alone forbids, pairs of wheels, holders and gears.
namespace podwright {

namespace {

double bore_of(const Setup& today, const HolderChoice& holder) {
    return today.pod.bore_height + (holder.way == Way::up ? holder.step : -holder.step);
}

double rolling_radius(const Tyre& tyre) {
    return tyre.diameter / 2 - (tyre.stiffness > 0 ? tyre.load / tyre.stiffness : 0);
}

}  // namespace

/// What can be forbidden of one list alone is forbidden once.
void Search::judge_singles(const KeyRules& rules) {
    const auto fits = [&](Chosen list, std::size_t at) {
        const Setup setup = with_choice(today_, lists_, list, at);
        return !find_conflict(setup) && (soft_.has(Limit::rules) || rules.hold(list, setup));
    };
    for (const Side side : both_sides) {
        const bool is_left = side == Side::left;
        const std::size_t s = is_left ? 0 : 1;
        for (std::size_t i = 0; i < lists_.rolling[s].size(); ++i) {
            const Tyre& size = lists_.rolling[s][i].size;
            const bool worn = below(size.diameter, size.worn_diameter);
            good_rolling_[s].push_back(
                (!worn || soft_.has(Limit::worn)) &&
                fits(is_left ? Chosen::left_rolling : Chosen::right_rolling, i));
        }
        for (std::size_t i = 0; i < lists_.holders[s].size(); ++i) {
            good_holder_[s].push_back(
                fits(is_left ? Chosen::left_holder : Chosen::right_holder, i));
            levels_.push_back(bore_of(today_, lists_.holders[s][i]));
        }
    }
    for (std::size_t i = 0; i < lists_.floats.size(); ++i)
        good_setting_.push_back(
            soft_.has(Limit::rules) ||
            rules.hold(Chosen::setting, with_choice(today_, lists_, Chosen::setting, i)));
    judge_gears(rules);
}

void Search::judge_gears(const KeyRules& rules) {
    std::sort(levels_.begin(), levels_.end());
    levels_.erase(std::unique(levels_.begin(), levels_.end()), levels_.end());
    reach_.assign(levels_.size(), std::vector<bool>(lists_.gears.size(), false));
    for (std::size_t g = 0; g < lists_.gears.size(); ++g) {
        gearing_.emplace_back();
        Setup setup = today_;
        lists_.set_gears(setup, g);
        if (find_conflict(setup) || !(soft_.has(Limit::rules) || rules.hold(Chosen::gears, setup)))
            continue;
        const Gears& size = setup.gears;
        const Gear pinion = pinion_of(size), spur = spur_of(size);
        const double distance = distance_for_backlash(pinion, spur, size.backlash);
        const PairState mesh = pair_at(pinion, spur, distance);
        const bool anywhere = soft_.has(Limit::slot);
        const bool contact = contact_ratio_status(mesh.contact_ratio) == Status::ok;
        const auto backlash = ask(Term::backlash).points(mesh.backlash);
        const auto drive =
            ask(Term::final_drive).points(static_cast<double>(size.spur) / size.pinion);
        const auto outsides = points_of({{Term::spur_outside, diameters(spur).outside},
                                         {Term::pinion_outside, diameters(pinion).outside},
                                         {Term::standard_distance, mesh.standard_distance}});
        if (!drive || !outsides ||
            (!anywhere && (!backlash || !(contact || soft_.has(Limit::contact_ratio)))))
            continue;
        const bool clear = !rooms_.gears || rooms_.gears->motor(distance, 0) >= 0;
        gearing_.back() =
            Gearing{distance, diameters(spur).outside, *drive + *outsides + backlash.value_or(0)};
        for (std::size_t level = 0; level < levels_.size(); ++level)
            reach_[level][g] =
                clear &&
                (anywhere || place_on_slot(today_.motor, levels_[level], distance).reached);
    }
}

double Search::most_lean() const {
    double radii = 0;  // by which left and right can differ
    for (const Rolling& l : lists_.rolling[0])
        for (const Rolling& r : lists_.rolling[1])
            radii = std::max(radii, std::abs(rolling_radius(l.size) - rolling_radius(r.size)));
    const double seats = today_.left.seat + today_.right.seat;
    const auto roll = [&](double difference) { return degrees(std::atan(difference / seats)); };
    double most = 0;
    for (const HolderChoice& l : lists_.holders[0])
        for (const HolderChoice& r : lists_.holders[1]) {
            const double tilt = bore_of(today_, l) - bore_of(today_, r);
            // The wheels stand farther apart than the seats: radii lean the axle by less.
            if (ask(Term::roll).least_points(roll(-radii - tilt), roll(radii - tilt)))
                most = std::max(most, std::abs(tilt) / seats);
        }
    return most;
}

void Search::list_wheels() {
    std::map<std::tuple<double, double, double, double>, std::size_t> kin;
    for (std::size_t l = 0; l < lists_.rolling[0].size(); ++l)
        for (std::size_t r = 0; r < lists_.rolling[1].size(); ++r) {
            if (!good_rolling_[0][l] || !good_rolling_[1][r] || !lists_.can_roll(l, r)) continue;
            const Rolling& left = lists_.rolling[0][l];
            const Rolling& right = lists_.rolling[1][r];
            const auto [known, fresh] = kin.try_emplace(
                {left.inset, right.inset, left.size.width, right.size.width}, kin_.size());
            if (fresh) {
                kin_.emplace_back();
                kin_.back().left = left;
                kin_.back().right = right;
                fill(kin_.back());
            }
            if (kin_[known->second].stacks.empty()) continue;
            wheels_.push_back({l, r, known->second, 0, 0, lists_.rolling_cost(l, r)});
        }
    std::map<std::tuple<double, double, std::size_t>, std::size_t> grips;
    std::map<std::pair<double, double>, std::size_t> gears;
    for (Wheels& wheels : wheels_) {
        const Tyre& left = lists_.rolling[0][wheels.left].size;
        const Tyre& right = lists_.rolling[1][wheels.right].size;
        const double a = rolling_radius(left);
        const double b = rolling_radius(right);
        // With like tyres the track does not matter.
        const auto [grip, fresh_grip] =
            grips.try_emplace({a, b, a == b ? 0 : wheels.kin}, grips_.size());
        if (fresh_grip) grip_of(wheels);
        wheels.grip = grip->second;
        const double both = left.diameter + right.diameter;
        const double worn = std::max(worn_radius(left), worn_radius(right));
        const auto [order, fresh_order] = gears.try_emplace({both, worn}, geared_.size());
        if (fresh_order) gears_of(both, worn);
        wheels.gears = order->second;
    }
}

/// The holders that suit these wheels, by what they cost at least over all stacks.
std::size_t Search::grip_of(const Wheels& wheels) {
    const double left = rolling_radius(lists_.rolling[0][wheels.left].size);
    const double right = rolling_radius(lists_.rolling[1][wheels.right].size);
    const Kin& kin = kin_[wheels.kin];
    const double seats = today_.left.seat + today_.right.seat;
    const double half = (today_.left.seat - today_.right.seat) / 2;
    // The mean height over the seats is right + slope (half + right wheel), by the equations of the
    // stance; extremes of a product stand at the ends of both factors.
    double mean_low = 1e300, mean_high = -1e300, lean_low = 1e300, lean_high = -1e300;
    for (const double track : {kin.track_low, kin.track_high})
        for (const double wheel : {kin.right_low, kin.right_high}) {
            const double slope = (left - right) / track;
            mean_low = std::min(mean_low, right + slope * (half + wheel));
            mean_high = std::max(mean_high, right + slope * (half + wheel));
            lean_low = std::min(lean_low, slope * seats);
            lean_high = std::max(lean_high, slope * seats);
        }
    const auto roll = [&](double difference) { return degrees(std::atan(difference / seats)); };
    const auto rake = [&](double ride) {
        return degrees(std::atan((ride - today_.car.front_ride) / today_.car.wheelbase));
    };
    std::vector<Held>& grip = grips_.emplace_back();
    for (std::size_t l = 0; l < lists_.holders[0].size(); ++l)
        for (std::size_t r = 0; r < lists_.holders[1].size(); ++r) {
            if (!good_holder_[0][l] || !good_holder_[1][r] || !lists_.can_hold(l, r)) continue;
            const double bore_left = bore_of(today_, lists_.holders[0][l]);
            const double bore_right = bore_of(today_, lists_.holders[1][r]);
            const double bore = (bore_left + bore_right) / 2;
            const double tilt = bore_left - bore_right;
            const auto lean =
                ask(Term::roll).least_points(roll(lean_low - tilt), roll(lean_high - tilt));
            if (!lean) continue;
            const auto ride = ask(Term::ride).least_points(mean_low - bore, mean_high - bore);
            if (!ride) continue;
            const auto pitch =
                ask(Term::rake).least_points(rake(mean_low - bore), rake(mean_high - bore));
            if (!pitch) continue;
            const double leaning = std::abs(tilt) / seats;
            Held held{lists_.holder_cost(l, r),
                      l,
                      r,
                      -1,
                      bore,
                      leaning,
                      rooms_.floor ? -rooms_.floor->credit(leaning) : 0};
            held.cost.points = *lean + *ride + *pitch + held.floor;
            if (bore_left == bore_right)
                held.level = static_cast<int>(
                    std::lower_bound(levels_.begin(), levels_.end(), bore_left) - levels_.begin());
            grip.push_back(held);
        }
    std::sort(grip.begin(), grip.end(),
              [](const Held& a, const Held& b) { return a.cost < b.cost; });
    return grips_.size() - 1;
}

std::size_t Search::gears_of(double diameters, double worn) {
    std::vector<Geared>& geared = geared_.emplace_back();
    const Drive today = calculate(today_).drive;
    const double speed_by_rollout = today.speed / today.rollout;  // the same for every build
    for (std::size_t g = 0; g < lists_.gears.size(); ++g) {
        if (!gearing_[g] || (rooms_.gears && rooms_.gears->ground(gearing_[g]->spur, worn) < 0))
            continue;
        const GearChoice& choice = lists_.gears[g];
        const double rollout = pi * (diameters / 2) * choice.pinion / choice.spur;
        const auto points =
            points_of({{Term::rollout, rollout}, {Term::speed, rollout * speed_by_rollout}});
        if (!points) continue;
        Geared one{lists_.gear_cost(g), g};
        one.cost.points = *points + gearing_[g]->points;
        geared.push_back(one);
    }
    std::sort(geared.begin(), geared.end(),
              [](const Geared& a, const Geared& b) { return a.cost < b.cost; });
    return geared_.size() - 1;
}

}  // namespace podwright
