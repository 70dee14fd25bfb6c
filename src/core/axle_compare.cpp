#include "core/axle_compare.hpp"

#include <algorithm>
#include <cmath>

#include "core/limits.hpp"
#include "core/units.hpp"

namespace podwright {

namespace {

constexpr double g_per_kg = 1000;
constexpr double minutes_per_degree = 60;
constexpr double most_shown = 99;      // of a safety or a margin
constexpr double same_mass = 0.05e-3;  // kg: what is shown as 0.0 g
constexpr double same_share = 0.005;   // of deflection and wind-up

std::string percent(double share) { return fixed(std::abs(share) * 100, 1) + " %"; }

std::string as_start(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::string why_not(const AxleFigures& axle) {
    return axle.name + " does not hold: safety " + fixed(std::min(axle.safety, most_shown), 1) +
           ", slope in a bearing " + fixed(degrees(axle.slope) * minutes_per_degree, 1) +
           " arc minutes, bending speed " + fixed(std::min(axle.bending_margin, most_shown), 1) +
           " times the top speed";
}

/// How much softer one axle is than the other, in words: "bends 2.6 times and winds up 0.9 times as
/// much as".
std::string softer(double bends, double winds) {
    return "bends " + fixed(bends, 2) + " times and winds up " + fixed(winds, 2) +
           " times as much as";
}

/// Without load nothing bends, and both are alike.
double ratio(double a, double b) { return a > 0 && b > 0 ? a / b : 1; }

/// One axle seen from the other.
struct Against {
    const AxleFigures& axle;
    const AxleFigures& other;
    double saved;         ///< kg, by `axle`
    double gain;          ///< of acceleration, by `axle`
    double bends, winds;  ///< of `axle` over `other`
    bool no_softer() const { return bends <= 1 + same_share && winds <= 1 + same_share; }
    bool no_stiffer() const { return bends >= 1 - same_share && winds >= 1 - same_share; }
};

void judge_equal_mass(const Against& a, AxleComparison& c, BetterAxle axle, BetterAxle other) {
    if (a.no_softer() && a.no_stiffer()) {
        c.better = BetterAxle::alike;
        c.verdict += "Both axles weigh the same, bend and wind up alike: take either.";
    } else if (a.no_softer() || a.no_stiffer()) {
        const bool mine = a.no_softer();
        c.better = mine ? axle : other;
        c.verdict += "Take " + (mine ? a.axle : a.other).name + ": it weighs the same and " +
                     (mine ? softer(a.bends, a.winds) : softer(1 / a.bends, 1 / a.winds)) + " " +
                     (mine ? a.other : a.axle).name + ".";
    } else {
        c.better = BetterAxle::depends;
        c.verdict += "Both weigh the same; " + a.axle.name + " " + softer(a.bends, a.winds) + " " +
                     a.other.name +
                     ". Take the one that bends less where there is grip and kerbs, the one that "
                     "winds up less where the car must launch straight.";
    }
}

/// `a.axle` is the lighter one.
void judge_lighter(const Against& a, AxleComparison& c, BetterAxle axle) {
    const std::string saved = fixed(a.saved * g_per_kg, 1) + " g lighter and gains " +
                              percent(a.gain) + " of acceleration";
    if (a.no_softer()) {
        c.better = axle;
        c.verdict += "Take " + a.axle.name + ": it is " + saved +
                     ", and bends and winds up no more than " + a.other.name + ".";
        return;
    }
    c.better = BetterAxle::depends;
    c.verdict += as_start(a.axle.name) + " is " + saved + "; it " + softer(a.bends, a.winds) + " " +
                 a.other.name +
                 ". Take the lighter one where the track is smooth and the car accelerates often, "
                 "the stiffer one where there is grip and kerbs, or where the car must launch "
                 "straight.";
}

ComparedFigure figure(std::string_view name, std::string_view label, std::string_view unit,
                      int decimals, double first, double second, bool more_is_better) {
    const double step = std::pow(10, decimals);
    const double a = std::round(first * step), b = std::round(second * step);
    const bool first_is_better = more_is_better ? a > b : a < b;
    const BetterAxle better = a == b            ? BetterAxle::alike
                              : first_is_better ? BetterAxle::first
                                                : BetterAxle::second;
    return {name, label, unit, decimals, first, second, better};
}

}  // namespace

std::string axle_title(const Axle& axle, LengthUnit shown) {
    std::string text = std::string(data(axle.material).title) + ", " + length(axle.diameter, shown);
    if (axle.waist < axle.diameter) text += ", waist " + length(axle.waist, shown);
    text += axle.bore > 0 ? ", bore " + length(axle.bore, shown) : ", solid";
    return text;
}

AxleFigures axle_figures(const Setup& setup, const Drive& drive, const Stance& stance,
                         const TurningMass& turning, const ShaftStudy& study, double car_mass) {
    AxleFigures out;
    out.name = "this axle";
    out.title = axle_title(setup.axle, LengthUnit::mm);
    if (const TurningPart* axle = turning.find("axle")) out.mass = axle->mass;
    out.equivalent = turning.equivalent;
    const double rolling = (stance.left.rolling + stance.right.rolling) / 2;
    out.push = setup.motor.torque * drive.final_drive / rolling;
    out.car_mass = car_mass;
    out.acceleration = out.push / (out.car_mass + out.equivalent);
    out.deflection = std::max(study.hub_left.deflection, study.hub_right.deflection);
    out.windup = std::max(study.windup_left, study.windup_right);
    out.slope = std::max(study.bearing_left.slope, study.bearing_right.slope);
    out.safety = study.worst.safety;
    out.bending_margin = study.top_speed > 0 ? study.bending_speed / study.top_speed : 1e3;
    out.holds = safety_status(setup, out.safety) == Status::ok &&
                misalignment_status(setup, out.slope) == Status::ok &&
                bending_status(setup, study.bending_speed, study.top_speed) == Status::ok;
    return out;
}

AxleComparison compare(const AxleFigures& first, const AxleFigures& second) {
    AxleComparison c;
    c.first = first;
    c.second = second;
    c.mass_saved = first.mass - second.mass;
    c.acceleration_gained = ratio(second.acceleration, first.acceleration) - 1;
    c.bends = ratio(second.deflection, first.deflection);
    c.winds = ratio(second.windup, first.windup);
    if (first.holds != second.holds) {
        c.better = first.holds ? BetterAxle::first : BetterAxle::second;
        c.verdict = "Take " + (first.holds ? first : second).name + ": " +
                    why_not(first.holds ? second : first) + ".";
        return c;
    }
    if (!first.holds) c.verdict = "Neither axle holds. ";
    const Against from_second{second, first, c.mass_saved, c.acceleration_gained, c.bends, c.winds};
    const Against from_first{first,         second,
                             -c.mass_saved, 1 / (1 + c.acceleration_gained) - 1,
                             1 / c.bends,   1 / c.winds};
    if (std::abs(c.mass_saved) < same_mass)
        judge_equal_mass(from_second, c, BetterAxle::second, BetterAxle::first);
    else if (c.mass_saved > 0)
        judge_lighter(from_second, c, BetterAxle::second);
    else
        judge_lighter(from_first, c, BetterAxle::first);
    return c;
}

std::array<ComparedFigure, 8> compared_figures(const AxleComparison& c) {
    const AxleFigures &a = c.first, &b = c.second;
    const auto minutes = [](double angle) { return degrees(angle) * minutes_per_degree; };
    const auto shown = [](double value) { return std::min(value, most_shown); };
    return {figure("mass", "mass of the axle", "g", 1, g_per_kg * a.mass, g_per_kg * b.mass, false),
            figure("equivalent_mass", "all that turns is worth", "g", 1, g_per_kg * a.equivalent,
                   g_per_kg * b.equivalent, false),
            figure("acceleration", "launch acceleration", "m/s2", 2, a.acceleration, b.acceleration,
                   true),
            figure("deflection", "bends at a hub", "mm", 3, a.deflection, b.deflection, false),
            figure("windup", "winds up at launch", "deg", 3, degrees(a.windup), degrees(b.windup),
                   false),
            figure("slope", "leans in a bearing", "arcmin", 1, minutes(a.slope), minutes(b.slope),
                   false),
            figure("safety", "safety of the axle", "", 1, shown(a.safety), shown(b.safety), true),
            figure("bending_margin", "bending / top speed", "", 1, shown(a.bending_margin),
                   shown(b.bending_margin), true)};
}

std::string shown_figure(const ComparedFigure& figure, double value, LengthUnit shown) {
    if (figure.unit == "mm" && shown == LengthUnit::inch)
        return fixed(value / mm_per_inch, figure.decimals + 2) + " in";
    std::string number = fixed(value, figure.decimals);
    if (figure.unit.empty()) return number;
    if (figure.unit == "deg") return number + "°";
    if (figure.unit == "arcmin") return number + "′";
    if (figure.unit == "m/s2") return number + " m/s²";
    return number + " " + std::string(figure.unit);
}

}  // namespace podwright
