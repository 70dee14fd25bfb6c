#include "gap/clearance_findings.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <functional>
#include <optional>

#include "core/conflicts.hpp"
#include "core/findings.hpp"
#include "core/shim_search.hpp"
#include "shape/assembly.hpp"

namespace podwright {

namespace {

constexpr std::size_t most_findings = 8;
constexpr int most_in_vain = 3;  // steps in a row of a remedy that does not help

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
        const double now = side.holder_way == Way::up ? side.holder_step : -side.holder_step;
        return now + way * 0.5 * (n + 1);
    };
    return {[=, &setup](int n) -> std::vector<Change> {
                std::vector<Change> changes;
                for (Side which : both_sides) {
                    const std::string at = which == Side::left ? "left." : "right.";
                    const double up = raised(setup.side(which), n);
                    if (n >= 6 || std::abs(up) > 3) return {};
                    changes.push_back({at + "holder_step", std::abs(up), {}});
                    changes.push_back({at + "holder_way", up > 0 ? 0.0 : 1.0, {}});
                }
                return changes;
            },
            [=, &setup](int n) {
                const double up = raised(setup.left, n);
                return "fit the " + length(std::abs(up), shown) + " holders" +
                       (up > 0   ? " up"
                        : up < 0 ? " down"
                                 : "") +
                       " and set the mesh again";
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
    all.push_back(move(setup, {"gears.pinion"}, 1, 30, teeth("pinion")));
    all.push_back(move(setup, {"gears.pinion"}, -1, 30, teeth("pinion")));
    all.push_back(move(setup, {"gears.spur"}, 1, 30, teeth("spur")));
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

/// The first remedy, each at its smallest step, after which the pair has what it needs.
void add_fix(const Setup& setup, const Clearance& c, LengthUnit shown, Meter& meter,
             Finding& finding) {
    const int before = trouble(setup);
    for (const Remedy& remedy : remedies(setup, c, shown)) {
        double last = c.worst.gap;
        int in_vain = 0;
        for (int n = 0; in_vain < most_in_vain; ++n) {
            const std::vector<Change> changes = remedy.changes(n);
            if (changes.empty()) break;
            const Setup after = with_changes(setup, changes);
            if (find_conflict(after) || trouble(after) > before) break;
            const double gap = gap_after(after, c, meter);
            if (gap >= c.need) {
                std::string text = remedy.text(n);
                text.front() = static_cast<char>(std::toupper(text.front()));
                finding.fix = text + ": the gap is " + length(gap, shown) + " then.";
                finding.changes = changes;
                return;
            }
            // A part that is deep in another may have to pass its middle before it gets free.
            in_vain = gap > last ? 0 : in_vain + 1;
            last = gap;
        }
    }
    finding.fix = "No change of one adjuster makes the " + length(c.need - c.worst.gap, shown) +
                  " of room that is missing: use other parts.";
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
    for (const Clearance& c : clearances) {
        if (c.worst.status < Status::caution || findings.size() == most_findings) break;
        const bool contact = c.worst.status == Status::stop;
        const std::string pair = spoken(assembly, c.a) + " and " + spoken(assembly, c.b);
        Finding finding;
        finding.level = contact ? Level::stop : Level::caution;
        finding.code = contact ? "contact" : "close";
        finding.text =
            contact ? "The " + pair + " run into each other by " + length(-c.worst.gap, shown)
                    : "The " + pair + " come within " + length(c.worst.gap, shown) + ", " +
                          length(c.need, shown) + " is needed";
        finding.text += " (" + words(c.when) + ").";
        finding.parts = {c.a};
        if (c.b != ground_key) finding.parts.push_back(c.b);
        finding.fix = "Make " + length(c.need - c.worst.gap, shown) + " of room.";
        // With a mesh of the user's every try takes long, and its owner knows best.
        const Part* b = assembly.find(c.b);
        const bool own = has_own_mesh(*assembly.find(c.a)) || (b && has_own_mesh(*b));
        if (meter && !own) add_fix(setup, c, shown, *meter, finding);
        findings.push_back(std::move(finding));
    }
    return findings;
}

}  // namespace podwright
