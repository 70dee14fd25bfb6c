#include <algorithm>

#include "shape/builders.hpp"

namespace podwright {

namespace {

constexpr double apart = 5.0;        // between neighbours at full spread, mm
constexpr double shims_apart = 2.5;  // the same about something thin
constexpr double thin = 2.0;

/// Moves each part outboard until it is clear of the one before; `from` is the first free u.
/// Returns where the last one ends.
double spread_out(Build& build, Side side, const std::vector<Extent>& order, double from) {
    const glm::dvec3 outboard = build.out.axle_direction * (side == Side::left ? 1.0 : -1.0);
    const double slope = std::max(0.5, std::abs(outboard.y));
    for (const Extent& e : order) {
        const double by = std::max(0.0, from - e.low);
        build.out.parts[e.part].explode = outboard * (by / slope);
        from = e.high + by + (e.high - e.low < thin ? shims_apart : apart);
    }
    return from;
}

}  // namespace

void spread_parts(Build& build) {
    // The motor leaves its plate inboard; the left plate gives it room.
    const Extent& motor = build.motor.front();
    const double right_plate = build.right.front().low + apart;
    const double motor_by = std::max(0.0, motor.high + apart - right_plate);
    build.out.parts[motor.part].explode = {0, motor_by, 0};
    spread_out(build, Side::left, build.left, motor_by - motor.low + apart);
    spread_out(build, Side::right, build.right, right_plate);

    const Extent& plate = build.right.front();
    const double plate_end = plate.high + apart;
    for (std::size_t i = 1; i < build.motor.size(); ++i) {
        const Extent& e = build.motor[i];
        const double by = std::max(0.0, plate_end + 2 * apart - e.low);
        build.out.parts[e.part].explode = {0, -by, 0};
    }
    for (Part& part : build.out.parts) {
        if (part.key == "pod.floor") part.explode = {0, 0, -25};
        if (part.key == "pod.posts") part.explode = {0, 0, 25};
    }
}

}  // namespace podwright
