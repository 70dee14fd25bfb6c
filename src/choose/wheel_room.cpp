#include "choose/wheel_room.hpp"

#include <algorithm>
#include <cmath>

#include "choose/limit.hpp"
#include "core/conflicts.hpp"
#include "gap/fit.hpp"
#include "shape/assembly.hpp"

namespace podwright {

namespace {

constexpr double unknown = 1e300;

double sag(const Tyre& tyre) { return tyre.stiffness > 0 ? tyre.load / tyre.stiffness : 0; }

/// The most that the rolling radii of both sides differ by, fresh or worn.
double most_difference(const Setup& sample) {
    const double sags = sag(sample.left.tyre) - sag(sample.right.tyre);
    double most = 0;
    for (const double l : {sample.left.tyre.diameter, sample.left.tyre.worn_diameter})
        for (const double r : {sample.right.tyre.diameter, sample.right.tyre.worn_diameter})
            most = std::max(most, std::abs((l - r) / 2 - sags));
    return most;
}

/// By how much other builds can have more room, mm. The middle of a wheel stands over the ground by
/// its tyre's rolling radius, less what the envelope's roll takes at its distance from the
/// mid-plane, and the axle slopes by the difference of the radii over the track: a stack moves the
/// wheel and changes the track. Rake and roll of the pod come in with small products only.
double slack_of(const Setup& sample, const Stance& stance, const StackRange& range) {
    constexpr double within = 0.02;  // of a clearance over the envelope, and higher orders
    constexpr double far_out = 120;  // mm from the mid-plane to the far edge of a wheel, at most
    constexpr double tilted = 0.25;  // tangent of what holders and tyres can roll the pod
    const double wide = std::max(sample.left.tyre.width, sample.right.tyre.width);
    const double slope = most_difference(sample) / range.least_track;
    const double running = std::tan(sample.needs.roll);
    const double roll = std::abs(std::tan(stance.roll));
    const double rake = std::tan(stance.rake);
    const double height = std::max(stance.left.rolling, stance.right.rolling);
    const double moved = (range.wheel + range.axial_float) * 1.1 * running +
                         slope * (range.axial_float + wide * range.track / range.least_track);
    const double normal = height * (rake * rake + (roll + running) * (roll + running)) / 2;
    const double rolled = far_out * running * (running * (roll + tilted) + roll * roll);
    return within + moved + normal + rolled;
}

}  // namespace

double most_wheel_room(const Setup& sample, Meter& meter, const StackRange& range) {
    if (find_conflict(sample)) return unknown;
    const Calculated c = calculate(sample);
    const Assembly assembly = assemble(sample, c.stack, c.stance, c.drive);
    double least = unknown;
    for (const char* key : {"left.wheel", "right.wheel"}) {
        const Part* wheel = assembly.find(key);
        if (!wheel || has_own_mesh(*wheel)) continue;
        least = std::min(least, meter.clearance(sample, assembly, key, ground_key).margin());
    }
    return least + slack_of(sample, c.stance, range);
}

}  // namespace podwright
