#include "core/limits.hpp"

#include <cmath>

namespace podwright {

namespace {

Status within(double value, double low, double high, Status if_low, Status if_high) {
    if (below(value, low)) return if_low;
    if (above(value, high)) return if_high;
    return Status::ok;
}

}  // namespace

Status float_status(const Setup& setup, double axial_float) {
    if (below(axial_float, 0)) return Status::stop;
    const FloatSetting& f = setup.axial_float;
    return within(axial_float, f.low, f.high, Status::caution, Status::caution);
}

Status warm_float_status(const Setup& setup, double axial_float) {
    const FloatSetting& f = setup.axial_float;
    if (below(axial_float, 0)) return Status::stop;
    return within(axial_float, f.low - warm_setting, f.high + warm_setting, Status::caution,
                  Status::caution);
}

Status width_status(const Setup& setup, double overall_width) {
    return above(overall_width, setup.event.width_max) ? Status::stop : Status::ok;
}

Status shift_status(const Setup& setup, double shift) {
    return above(std::abs(shift), setup.event.shift_max) ? Status::caution : Status::ok;
}

Status ride_status(const Setup& setup, double ride) {
    return within(ride, setup.event.ride_low, setup.event.ride_high, Status::stop, Status::caution);
}

Status roll_status(const Setup& setup, double roll) {
    return above(std::abs(roll), setup.event.roll_max) ? Status::caution : Status::ok;
}

Status backlash_status(const Setup& setup, double backlash) {
    if (below(backlash, 0)) return Status::stop;
    const Gears& g = setup.gears;
    return within(backlash, g.backlash_low, g.backlash_high, Status::caution, Status::caution);
}

Status unset_mesh_status(const Setup& setup, const PairState& mesh) {
    if (mesh.contact_ratio < contact_ratio_least) return Status::stop;
    return backlash_status(setup, mesh.backlash);
}

Status warm_backlash_status(const Setup& setup, double backlash) {
    if (below(backlash, 0)) return Status::stop;
    const Gears& g = setup.gears;
    return within(backlash, g.backlash_low - warm_setting, g.backlash_high + warm_setting,
                  Status::caution, Status::caution);
}

Status mesh_tilt_status(const Setup& setup, const Drive& drive) {
    if (drive.backlash_across == 0) return Status::none;
    const double at_one_edge = drive.mesh.backlash - drive.backlash_across / 2;
    return below(at_one_edge, setup.gears.backlash_low) ? Status::caution : Status::ok;
}

Status contact_ratio_status(double ratio) {
    if (ratio < contact_ratio_least) return Status::stop;
    return ratio < contact_ratio_low ? Status::caution : Status::ok;
}

Status rollout_status(const Setup& setup, double rollout) {
    const double low = setup.event.rollout_low;
    const double high = setup.event.rollout_high;
    if (low == 0 && high == 0) return Status::none;
    if (low > 0 && below(rollout, low)) return Status::caution;
    if (high > 0 && above(rollout, high)) return Status::caution;
    return Status::ok;
}

Status safety_status(const Setup& setup, double safety) {
    if (safety < 1) return Status::stop;
    return below(safety, setup.cases.safety_low) ? Status::caution : Status::ok;
}

Status bending_status(const Setup& setup, double bending_speed, double top_speed) {
    return below(bending_speed, setup.cases.margin_low * top_speed) ? Status::caution : Status::ok;
}

Status life_status(const Setup& setup, double hours) {
    return below(hours, setup.cases.life_low) ? Status::caution : Status::ok;
}

Status static_status(const Setup& setup, double safety) {
    return below(safety, setup.cases.static_low) ? Status::caution : Status::ok;
}

Status misalignment_status(const Setup& setup, double slope) {
    return above(slope, setup.bearing.misalignment_max) ? Status::caution : Status::ok;
}

Status share_status(const Setup& setup, double share) {
    return above(share, setup.tolerances.share_max) ? Status::caution : Status::ok;
}

}  // namespace podwright
