#include <cmath>
#include <optional>
#include <vector>

#include "core/findings.hpp"
#include "core/limits.hpp"
#include "core/traded.hpp"

// Findings about how the car stands: ride height, roll, worn tyres.
namespace podwright {

namespace {

void add_holder(const FindingInput& in, Side which, double raised, Finding& finding,
                std::string& text) {
    const AxleSide& side = in.setup.side(which);
    const double step = std::abs(raised);
    const bool up = raised > 0;
    if (step == side.holder_step && (step == 0 || up == (side.holder_way == Way::up))) return;
    const std::string name = which == Side::left ? "left" : "right";
    if (!text.empty()) text += ", ";
    text += name + " the " + length(step, in.shown) + " holder";
    if (step > 0) text += up ? " up" : " down";
    finding.changes.push_back({name + ".holder_step", step, {}});
    finding.changes.push_back({name + ".holder_way", up ? 0.0 : 1.0, {}});
}

/// The smallest change of both holders, in steps of half a millimetre, that brings the ride height
/// inside its limits.
std::optional<double> holder_change(const FindingInput& in) {
    const double left = holder_offset(in.setup.left);
    const double right = holder_offset(in.setup.right);
    for (int n = 1; n <= 12; ++n)
        for (double way : {-1.0, 1.0}) {
            const double change = way * n * holder_grid;
            if (std::abs(left + change) > holder_most || std::abs(right + change) > holder_most)
                continue;
            if (ride_status(in.setup, in.stance.ride - change) == Status::ok) return change;
        }
    return {};
}

void find_ride(const FindingInput& in, std::vector<Finding>& out) {
    const double ride = in.stance.ride;
    const Status status = ride_status(in.setup, ride);
    if (status == Status::ok) return;
    const bool low = status == Status::stop;
    const double limit = low ? in.setup.event.ride_low : in.setup.event.ride_high;
    Finding finding;
    finding.level = low ? Level::stop : Level::caution;
    finding.code = low ? "ride.low" : "ride.high";
    finding.parts = {"pod.floor", "left.holder", "right.holder"};
    finding.text = "The ride height of " + length(ride, in.shown) + " is " +
                   length(std::abs(ride - limit), in.shown) +
                   (low ? " below the " : " above the ") + length(limit, in.shown) +
                   (low ? " that must be kept." : " wanted at most.");
    if (const auto change = holder_change(in)) {
        std::string text;
        add_holder(in, Side::left, holder_offset(in.setup.left) + *change, finding, text);
        add_holder(in, Side::right, holder_offset(in.setup.right) + *change, finding, text);
        finding.fix = "Fit other holders: " + text + "; then set the mesh again.";
    } else {
        finding.fix = "No holder does it: fit tyres of " +
                      length(2 * std::abs(ride - limit), in.shown) +
                      (low ? " more diameter." : " less diameter.");
    }
    out.push_back(std::move(finding));
}

/// Whether the car stands level and high enough after the changes.
bool stands_well(const FindingInput& in, const std::vector<Change>& changes) {
    const Setup after = with_changes(in.setup, changes);
    const Stance stance = stance_of(after, stack_of(after));
    return roll_status(after, stance.roll) == Status::ok &&
           ride_status(after, stance.ride) != Status::stop;
}

/// One holder to what the other side has, or to the step that levels the pod best.
bool level_by_holder(const FindingInput& in, Finding& finding) {
    const double left = holder_offset(in.setup.left), right = holder_offset(in.setup.right);
    const auto fit = [&](Side side, double raised, const char* how) {
        if (std::abs(raised) > holder_most) return false;
        Finding tried;
        std::string text;
        add_holder(in, side, raised, tried, text);
        if (tried.changes.empty() || !stands_well(in, tried.changes)) return false;
        finding.changes = std::move(tried.changes);
        finding.fix = how + text + "; then set the mesh again.";
        return true;
    };
    const bool left_is_low = in.stance.left.ride < in.stance.right.ride;
    // What raises the low side is tried first.
    const Side low = left_is_low ? Side::left : Side::right;
    const Side high = left_is_low ? Side::right : Side::left;
    if (fit(low, left_is_low ? right : left, "Fit like holders: ") ||
        fit(high, left_is_low ? left : right, "Fit like holders: "))
        return true;
    const double of_low = left_is_low ? left : right, of_high = left_is_low ? right : left;
    for (int n = 1; n <= 12; ++n)
        if (fit(low, of_low - n * holder_grid, "Fit another holder: ") ||
            fit(high, of_high + n * holder_grid, "Fit another holder: "))
            return true;
    return false;
}

void level_by_tyres(const FindingInput& in, Finding& finding) {
    const Tyre &left = in.setup.left.tyre, &right = in.setup.right.tyre;
    const double smaller = std::min(left.diameter, right.diameter);
    const std::vector<Change> changes = {{"left.tyre_diameter", smaller, {}},
                                         {"right.tyre_diameter", smaller, {}}};
    const bool worn = below(smaller, left.worn_diameter) || below(smaller, right.worn_diameter);
    if (left.diameter != right.diameter && !worn && stands_well(in, changes)) {
        finding.fix = "True both tyres to " + length(smaller, in.shown) +
                      " (mind the dust: mask and extraction).";
        finding.changes = changes;
        return;
    }
    finding.fix = "No holder of one side levels it: fit a pair of like tyres.";
}

void find_roll(const FindingInput& in, std::vector<Finding>& out) {
    if (roll_status(in.setup, in.stance.roll) == Status::ok) return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "ride.uneven";
    finding.parts = {"left.holder", "right.holder"};
    finding.text = "The pod leans " + fixed(std::abs(degrees(in.stance.roll)), 2) +
                   " deg: " + length(in.stance.left.ride, in.shown) + " under the left seat, " +
                   length(in.stance.right.ride, in.shown) + " under the right.";
    if (!level_by_holder(in, finding)) level_by_tyres(in, finding);
    out.push_back(std::move(finding));
}

void find_worn(const FindingInput& in, Side which, std::vector<Finding>& out) {
    const Tyre& tyre = in.setup.side(which).tyre;
    if (!below(tyre.diameter, tyre.worn_diameter)) return;
    const std::string name = which == Side::left ? "left" : "right";
    Finding finding;
    finding.level = Level::caution;
    finding.code = "tyre.worn";
    finding.parts = {name + ".tyre"};
    finding.text = "The " + name + " tyre is down to " + length(tyre.diameter, in.shown) +
                   ", below the " + length(tyre.worn_diameter, in.shown) + " at which it is done.";
    finding.fix = "Fit a fresh pair of tyres and measure ride height and rollout again.";
    out.push_back(std::move(finding));
}

}  // namespace

void find_stance(const FindingInput& in, std::vector<Finding>& out) {
    find_ride(in, out);
    find_roll(in, out);
    for (Side side : both_sides) find_worn(in, side, out);
}

}  // namespace podwright
