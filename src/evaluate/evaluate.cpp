#include "evaluate/evaluate.hpp"

#include <algorithm>
#include <iterator>

#include "core/findings.hpp"
#include "core/measured.hpp"
#include "core/other_axle.hpp"
#include "core/readings.hpp"
#include "core/rules.hpp"
#include "gap/clearance_findings.hpp"
#include "shape/assembly.hpp"

namespace podwright {

namespace {

void add_clearances(const Setup& setup, const Asked& asked, Evaluation& e) {
    e.clearances = asked.meter->clearances(setup, e.assembly, asked.pose, asked.horizon);
    std::vector<Finding> found = clearance_findings(setup, e.assembly, e.clearances, asked.shown,
                                                    asked.clearance_fixes ? asked.meter : nullptr);
    std::move(found.begin(), found.end(), std::back_inserter(e.findings));
}

/// Holds the axle against the setup's other one, if it names one.
void add_comparison(const Setup& setup, const Asked& asked, const ImportedMoments& weigh,
                    Evaluation& e) {
    const auto axle = other_axle_of(setup);
    if (!axle) return;
    Setup other = setup;
    other.axle = *axle;
    // A mesh of the user's own stands for today's axle, not for the other one.
    other.own_parts.erase(std::remove_if(other.own_parts.begin(), other.own_parts.end(),
                                         [](const OwnPart& own) { return own.part == "axle"; }),
                          other.own_parts.end());
    const Assembly assembly = assemble(other, e.stack, e.stance, e.drive);
    const TurningMass turning = turning_mass_of(other, e.stance, e.drive, assembly, weigh);
    e.feel.comparison =
        compare_axles(setup, other, e.stack, e.stance, e.drive, e.feel, turning, asked.shown);
}

}  // namespace

Evaluation evaluate(const Setup& setup, const Asked& asked) {
    Evaluation e;
    e.stack = stack_of(setup);
    e.stance = stance_of(setup, e.stack);
    e.drive = drive_of(setup, e.stack, e.stance);
    e.assembly = assemble(setup, e.stack, e.stance, e.drive);
    const ImportedMoments weigh = [&](const Imported& solid) {
        return asked.scales ? (*asked.scales)(solid) : generic_moments(solid);
    };
    e.feel = feel_of(setup, e.stack, e.stance, e.drive,
                     turning_mass_of(setup, e.stance, e.drive, e.assembly, weigh));
    add_comparison(setup, asked, weigh, e);
    if (asked.builds.of_float > 0) e.feel.tolerances = study_tolerances(setup, asked.builds);
    e.readings = readings_of(setup, e.stack, e.stance, e.drive, &e.feel);
    e.findings = findings_of({setup, e.stack, e.stance, e.drive, asked.shown, &e.feel});
    find_rules(setup, e.readings, asked.shown, e.findings);
    find_box(setup, asked.shown, e.findings);
    find_measured(setup, e.readings, asked.shown, e.findings);
    if (asked.meter) add_clearances(setup, asked, e);
    std::stable_sort(e.findings.begin(), e.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.level > b.level; });
    return e;
}

const Reading* Evaluation::reading(std::string_view name) const {
    const auto found = std::find_if(readings.begin(), readings.end(),
                                    [&](const Reading& r) { return r.name == name; });
    return found == readings.end() ? nullptr : &*found;
}

Level Evaluation::worst() const { return findings.empty() ? Level::note : findings.front().level; }

}  // namespace podwright
