#include <algorithm>
#include <cmath>

#include "core/feel.hpp"
#include "core/findings.hpp"
#include "core/limits.hpp"
#include "core/shim_search.hpp"
#include "core/units.hpp"

// Findings about what the axle feels: shaft, bearings, warmth, tolerances.
namespace podwright {

namespace {

constexpr double minutes_per_degree = 60;

std::string arc_minutes(double angle) {
    return fixed(degrees(angle) * minutes_per_degree, 1) + " arc minutes";
}

double material_index(Material material) { return static_cast<double>(material); }

/// Stiffer axles of the same diameter, the least change first.
std::vector<std::vector<Change>> stiffer_axles(const Axle& axle) {
    const Change full{"axle.waist", axle.diameter, {}};
    const Change half_bore{"axle.bore", axle.bore / 2, {}}, solid{"axle.bore", 0, {}};
    const Change steel{"axle.material", material_index(Material::steel_4140), {}};
    std::vector<std::vector<Change>> all = {{full}, {full, half_bore}, {full, solid}};
    // A material's change helps only where the axle takes its values from the material.
    if (!axle.elastic_modulus && !axle.strength) {
        all.push_back({steel});
        all.push_back({steel, full});
        all.push_back({steel, full, half_bore});
        all.push_back({steel, full, solid});
    }
    return all;
}

std::string in_words(const std::vector<Change>& changes, const FindingInput& in) {
    std::string text;
    for (const Change& c : changes) {
        if (!text.empty()) text += ", ";
        if (c.key == "axle.waist")
            text += "no waist";
        else if (c.key == "axle.bore")
            text += c.number == 0 ? "no bore" : "a bore of " + length(c.number, in.shown);
        else
            text += "steel 4140";
    }
    return text;
}

/// Adds the first stiffer axle with which `holds` is true of the study.
template <class Holds>
void fix_by_axle(const FindingInput& in, Finding& finding, Holds holds) {
    for (const auto& changes : stiffer_axles(in.setup.axle)) {
        const Setup changed = with_changes(in.setup, changes);
        // The axle's own mass hardly counts beside the wheels': the parts stay as they were.
        const ShaftStudy study =
            study_shaft(changed, in.stack, in.stance, in.drive, in.feel->turning);
        if (!holds(study)) continue;
        finding.fix = "Fit a stiffer axle: " + in_words(changes, in) + ".";
        finding.changes = changes;
        return;
    }
    finding.fix = "Fit a thicker axle and bearings to match; no axle of " +
                  length(in.setup.axle.diameter, in.shown) + " does it.";
}

void find_overstress(const FindingInput& in, std::vector<Finding>& out) {
    const ShaftStudy& s = in.feel->shaft;
    const Status status = safety_status(in.setup, s.worst.safety);
    if (status == Status::ok) return;
    Finding finding;
    finding.level = status == Status::stop ? Level::stop : Level::caution;
    finding.code = "shaft.overstress";
    finding.parts = {"axle"};
    finding.text = "The axle is stressed with " + fixed(s.worst.equivalent, 0) + " N/mm² " +
                   std::string(title(s.worst_case)) + ", at the " + s.worst_place + ": safety " +
                   fixed(s.worst.safety, 2) + ", " + fixed(in.setup.cases.safety_low, 1) +
                   " is wanted.";
    fix_by_axle(in, finding, [&](const ShaftStudy& study) {
        return safety_status(in.setup, study.worst.safety) == Status::ok;
    });
    out.push_back(std::move(finding));
}

void find_whirl(const FindingInput& in, std::vector<Finding>& out) {
    const ShaftStudy& s = in.feel->shaft;
    const auto status = [&](const ShaftStudy& study) {
        return bending_status(in.setup, study.bending_speed, study.top_speed);
    };
    if (status(s) == Status::ok) return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "shaft.whirl";
    finding.parts = {"axle"};
    finding.text = "The axle's first bending speed is " + fixed(s.bending_speed, 0) + " rev/min, " +
                   fixed(s.bending_speed / s.top_speed, 2) + " times its top speed; " +
                   fixed(in.setup.cases.margin_low, 1) + " times is wanted, or it whips.";
    fix_by_axle(in, finding, [&](const ShaftStudy& study) { return status(study) == Status::ok; });
    out.push_back(std::move(finding));
}

void find_misaligned(const FindingInput& in, std::vector<Finding>& out) {
    const BearingStudy& b = in.feel->bearings;
    if (misalignment_status(in.setup, b.misalignment) == Status::ok) return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "bearing.misaligned";
    const bool left = b.misaligned == Side::left;
    finding.parts = {left ? "left.bearing" : "right.bearing", "axle"};
    finding.text = std::string("The axle leans ") + arc_minutes(b.misalignment) + " in the " +
                   (left ? "left" : "right") + " bearing, which stands " +
                   arc_minutes(in.setup.bearing.misalignment_max) + ".";
    fix_by_axle(in, finding, [&](const ShaftStudy& study) {
        const double slope = std::max(study.bearing_left.slope, study.bearing_right.slope);
        return misalignment_status(in.setup, slope) == Status::ok;
    });
    out.push_back(std::move(finding));
}

/// A rating, rounded up to what bearings are sorted by; within the range of its parameter or 0.
double in_range(const char* key, double rating) {
    const Parameter* p = find_parameter(key);
    const double rounded = std::ceil(rating / p->step) * p->step;
    return rounded <= p->high ? rounded : 0;
}

void fix_by_rating(Finding& finding, const char* key, const char* symbol, double needed,
                   bool binds) {
    if (binds) finding.fix = "Free the float first: it presses the bearings. ";
    const double rating = in_range(key, needed);
    if (rating == 0) {
        finding.fix += "No bearing of this size carries it: lower the loads.";
        return;
    }
    finding.fix += std::string("Fit bearings with a rating ") + symbol + " of at least " +
                   fixed(rating, 0) + " N.";
    finding.changes = {{key, rating, {}}};
}

void find_life(const FindingInput& in, std::vector<Finding>& out) {
    const BearingStudy& b = in.feel->bearings;
    if (life_status(in.setup, b.life) == Status::ok) return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "bearing.life";
    finding.parts = {"left.bearing", "right.bearing"};
    finding.text = "The bearings last " + fixed(b.life, 0) + " h by their rating; " +
                   fixed(in.setup.cases.life_low, 0) + " h are wanted.";
    const double needed =
        in.setup.bearing.rating * std::cbrt(in.setup.cases.life_low / std::max(b.life, 1e-9));
    fix_by_rating(finding, "bearing.rating", "C", needed, b.preload.force > 0);
    out.push_back(std::move(finding));
}

void find_static(const FindingInput& in, std::vector<Finding>& out) {
    const BearingStudy& b = in.feel->bearings;
    if (static_status(in.setup, b.static_safety) == Status::ok) return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "bearing.static";
    finding.parts = {"left.bearing", "right.bearing"};
    finding.text = "Static safety of the bearings is " + fixed(b.static_safety, 2) + " " +
                   std::string(title(b.static_case)) + "; " + fixed(in.setup.cases.static_low, 1) +
                   " is wanted, or the balls dent the rings.";
    fix_by_rating(finding, "bearing.static_rating", "C0",
                  in.setup.bearing.static_rating * in.setup.cases.static_low / b.static_safety,
                  b.preload.force > 0);
    out.push_back(std::move(finding));
}

std::string micrometres(double mm) { return fixed(mm * 1000, 0); }

/// A fit that can bind, and what is made anew to free it.
struct TightFit {
    const char* key;          ///< of the designation
    const std::string& text;  ///< the designation
    double nominal;
    FitPart anew;
    const char* what;     ///< "of the axle in the bearings"
    const char* then;     ///< what follows if it binds
    const char* instead;  ///< "Fit an axle ground to"
    const char* none;     ///< what to do where no class frees it
    std::vector<std::string> parts;
};

void find_tight_fit(const std::optional<IsoFit>& fit, const TightFit& tight,
                    std::vector<Finding>& out) {
    if (!fit || fit->clearance_low() >= 0) return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "fit.tight";
    finding.parts = tight.parts;
    finding.text = "The fit " + tight.text + " " + tight.what + " can be " +
                   micrometres(-fit->clearance_low()) + " µm too tight: " + tight.then + ".";
    if (const auto freed = freed_fit(tight.text, tight.nominal, tight.anew)) {
        const IsoFit now = find_fit(*freed, tight.nominal).value();
        const std::size_t slash = freed->find('/');
        finding.fix =
            std::string(tight.instead) + " " +
            (tight.anew == FitPart::hole ? freed->substr(0, slash) : freed->substr(slash + 1)) +
            ": " + *freed + " leaves " + micrometres(now.clearance_low()) + " to " +
            micrometres(now.clearance_high()) + " µm.";
        finding.changes = {{tight.key, 0, {}, *freed}};
    } else {
        finding.fix = tight.none;
    }
    out.push_back(std::move(finding));
}

void find_fits(const FindingInput& in, std::vector<Finding>& out) {
    const Setup& s = in.setup;
    find_tight_fit(
        in.feel->axle_fit,
        {"fits.axle",
         s.fits.axle,
         s.bearing.bore,
         FitPart::shaft,
         "of the axle in the bearings",
         "the axle does not slide, and the float is not free",
         "Fit an axle ground to",
         "No axle of class g or f clears this bore: fit bearings whose bore is not below "
         "its nominal size, such as H6.",
         {"axle", "left.bearing", "right.bearing"}},
        out);
    find_tight_fit(in.feel->holder_fit,
                   {"fits.holder",
                    s.fits.holder,
                    s.bearing.outside,
                    FitPart::hole,
                    "of the bearings in the holders",
                    "the holder squeezes the outer ring, and the balls lose their clearance",
                    "Fit holders bored to",
                    "No holder of class H, G or F clears this outside: fit bearings whose outside "
                    "is not above its nominal size, such as h6.",
                    {"left.holder", "right.holder", "left.bearing", "right.bearing"}},
                   out);
}

/// Brings the float within `low` to `high` at the bench.
void set_float(const FindingInput& in, double low, double high, Finding& finding) {
    if (in.setup.axial_float.set_by == FloatBy::blade) {
        const double blade = best_blade(low, high);
        if (blade == 0) return;
        finding.fix = "Clamp the hub against the " + length(blade, in.shown) + " blade at " +
                      fixed(in.setup.temperature.bench, 0) + " °C.";
        finding.changes = {{"float.blade", blade, {}}};
        return;
    }
    Setup narrowed = in.setup;
    narrowed.axial_float.low = std::max(0.0, low);
    narrowed.axial_float.high = high;
    if (const auto shims = find_shims(narrowed, in.stack, in.shown)) {
        finding.fix = "Change the shims, " + shims->text + ".";
        finding.changes = shims->changes;
    }
}

}  // namespace

void find_shaft(const FindingInput& in, std::vector<Finding>& out) {
    find_overstress(in, out);
    find_whirl(in, out);
}

void find_bearings(const FindingInput& in, std::vector<Finding>& out) {
    find_misaligned(in, out);
    find_life(in, out);
    find_static(in, out);
    find_fits(in, out);
}

/// The mesh in the heat and the cold.
static void find_warm_mesh(const FindingInput& in, std::vector<Finding>& out) {
    if (!in.drive.slot.reached) return;
    const Gears& g = in.setup.gears;
    const Warmth& w = in.feel->warmth;
    const Status cold = warm_backlash_status(in.setup, w.backlash_cold);
    const Status hot = warm_backlash_status(in.setup, w.backlash_hot);
    const Status status = std::max(cold, hot);
    // A mesh that is as wrong at the bench has its own finding.
    if (status <= backlash_status(in.setup, in.drive.mesh.backlash)) return;
    const bool is_cold = cold > hot;
    const double there = is_cold ? w.backlash_cold : w.backlash_hot;
    Finding finding;
    finding.level = status == Status::stop ? Level::stop : Level::caution;
    finding.code = status == Status::stop ? "mesh.jams_in_day" : "mesh.leaves_in_day";
    finding.parts = {"pinion", "spur"};
    finding.text = "At " +
                   fixed(is_cold ? in.setup.temperature.cold : in.setup.temperature.hot, 0) +
                   " °C the backlash of " + length(in.drive.mesh.backlash, in.shown) + " is " +
                   length(there, in.shown) +
                   (status == Status::stop   ? ": the teeth jam."
                    : there < g.backlash_low ? ": too tight to run free."
                                             : ": the mesh rattles.");
    // Set at the bench, both ends of the day move along.
    const double low = g.backlash_low - std::min(w.backlash_cold, w.backlash_hot);
    const double high = g.backlash_high - std::max(w.backlash_cold, w.backlash_hot);
    const double wanted = g.backlash + (low + high) / 2;
    if (low <= high && wanted > 0 && wanted <= find_parameter("gears.backlash")->high &&
        backlash_status(in.setup, wanted) == Status::ok) {
        finding.fix = "Set the mesh to " + length(wanted, in.shown) + " at " +
                      fixed(in.setup.temperature.bench, 0) + " °C.";
        finding.changes = {{"gears.backlash", wanted, {}}};
    } else {
        finding.fix =
            "Set the mesh again when it gets warm or cold, or fit gears and plates of "
            "materials that grow alike.";
    }
    out.push_back(std::move(finding));
}

void find_day(const FindingInput& in, std::vector<Finding>& out) {
    find_warm_mesh(in, out);
    const Warmth& w = in.feel->warmth;
    const bool cold_is_worse = std::abs(w.float_cold - in.stack.axial_float) >
                               std::abs(w.float_hot - in.stack.axial_float);
    const Status cold = warm_float_status(in.setup, w.float_cold);
    const Status hot = warm_float_status(in.setup, w.float_hot);
    const Status status = std::max(cold, hot);
    // A float that is as wrong at the bench has its own finding.
    if (status <= float_status(in.setup, in.stack.axial_float)) return;
    const bool is_cold = cold > hot || (cold == hot && cold_is_worse);
    const double F = is_cold ? w.float_cold : w.float_hot;
    Finding finding;
    finding.level = status == Status::stop ? Level::stop : Level::caution;
    finding.code = status == Status::stop ? "float.binds_in_day" : "float.leaves_in_day";
    finding.parts = {"axle", "left.hub", "carrier"};
    finding.text = "At " +
                   fixed(is_cold ? in.setup.temperature.cold : in.setup.temperature.hot, 0) +
                   " °C the float of " + length(in.stack.axial_float, in.shown) + " is " +
                   length(F, in.shown) +
                   (status == Status::stop         ? ": the axle binds."
                    : F < in.setup.axial_float.low ? ": too tight to trust."
                                                   : ": the axle rattles.");
    if (w.can_be_set()) set_float(in, w.set_low, w.set_high, finding);
    if (finding.changes.empty())
        finding.fix = w.can_be_set()
                          ? "Set " + length(w.set_low, in.shown) + " to " +
                                length(w.set_high, in.shown) + " at the bench."
                          : "Widen the window, or fit axle, hubs and pod of materials that grow "
                            "alike: " +
                                fixed(w.float_per_kelvin * 1000, 2) + " µm for each degree.";
    out.push_back(std::move(finding));
}

void find_scatter(const FindingInput& in, std::vector<Finding>& out) {
    if (in.feel->tolerances.empty()) return;
    const ToleranceStudy& study = in.feel->tolerances.front();
    const double share = study.sample.outside_share();
    if (share_status(in.setup, share) == Status::ok) return;
    // A float that is out by itself is out in most builds too, and has its own finding.
    if (float_status(in.setup, in.stack.axial_float) != Status::ok) return;
    Finding finding;
    finding.level = Level::caution;
    finding.code = "float.scatter";
    finding.parts = {"left.hub", "carrier"};
    const auto largest = std::max_element(study.contributions.begin(), study.contributions.end());
    const std::string& name =
        study.stack_up.contributors[static_cast<std::size_t>(largest - study.contributions.begin())]
            .name;
    finding.text = "In " + fixed(100 * share, 1) + " % of builds (" +
                   fixed(100 * study.outside.low, 1) + " to " + fixed(100 * study.outside.high, 1) +
                   " %) the float lies outside its window; the largest share of the scatter, " +
                   fixed(100 * *largest, 0) + " %, comes from the " + name + ".";
    finding.fix = "Measure the float once it is built, or hold the " + name + " more tightly.";
    out.push_back(std::move(finding));
}

}  // namespace podwright
