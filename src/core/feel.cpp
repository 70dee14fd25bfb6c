#include "core/feel.hpp"

#include <algorithm>
#include <cmath>

#include "core/reading.hpp"
#include "core/units.hpp"

namespace podwright {

namespace {

std::string celsius(double t) { return fixed(t, t == std::floor(t) ? 0 : 1) + " °C"; }

std::string windup_sentence(const ShaftStudy& shaft, LengthUnit shown) {
    const bool right_first = shaft.windup_lead >= 0;
    return "At launch the axle winds up by " + angle(shaft.windup_left) +
           " to the left wheel and " + angle(shaft.windup_right) + " to the right: the " +
           (right_first ? "right" : "left") + " tread is ahead by " +
           length(std::abs(shaft.windup_lead), shown) + ", which turns the car " +
           fixed(degrees(std::abs(shaft.windup_yaw)), 3) + "° to the " +
           (right_first ? "left" : "right") + ".";
}

std::string stress_sentence(const ShaftStudy& shaft) {
    Written safety = written_as("", LengthUnit::mm);
    safety.decimals = 1;
    return "The axle is stressed most " + std::string(title(shaft.worst_case)) + ", at the " +
           shaft.worst_place + ": " + fixed(shaft.worst.equivalent, 0) + " N/mm², safety " +
           number_as(safety, shaft.worst.safety) + ".";
}

std::string warmth_sentence(const Setup& setup, const Feel& feel, LengthUnit shown) {
    const Warmth& w = feel.warmth;
    const std::string day =
        celsius(setup.temperature.cold) + " to " + celsius(setup.temperature.hot);
    const std::string cold = length(w.float_cold, shown), hot = length(w.float_hot, shown);
    const std::string moves =
        "From " + day + " the float " +
        (cold == hot ? "stays at " + cold : "goes from " + cold + " to " + hot);
    if (!w.can_be_set())
        return moves + "; no float set at " + celsius(setup.temperature.bench) +
               " stays within its window all day.";
    return moves + "; set " + length(w.set_low, shown) + " to " + length(w.set_high, shown) +
           " at " + celsius(setup.temperature.bench) + " and it never binds and never rattles.";
}

}  // namespace

Feel feel_of(const Setup& setup, const Stack& stack, const Stance& stance, const Drive& drive,
             TurningMass turning) {
    Feel feel;
    feel.turning = std::move(turning);
    feel.shaft = study_shaft(setup, stack, stance, drive, feel.turning);
    feel.bearings = study_bearings(setup, stack, feel.shaft, stack.axial_float);
    feel.warmth = warmth_of(setup, stack, drive);
    const StackUp of_float = float_stack_up(setup, stack);
    feel.float_likely = root_sum_square(of_float);
    feel.float_worst = worst_case(of_float);
    feel.axle_fit = find_fit(setup.fits.axle, setup.bearing.bore);
    feel.holder_fit = find_fit(setup.fits.holder, setup.bearing.outside);
    return feel;
}

AxleComparison compare_axles(const Setup& setup, const Setup& other_setup, const Stack& stack,
                             const Stance& stance, const Drive& drive, const Feel& feel,
                             const TurningMass& other_turning, LengthUnit shown) {
    const ShaftStudy study = study_shaft(other_setup, stack, stance, drive, other_turning);
    AxleFigures own = axle_figures(setup, drive, stance, feel.turning, feel.shaft, setup.car.mass);
    // The same car with the other axle: what the axle weighs less, the car weighs less.
    const TurningPart* other_axle = other_turning.find("axle");
    const double saved = other_axle ? own.mass - other_axle->mass : 0;
    AxleFigures other =
        axle_figures(other_setup, drive, stance, other_turning, study, setup.car.mass - saved);
    own.name = "today's axle";
    own.title = axle_title(setup.axle, shown);
    other.name = "the other axle";
    other.title = axle_title(other_setup.axle, shown);
    return compare(own, other);
}

std::vector<std::string> feel_sentences(const Setup& setup, const Stack& stack, const Feel& feel,
                                        LengthUnit shown) {
    if (feel.shaft.cases.empty()) return {};
    std::vector<std::string> out;
    // Without a torque there is no launch, and without a load no stress.
    if (feel.shaft.windup_left != 0 || feel.shaft.windup_right != 0)
        out.push_back(windup_sentence(feel.shaft, shown));
    if (!is_endless(feel.shaft.worst.safety)) out.push_back(stress_sentence(feel.shaft));
    out.push_back(warmth_sentence(setup, feel, shown));
    if (stack.axial_float < 0) {
        const Preload& p = feel.bearings.preload;
        out.push_back("Clamped " + length(p.overlap, shown) + " too tight, " +
                      length(p.play, shown) +
                      " goes into the bearings' play; the rest presses each bearing with " +
                      fixed(p.force, 0) + " N.");
    }
    return out;
}

}  // namespace podwright
