#include "gap/clearance_findings.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <functional>
#include <optional>

#include "core/conflicts.hpp"
#include "core/findings.hpp"
#include "core/limits.hpp"
#include "core/shim_search.hpp"
#include "core/traded.hpp"
#include "shape/assembly.hpp"

namespace podwright {

namespace {

constexpr std::size_t most_findings = 8;
constexpr double hair = 0.005;   // mm, less than is shown
constexpr int most_in_vain = 3;  // leaps in a row of a remedy that does not help
constexpr int most_trials = 40;  // measurements for the remedies of all findings together
constexpr double least_room =
    0.05;  // mm that a remedy leaves at the least, even where none is needed

/// A way to make room: the changes of its n-th step, from the smallest; empty when it ends.
struct Remedy {
    std::function<std::vector<Change>(int)> changes;
    std::function<std::string(int)> text;
};

std::string side_of(const std::string& key) {
    if (key.rfind("left.", 0) == 0) return "left";
    if (key.rfind("right.", 0) == 0 || key == "spur" || key == "carrier") return "right";
    return {};
}

Remedy add_shim(const Setup& setup, const std::string& side, LengthUnit shown) {
    const auto& shims = (side == "left" ? setup.left : setup.right).shims;
    const std::size_t most = find_parameter(side + ".shims")->longest;
    const auto thickness = [](int n) { return usual_shims.at(static_cast<std::size_t>(n)); };
    return {[=](int n) -> std::vector<Change> {
                if (n >= static_cast<int>(usual_shims.size()) || shims.size() >= most) return {};
                std::vector<double> more = shims;
                more.push_back(thickness(n));
                return {{side + ".shims", 0, more}};
            },
            [=](int n) { return "add a " + length(thickness(n), shown) + " shim on the " + side; }};
}

/// A number of the setup moved in steps, `times` at the most.
Remedy move(const Setup& setup, std::vector<std::string> keys, double step, int times,
            const std::function<std::string(double)>& text) {
    const double start = *find_parameter(keys.front())->get(setup);
    return {[=](int n) -> std::vector<Change> {
                if (n >= times) return {};
                std::vector<Change> changes;
                for (const std::string& key : keys) {
                    const Parameter& p = *find_parameter(key);
                    const double value = *p.get(setup) + step * (n + 1);
                    if (value < p.low || value > p.high) return {};
                    changes.push_back({key, value, {}});
                }
                return changes;
            },
            [=](int n) { return text(start + step * (n + 1)); }};
}

/// Both holders raised (the axle goes up in the pod) or lowered, half a millimetre a step.
Remedy holders(const Setup& setup, double way, LengthUnit shown) {
    const auto raised = [&setup, way](const AxleSide& side, int n) {
        return holder_offset(side) + way * holder_grid * (n + 1);
    };
    return {[=, &setup](int n) -> std::vector<Change> {
                std::vector<Change> changes;
                for (Side which : both_sides) {
                    const std::string at = which == Side::left ? "left." : "right.";
                    const double up = raised(setup.side(which), n);
                    if (n >= 6 || std::abs(up) > holder_most) return {};
                    changes.push_back({at + "holder_step", std::abs(up), {}});
                    changes.push_back({at + "holder_way", up > 0 ? 0.0 : 1.0, {}});
                }
                return changes;
            },
            [=, &setup](int n) {
                const double left = raised(setup.left, n), right = raised(setup.right, n);
                const auto one = [&](double up) {
                    return length(std::abs(up), shown) + (up > 0 ? " up" : up < 0 ? " down" : "");
                };
                const std::string both = left == right
                                             ? "the holders of " + one(left)
                                             : "holders of " + one(left) + " on the left and " +
                                                   one(right) + " on the right";
                return "fit " + both + " and set the mesh again";
            }};
}

std::vector<Remedy> remedies(const Setup& setup, const Clearance& c, LengthUnit shown) {
    std::vector<Remedy> all;
    const std::string side = side_of(c.a).empty() ? side_of(c.b) : side_of(c.a);
    if (c.b == ground_key || c.a == "axle" || c.b == "axle") {
        all.push_back(holders(setup, -1, shown));
        all.push_back(holders(setup, 1, shown));
    }
    if (!side.empty()) {
        all.push_back(add_shim(setup, side, shown));
        const auto wheels = [=](double inset) {
            return "fit a wheel of " + length(inset, shown) + " inset on the " + side;
        };
        all.push_back(move(setup, {side + ".inset"}, -0.25, 40, wheels));
        all.push_back(move(setup, {side + ".inset"}, 0.25, 40, wheels));
    }
    const auto teeth = [](const char* gear) {
        return [gear](double n) {
            return "fit a " + std::string(gear) + " of " + fixed(n, 0) + " teeth";
        };
    };
    all.push_back(move(setup, {"gears.spur"}, -1, 30, teeth("spur")));
    constexpr int most_teeth = 8;  // more is another car
    all.push_back(move(setup, {"gears.pinion"}, 1, most_teeth, teeth("pinion")));
    all.push_back(move(setup, {"gears.pinion"}, -1, most_teeth, teeth("pinion")));
    all.push_back(move(setup, {"gears.spur"}, 1, most_teeth, teeth("spur")));
    const auto tyres = [=](double d) { return "fit tyres of " + length(d, shown); };
    all.push_back(move(setup, {"left.tyre_diameter", "right.tyre_diameter"}, 0.5, 16, tyres));
    all.push_back(move(setup, {"left.tyre_diameter", "right.tyre_diameter"}, -0.5, 16, tyres));
    return all;
}

/// Stops and cautions without clearances, as one number to compare.
int trouble(const Setup& setup) {
    const Stack stack = stack_of(setup);
    const Stance stance = stance_of(setup, stack);
    const Drive drive = drive_of(setup, stack, stance);
    int sum = 0;
    for (const Finding& f : findings_of({setup, stack, stance, drive}))
        sum += f.level == Level::stop ? 100 : f.level == Level::caution ? 1 : 0;
    return sum;
}

double gap_after(const Setup& setup, const Clearance& c, Meter& meter) {
    const Stack stack = stack_of(setup);
    const Stance stance = stance_of(setup, stack);
    const Assembly assembly = assemble(setup, stack, stance, drive_of(setup, stack, stance));
    if (!assembly.find(c.a) || (c.b != ground_key && !assembly.find(c.b))) return -1e300;
    return meter.clearance(setup, assembly, c.a, c.b).worst.gap;
}

/// What a step of a remedy comes to.
enum class Trial { not_enough, enough, too_far };

/// The smallest step of the remedy after which the pair has what it needs, and the gap then: in
/// leaps first, then by halves between the last that was too short and the first that was not.
std::optional<std::pair<int, double>> least_step(const Setup& setup, const Clearance& c,
                                                 const Remedy& remedy, int trouble_before,
                                                 Meter& meter, int& trials) {
    double gap = c.worst.gap;
    const auto tried = [&](int n) {
        const std::vector<Change> changes = remedy.changes(n);
        if (changes.empty()) return Trial::too_far;
        const Setup after = with_changes(setup, changes);
        if (find_conflict(after) || trouble(after) > trouble_before) return Trial::too_far;
        if (c.b != ground_key) --trials;  // distances to a plane cost nothing
        gap = gap_after(after, c, meter);
        return gap >= std::max(c.need, least_room) ? Trial::enough : Trial::not_enough;
    };
    int low = -1, high = 0;
    double last = c.worst.gap, found = 0;
    Trial outcome = Trial::not_enough;
    for (int leap = 1, in_vain = 0; trials > 0 && in_vain < most_in_vain; leap *= 2) {
        outcome = tried(high);
        if (outcome != Trial::not_enough) break;
        // A part that is deep in another may have to pass its middle before it gets free.
        in_vain = gap > last ? 0 : in_vain + 1;
        last = gap;
        low = high;
        high += leap;
    }
    if (outcome == Trial::not_enough) return {};
    bool is_found = outcome == Trial::enough;
    found = gap;
    while (high - low > 1 && trials > 0) {
        const int middle = (low + high) / 2;
        const Trial half = tried(middle);
        (half == Trial::not_enough ? low : high) = middle;
        if (half != Trial::enough) continue;
        is_found = true;
        found = gap;
    }
    if (!is_found) return {};
    return std::pair{high, found};
}

/// The first remedy that helps. Each measurement takes one of `trials`.
void add_fix(const Setup& setup, const Clearance& c, LengthUnit shown, Meter& meter, int& trials,
             Finding& finding) {
    if (below(stack_of(setup).axial_float, 0)) {
        finding.fix = "Free the axle first: it binds, and nothing stands where it will.";
        return;
    }
    const int before = trouble(setup);
    for (const Remedy& remedy : remedies(setup, c, shown)) {
        const auto step = least_step(setup, c, remedy, before, meter, trials);
        if (!step) continue;
        std::string text = remedy.text(step->first);
        text.front() = static_cast<char>(std::toupper(text.front()));
        finding.fix = text + ": the gap is " + length(step->second, shown) + " then.";
        finding.changes = remedy.changes(step->first);
        return;
    }
    finding.fix = trials > 0 ? "No change of one adjuster gives the " +
                                   length(c.need - c.worst.gap, shown) +
                                   " more clearance that is needed: use other parts."
                             : "Too much touches at once to look for a remedy: mend what is above "
                               "first.";
}

}  // namespace

std::string spoken(const Assembly& assembly, const std::string& key) {
    const Part* part = assembly.find(key);
    if (!part) return key;
    std::string title = part->title.substr(0, part->title.find_first_of(",0123456789"));
    while (!title.empty() && title.back() == ' ') title.pop_back();
    // One of several of its kind is told from the others by its number.
    const std::size_t dot = key.rfind('.');
    const bool numbered =
        dot != std::string::npos && std::isdigit(static_cast<unsigned char>(key[dot + 1]));
    if (numbered && (key.substr(dot) != ".1" || assembly.find(key.substr(0, dot) + ".2")))
        title += " " + key.substr(dot + 1);
    return title;
}

std::vector<Finding> clearance_findings(const Setup& setup, const Assembly& assembly,
                                        std::span<const Clearance> clearances, LengthUnit shown,
                                        Meter* meter) {
    std::vector<Finding> findings;
    int trials = most_trials;
    for (const Clearance& c : clearances) {
        if (c.worst.status < Status::caution || findings.size() == most_findings) break;
        const bool contact = c.worst.status == Status::stop;
        const std::string pair = spoken(assembly, c.a) + " and " + spoken(assembly, c.b);
        Finding finding;
        finding.level = contact ? Level::stop : Level::caution;
        finding.code = contact ? "contact" : "close";
        finding.text =
            contact ? "The " + pair +
                          (c.worst.gap > -hair
                               ? std::string(" touch")
                               : " run into each other by " + length(-c.worst.gap, shown))
                    : "The " + pair +
                          (c.worst.gap < hair ? std::string(" just touch")
                                              : " come within " + length(c.worst.gap, shown)) +
                          ", " + length(c.need, shown) + " is needed";
        finding.text += " (" + words(c.when) + ").";
        finding.parts = {c.a};
        if (c.b != ground_key) finding.parts.push_back(c.b);
        finding.fix = "It takes " + length(c.need - c.worst.gap, shown) + " more clearance.";
        // With a mesh of the user's every try takes long, and its owner knows best.
        const Part* b = assembly.find(c.b);
        const bool own = has_own_mesh(*assembly.find(c.a)) || (b && has_own_mesh(*b));
        if (meter && !own) add_fix(setup, c, shown, *meter, trials, finding);
        findings.push_back(std::move(finding));
    }
    return findings;
}

}  // namespace podwright
