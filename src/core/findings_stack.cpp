#include <cmath>

#include "core/feel.hpp"
#include "core/findings.hpp"
#include "core/limits.hpp"
#include "core/shim_search.hpp"
#include "core/traded.hpp"

// Findings about the axial stack: float, overall width, shift.
namespace podwright {

namespace {

void add_float_fix(const FindingInput& in, Finding& finding) {
    const FloatSetting& f = in.setup.axial_float;
    if (f.set_by == FloatBy::blade) {
        const double blade = best_blade(f.low, f.high);
        if (blade == 0) {
            finding.fix = "No usual blade fits a window of " + length(f.low, in.shown) + " to " +
                          length(f.high, in.shown) + ": widen the window.";
            return;
        }
        finding.fix = "Loosen the left hub and clamp it again against the " +
                      length(blade, in.shown) + " blade.";
        finding.changes = {{"float.blade", blade, {}}};
        return;
    }
    if (const auto shims = find_shims(in.setup, in.stack, in.shown)) {
        finding.fix = "Change the shims, " + shims->text + ".";
        finding.changes = shims->changes;
        return;
    }
    const double out = (f.low + f.high) / 2 - in.stack.axial_float;
    finding.fix = (out > 0 ? "Take out " : "Add ") + length(std::abs(out), in.shown) +
                  " of shims; no change of one usual shim a side does it.";
}

void find_float(const FindingInput& in, std::vector<Finding>& out) {
    const double F = in.stack.axial_float;
    const FloatSetting& f = in.setup.axial_float;
    const Status status = float_status(in.setup, F);
    if (status == Status::ok) return;
    Finding finding;
    finding.parts = {"left.hub", "carrier"};
    const std::string now = length(F, in.shown);
    if (status == Status::stop) {
        finding.level = Level::stop;
        finding.code = "float.bind";
        finding.text = "The axle binds: the stack is " + length(-F, in.shown) +
                       " longer than the " + length(in.stack.thrust_faces, in.shown) +
                       " between the thrust faces.";
        if (in.feel)
            finding.text += " Put together like that, each bearing is pressed with " +
                            fixed(in.feel->bearings.preload.force, 0) + " N.";
    } else if (F < f.low) {
        finding.level = Level::caution;
        finding.code = "float.tight";
        finding.text = "The float of " + now + " is less than " + length(f.low, in.shown) +
                       ": dirt or warmth can make the axle bind.";
    } else {
        finding.level = Level::caution;
        finding.code = "float.loose";
        finding.text = "The float of " + now + " is more than " + length(f.high, in.shown) +
                       ": the axle rattles from side to side.";
    }
    add_float_fix(in, finding);
    out.push_back(std::move(finding));
}

/// Wheels of more inset where shims cannot do it; `left`, `right` = how much more each needs.
void fix_by_inset(const FindingInput& in, double left, double right, Finding& finding) {
    const double most = find_parameter("left.inset")->high;
    if (in.setup.left.inset + left > most || in.setup.right.inset + right > most) {
        finding.fix = "No shims and no wheels do it: use other hubs.";
        return;
    }
    std::string text;
    const auto add = [&](const char* side, const AxleSide& now, double more) {
        if (more == 0) return;
        if (!text.empty()) text += ", ";
        text += std::string(side) + " " + length(now.inset + more, in.shown) + " instead of " +
                length(now.inset, in.shown);
        finding.changes.push_back({std::string(side) + ".inset", now.inset + more, {}});
    };
    add("left", in.setup.left, left);
    add("right", in.setup.right, right);
    finding.fix = "Fit wheels of another inset: " + text + ".";
}

/// Wheels are offered in quarter millimetres (common practice, no source): the least that does it.
double in_quarters(double mm) { return std::ceil((mm - length_tolerance) * 4) / 4; }

void find_width(const FindingInput& in, std::vector<Finding>& out) {
    const double width = in.stack.overall_width;
    const double most = in.setup.event.width_max;
    if (width_status(in.setup, width) == Status::ok) return;
    Finding finding;
    finding.level = Level::stop;
    finding.code = "width.over";
    finding.parts = {"left.tyre", "right.tyre"};
    finding.text = "The car is " + length(width, in.shown) + " wide, " +
                   length(width - most, in.shown) + " more than the " + length(most, in.shown) +
                   " allowed.";
    if (const auto shims = find_shims(in.setup, in.stack, in.shown)) {
        finding.fix = "Change the shims, " + shims->text + ".";
        finding.changes = shims->changes;
    } else {
        const double excess = width - most;
        const double left = in_quarters(std::max(0.0, excess / 2 + in.stack.shift));
        const double right = in_quarters(std::max(0.0, excess - left));
        fix_by_inset(in, left, right, finding);
    }
    out.push_back(std::move(finding));
}

void find_shift(const FindingInput& in, std::vector<Finding>& out) {
    const double shift = in.stack.shift;
    if (shift_status(in.setup, shift) == Status::ok) return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "width.uneven";
    finding.parts = {"left.tyre", "right.tyre"};
    const bool to_left = shift > 0;
    finding.text = "The wheels sit " + length(std::abs(shift), in.shown) + " too far to the " +
                   (to_left ? "left" : "right") + ": " + length(in.stack.left.outer, in.shown) +
                   " left, " + length(in.stack.right.outer, in.shown) + " right.";
    if (const auto shims = find_shims(in.setup, in.stack, in.shown)) {
        finding.fix = "Change the shims, " + shims->text + ".";
        finding.changes = shims->changes;
    } else {
        double more = std::round(8 * std::abs(shift)) / 4;  // the nearest quarter that levels it
        if (above(std::abs(std::abs(shift) - more / 2), in.setup.event.shift_max))
            more = 2 * std::abs(shift);
        fix_by_inset(in, to_left ? more : 0, to_left ? 0 : more, finding);
    }
    out.push_back(std::move(finding));
}

}  // namespace

double best_blade(double low, double high) {
    const double middle = (low + high) / 2;
    double best = 0;
    for (double blade : usual_blades)
        if (!below(blade, low) && !above(blade, high) &&
            (best == 0 || std::abs(blade - middle) < std::abs(best - middle)))
            best = blade;
    return best;
}

void find_float_and_width(const FindingInput& in, std::vector<Finding>& out) {
    find_float(in, out);
    find_width(in, out);
    find_shift(in, out);
}

}  // namespace podwright
