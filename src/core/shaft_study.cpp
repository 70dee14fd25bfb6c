#include "core/shaft_study.hpp"

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "core/units.hpp"

namespace podwright {

namespace {

constexpr double seconds_per_minute = 60;

void widen(ShaftExtreme& extreme, const ShaftPoint& at, LoadCase which) {
    if (at.deflection() > extreme.deflection) {
        extreme.deflection = at.deflection();
        extreme.deflection_case = which;
    }
    if (at.slope() > extreme.slope) {
        extreme.slope = at.slope();
        extreme.slope_case = which;
    }
}

std::string place_name(const ShaftStudy& study, double y) {
    const std::pair<double, const char*> known[] = {{study.places.hub_left, "left hub"},
                                                    {study.places.hub_right, "right hub"},
                                                    {study.places.bearing_left, "left bearing"},
                                                    {study.places.bearing_right, "right bearing"},
                                                    {study.places.gear, "spur"}};
    for (const auto& [at, name] : known)
        if (std::abs(at - y) < 1e-6) return name;
    return y > 0 ? "left edge of the waist" : "right edge of the waist";
}

/// Wheel, tyre and screws of a side with what carries them, as one body.
TurningPart wheel_body(const TurningMass& turning, const std::string& side, const char* carrier) {
    std::vector<const TurningPart*> parts;
    for (const char* name : {"wheel", "tyre", "screws"})
        if (const TurningPart* part = turning.find(side + name)) parts.push_back(part);
    if (const TurningPart* part = turning.find(carrier)) parts.push_back(part);
    return together(parts);
}

ShaftModel::Rider rider(const TurningPart& body, double at) {
    return {at, body.mass, body.y - at, body.transverse};
}

double stretch_stiffness(const ShaftModel& model, double from, double to) {
    // Twist under a unit torque.
    const ShaftState state = model.solve({{from, 0, 0, 0, 0, -1}, {to, 0, 0, 0, 0, 1}});
    return 1 / std::abs(model.twist(state, from, to));
}

void add_frequencies(ShaftStudy& study, const ShaftModel& model, const TurningMass& turning,
                     double ratio) {
    const TurningPart left = wheel_body(turning, "left.", "left.hub");
    const TurningPart right = wheel_body(turning, "right.", "carrier");
    std::vector<ShaftModel::Rider> riders = {rider(left, study.places.hub_left),
                                             rider(right, study.places.hub_right)};
    const TurningPart* spur = turning.find("spur");
    if (spur) riders.push_back(rider(*spur, study.places.gear));
    const double w = model.bending_frequency(riders);
    study.bending_frequency = w / (2 * pi);
    study.bending_speed = study.bending_frequency * seconds_per_minute;

    const double rotor = (turning.rotor + turning.pinion) * ratio * ratio;
    const std::array<double, 3> inertia = {left.polar, rotor + (spur ? spur->polar : 0),
                                           right.polar};
    if (!(std::min({inertia[0], inertia[1], inertia[2]}) > 0)) return;
    const auto torsion = torsional_frequencies(
        inertia, stretch_stiffness(model, study.places.hub_left, study.places.gear),
        stretch_stiffness(model, study.places.gear, study.places.hub_right));
    study.torsion_low = torsion[0] / (2 * pi);
    study.torsion_high = torsion[1] / (2 * pi);
}

void add_windup(ShaftStudy& study, const ShaftModel& model, const Stack& stack,
                const Stance& stance) {
    const ShaftState& launch = study.solved(LoadCase::launch).state;
    study.windup_left = std::abs(model.twist(launch, study.places.gear, study.places.hub_left));
    study.windup_right = std::abs(model.twist(launch, study.places.gear, study.places.hub_right));
    const double rolling = (stance.left.rolling + stance.right.rolling) / 2;
    study.windup_lead = (study.windup_left - study.windup_right) * rolling;
    study.windup_yaw = std::atan(study.windup_lead / stack.track);
}

}  // namespace

ShaftModel shaft_model(const Setup& setup, const Stack& stack, const Drive& drive) {
    const ShaftPlaces p = shaft_places(setup, stack, drive);
    // A node in the span lets the consistent mass follow its bow.
    const double middle = (p.bearing_left + p.bearing_right) / 2;
    return {axle_shaft(setup, stack), {p.hub_left, p.hub_right, p.gear, middle}};
}

ShaftStudy study_shaft(const Setup& setup, const Stack& stack, const Stance& stance,
                       const Drive& drive, const TurningMass& turning) {
    ShaftStudy study;
    study.places = shaft_places(setup, stack, drive);
    const ShaftModel model = shaft_model(setup, stack, drive);
    study.worst.safety = 1e9;
    study.cases.reserve(all_load_cases.size());
    for (const LoadCase which : all_load_cases) {
        const CaseLoads loads = case_loads(which, setup, stack, stance, drive);
        SolvedCase solved{loads,
                          model.solve(shaft_loads(loads, study.places, setup, stance, drive))};
        widen(study.hub_left, model.at(solved.state, study.places.hub_left), which);
        widen(study.hub_right, model.at(solved.state, study.places.hub_right), which);
        if (which != LoadCase::kerb_left && which != LoadCase::kerb_right) {
            widen(study.bearing_left, model.at(solved.state, study.places.bearing_left), which);
            widen(study.bearing_right, model.at(solved.state, study.places.bearing_right), which);
        }
        widen(study.gear, model.at(solved.state, study.places.gear), which);
        if (solved.state.worst.safety < study.worst.safety) {
            study.worst = solved.state.worst;
            study.worst_case = which;
        }
        study.transfer = std::max(study.transfer, loads.transfer);
        study.cases.push_back(std::move(solved));
    }
    study.worst_place = place_name(study, study.worst.y);
    add_windup(study, model, stack, stance);
    study.top_speed = setup.motor.speed / drive.final_drive;
    add_frequencies(study, model, turning, drive.final_drive);
    return study;
}

ShaftCurves shaft_curves(const ShaftModel& model, const SolvedCase& solved,
                         const ShaftPlaces& places, int count) {
    ShaftCurves out;
    const std::vector<double>& nodes = model.nodes();
    // Twist at the nodes first, then linear between them: torque is constant there.
    std::vector<double> twist(nodes.size());
    for (std::size_t i = 0; i < nodes.size(); ++i)
        twist[i] = model.twist(solved.state, places.gear, nodes[i]);
    for (int i = 0; i < count; ++i) {
        const double part = static_cast<double>(i) / (count - 1);
        const double y = nodes.front() + (nodes.back() - nodes.front()) * part;
        const auto above = std::upper_bound(nodes.begin(), nodes.end(), y) - nodes.begin() - 1;
        const auto e = static_cast<std::size_t>(
            std::clamp<std::ptrdiff_t>(above, 0, static_cast<std::ptrdiff_t>(nodes.size()) - 2));
        const double share = std::clamp((y - nodes[e]) / (nodes[e + 1] - nodes[e]), 0.0, 1.0);
        const ShaftPoint at = model.at(solved.state, y);
        const ShaftCut &a = solved.state.cuts[2 * e], &b = solved.state.cuts[2 * e + 1];
        out.y.push_back(y);
        out.x.push_back(at.x);
        out.z.push_back(at.z);
        out.moment_x.push_back(a.moment_x + (b.moment_x - a.moment_x) * share);
        out.moment_z.push_back(a.moment_z + (b.moment_z - a.moment_z) * share);
        out.torque.push_back(a.torque);
        out.twist.push_back(twist[e] + (twist[e + 1] - twist[e]) * share);
    }
    return out;
}

}  // namespace podwright
