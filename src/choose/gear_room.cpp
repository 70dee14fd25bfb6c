#include "choose/gear_room.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <vector>

#include "choose/limit.hpp"
#include "choose/shim_table.hpp"
#include "core/conflicts.hpp"
#include "gap/fit.hpp"
#include "shape/assembly.hpp"

namespace podwright {

namespace {

constexpr double measured_within = 0.01;  // mm, of a clearance over the envelope
constexpr double unknown = 1e300;

/// From the gears to where the motor is as wide as its can, at most, mm: in the plane square to the
/// motor there the leaning axle is farther from it than at the gears by no more than this times the
/// lean.
double way_to_can(const Setup& today) {
    std::vector<double> shims = today.right.shims;
    for (const ShimKind& kind : today.choosing.box.shims)
        shims.insert(shims.end(), static_cast<std::size_t>(kind.count), kind.thickness);
    std::sort(shims.begin(), shims.end(), std::greater<>());
    if (shims.size() > most_shims) shims.resize(most_shims);
    const double bare =
        today.right.seat + today.right.standout + today.gears.spur_offset - today.pod.plate_inner;
    const double all = bare + std::accumulate(shims.begin(), shims.end(), 0.0);
    constexpr double more = 6;  // half the float, the rounded edge of the can
    return std::max(std::abs(bare), std::abs(all)) + more;
}

}  // namespace

double worn_radius(const Tyre& tyre) {
    const double sag = tyre.stiffness > 0 ? tyre.load / tyre.stiffness : 0;
    return std::min(tyre.diameter, tyre.worn_diameter) / 2 - sag;
}

GearRoom::GearRoom(const Setup& today, Meter* meter) : way_to_can_(way_to_can(today)) {
    if (!meter) return;
    // Level in the pod, and otherwise as today.
    Setup sample = today;
    sample.right.holder_step = sample.left.holder_step;
    sample.right.holder_way = sample.left.holder_way;
    sample.motor.clamped_at.reset();
    if (find_conflict(sample)) return;
    const Calculated c = calculate(sample);
    const Assembly assembly = assemble(sample, c.stack, c.stance, c.drive);
    const Part* axle = assembly.find("axle");
    const Part* motor = assembly.find("motor");
    const Part* spur = assembly.find("spur");
    if (!axle || !motor || !spur) return;
    const auto margin = [&](const Part& a, const std::string& b) {
        return meter->clearance(sample, assembly, a.key, b).margin();
    };
    if (!has_own_mesh(*axle) && !has_own_mesh(*motor)) {
        double waist = std::min(today.axle.waist, today.axle.diameter);
        const double of_sample = waist;
        for (const AxleKind& kind : today.choosing.box.axles) waist = std::min(waist, kind.waist);
        motor_ =
            today.motor.can_diameter / 2 + waist / 2 + need_between(today.needs, *axle, *motor);
        const double bound = this->motor(c.drive.mesh.distance, 0) - (of_sample - waist) / 2;
        if (margin(*axle, motor->key) > bound) motor_.reset();
    }
    if (!has_own_mesh(*spur)) {
        ground_ = need_to_ground(today.needs, *spur);
        const double radius =
            std::max(worn_radius(sample.left.tyre), worn_radius(sample.right.tyre));
        if (margin(*spur, ground_key) > ground(diameters(c.drive.spur).outside, radius))
            ground_.reset();
    }
}

double GearRoom::motor(double centre_distance, double lean) const {
    return motor_ ? centre_distance - *motor_ + measured_within + way_to_can_ * lean : unknown;
}

double GearRoom::ground(double spur, double worn_radius) const {
    return ground_ ? worn_radius - spur / 2 - *ground_ + measured_within : unknown;
}

}  // namespace podwright
