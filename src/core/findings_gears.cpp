#include <algorithm>
#include <cmath>
#include <optional>

#include "core/findings.hpp"
#include "core/limits.hpp"

// Findings about the gears: reach of the slot, backlash, contact, tilt, undercut, rollout.
namespace podwright {

namespace {

std::string teeth(int pinion, int spur) {
    return std::to_string(pinion) + "/" + std::to_string(spur);
}

bool reaches(const FindingInput& in, int pinion, int spur) {
    Gears g = in.setup.gears;
    g.pinion = pinion;
    g.spur = spur;
    const double distance = distance_for_backlash(pinion_of(g), spur_of(g), g.backlash);
    return place_on_slot(in.setup.motor, in.drive.axle_z, distance).reached;
}

struct Pair {
    int pinion, spur;
};

/// The pair nearest in ratio that the slot reaches. The centre distance depends on the sum of teeth
/// alone, so the sums are tried outward from the present one.
std::optional<Pair> nearest_reachable(const FindingInput& in) {
    const int pinion = in.setup.gears.pinion;
    const int spur = in.setup.gears.spur;
    const int sum = pinion + spur;
    for (int off = 1; off <= 80; ++off)
        for (int way : {-1, 1}) {
            const int total = sum + way * off;
            const int p = static_cast<int>(std::lround(static_cast<double>(total) * pinion / sum));
            const int s = total - p;
            if (p >= 8 && p <= 80 && s >= 20 && s <= 160 && reaches(in, p, s)) return Pair{p, s};
        }
    return {};
}

void find_unreachable(const FindingInput& in, std::vector<Finding>& out) {
    const Gears& g = in.setup.gears;
    const SlotPlace& slot = in.drive.slot;
    const double wanted = distance_for_backlash(in.drive.pinion, in.drive.spur, g.backlash);
    Finding finding;
    finding.level = Level::stop;
    finding.code = "mesh.unreachable";
    finding.parts = {"motor", "pinion", "spur"};
    finding.text = "The motor slot cannot reach the " + teeth(g.pinion, g.spur) +
                   " pair: it needs the axes " + length(wanted, in.shown) +
                   " apart, the nearest end of the slot gives " + length(slot.distance, in.shown) +
                   ".";
    if (const auto pair = nearest_reachable(in)) {
        const std::string now = fixed(in.drive.final_drive, 2);
        const std::string then = fixed(static_cast<double>(pair->spur) / pair->pinion, 2);
        finding.fix = "Fit a " + teeth(pair->pinion, pair->spur) + " pair, ratio " + then +
                      (now == then ? " as now." : " instead of " + now + ".");
        finding.changes = {{"gears.pinion", static_cast<double>(pair->pinion), {}},
                           {"gears.spur", static_cast<double>(pair->spur), {}}};
    } else {
        finding.fix = "No pair of this tooth size near it can be reached: use another motor mount.";
    }
    out.push_back(std::move(finding));
}

void find_backlash(const FindingInput& in, std::vector<Finding>& out) {
    const Gears& g = in.setup.gears;
    const double backlash = in.drive.mesh.backlash;
    if (backlash_status(in.setup, backlash) == Status::ok) return;
    const bool tight = backlash < g.backlash_low;
    Finding finding;
    finding.level = Level::caution;
    finding.code = tight ? "mesh.tight" : "mesh.loose";
    finding.parts = {"pinion", "spur"};
    finding.text =
        "The mesh is to be set to " + length(backlash, in.shown) + " of backlash, " +
        (tight ? "less than the " + length(g.backlash_low, in.shown) + " that keeps it free."
               : "more than the " + length(g.backlash_high, in.shown) + " that keeps it quiet.");
    const double most = find_parameter("gears.backlash")->high;
    const double middle = std::min((g.backlash_low + g.backlash_high) / 2, most);
    finding.fix = "Set the mesh to " + length(middle, in.shown) + ".";
    if (backlash_status(in.setup, middle) == Status::ok)
        finding.changes = {{"gears.backlash", middle, {}}};
    else
        finding.fix = "Widen the limits of the backlash: no mesh is set to more than " +
                      length(most, in.shown) + ".";
    out.push_back(std::move(finding));
}

void find_unset(const FindingInput& in, std::vector<Finding>& out) {
    if (!in.setup.motor.clamped_at) return;
    const double backlash = in.drive.unset.backlash;
    const Status status = unset_mesh_status(in.setup, in.drive.unset);
    if (status == Status::ok) return;
    Finding finding;
    finding.level = status == Status::stop ? Level::stop : Level::caution;
    finding.code = "mesh.unset";
    finding.parts = {"motor", "pinion", "spur"};
    finding.text = "The motor is still clamped at " + length(*in.setup.motor.clamped_at, in.shown) +
                   " on its slot: " +
                   (below(backlash, 0) ? "the teeth jam by " + length(-backlash, in.shown) + "."
                    : in.drive.unset.contact_ratio == 0
                        ? "the teeth do not meet."
                        : "the backlash is " + length(backlash, in.shown) +
                              (status == Status::stop ? ", and the teeth slip out of mesh." : "."));
    finding.fix = "Set the mesh again: move the motor to " +
                  length(in.drive.slot.position, in.shown) + " on its slot.";
    finding.changes = {{"motor.clamped_at", in.drive.slot.position, {}}};
    out.push_back(std::move(finding));
}

void find_contact(const FindingInput& in, std::vector<Finding>& out) {
    const double ratio = in.drive.mesh.contact_ratio;
    const Status status = contact_ratio_status(ratio);
    if (status == Status::ok) return;
    Finding finding;
    finding.level = status == Status::stop ? Level::stop : Level::caution;
    finding.code = "mesh.contact_ratio";
    finding.parts = {"pinion", "spur"};
    finding.text = "The contact ratio is " + fixed(ratio, 2) +
                   (status == Status::stop ? ": there are moments when no tooth drives."
                                           : ": the teeth hand over late and roughly.");
    finding.fix = "Set the gears closer, or fit gears with more teeth.";
    out.push_back(std::move(finding));
}

void find_tilt(const FindingInput& in, std::vector<Finding>& out) {
    const double left_at_one_edge = in.drive.mesh.backlash - in.drive.backlash_across / 2;
    if (mesh_tilt_status(in.setup, in.drive) != Status::caution ||
        backlash_status(in.setup, in.drive.mesh.backlash) != Status::ok)
        return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "mesh.tilted";
    finding.parts = {"left.holder", "right.holder", "spur"};
    finding.text = "Unlike holders tilt the axle " + fixed(degrees(in.drive.mesh_tilt), 2) +
                   " deg against the motor: at one edge of the teeth the backlash is " +
                   length(left_at_one_edge, in.shown) + ".";
    finding.fix = "Fit like holders on both sides, or set the mesh " +
                  length(in.setup.gears.backlash_low - left_at_one_edge, in.shown) + " looser.";
    out.push_back(std::move(finding));
}

void find_undercut(const FindingInput& in, std::vector<Finding>& out) {
    if (!is_undercut(in.drive.pinion)) return;
    Finding finding;
    finding.level = Level::note;
    finding.code = "gear.undercut";
    finding.parts = {"pinion"};
    finding.text =
        "A pinion of " + std::to_string(in.drive.pinion.teeth) + " teeth is undercut: below " +
        fixed(undercut_limit(in.drive.pinion.pressure_angle), 1) + " teeth the roots are thin.";
    finding.fix = "Prefer a pinion of more teeth with a larger spur.";
    out.push_back(std::move(finding));
}

void find_rollout(const FindingInput& in, std::vector<Finding>& out) {
    if (rollout_status(in.setup, in.drive.rollout) != Status::caution) return;
    const Event& event = in.setup.event;
    const bool low = event.rollout_low > 0 && below(in.drive.rollout, event.rollout_low);
    const double limit = low ? event.rollout_low : event.rollout_high;
    Finding finding;
    finding.level = Level::caution;
    finding.code = low ? "rollout.low" : "rollout.high";
    finding.parts = {"pinion", "spur"};
    finding.text = "The rollout of " + length(in.drive.rollout, in.shown) + " is " +
                   (low ? "below the " : "above the ") + length(limit, in.shown) +
                   (low ? " wanted at least." : " wanted at most.");
    const double per_tooth = in.drive.rollout / in.setup.gears.pinion;
    const double exact = limit / per_tooth;
    const int pinion = static_cast<int>(low ? std::ceil(exact - 1e-9) : std::floor(exact + 1e-9));
    const bool fits = pinion >= 8 && pinion <= 80 &&
                      rollout_status(in.setup, per_tooth * pinion) == Status::ok &&
                      reaches(in, pinion, in.setup.gears.spur);
    if (fits) {
        finding.fix = "Fit a " + std::to_string(pinion) + "-tooth pinion: rollout " +
                      length(per_tooth * pinion, in.shown) + ".";
        finding.changes = {{"gears.pinion", static_cast<double>(pinion), {}}};
    } else {
        finding.fix = low ? "Fit a smaller spur." : "Fit a larger spur.";
    }
    out.push_back(std::move(finding));
}

}  // namespace

void find_gears(const FindingInput& in, std::vector<Finding>& out) {
    if (in.drive.slot.reached) {
        find_backlash(in, out);
        find_contact(in, out);
        find_unset(in, out);
        find_tilt(in, out);
    } else {
        find_unreachable(in, out);
    }
    find_undercut(in, out);
    find_rollout(in, out);
}

}  // namespace podwright
