#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>
#include <vector>

#include "choose/choose.hpp"
#include "choose/diagnose.hpp"
#include "choose/effects.hpp"
#include "choose/plan.hpp"
#include "core/readings.hpp"
#include "file/asset_library.hpp"

// What choosing costs on this machine, and how it grows as each list of the box doubles. Prints,
// asserts nothing, and is no test.
namespace {

using namespace podwright;
using Clock = std::chrono::steady_clock;

struct Size {
    int shims = 8, holders = 8, pinions = 20, spurs = 6, wheels = 4, tyres = 10;
};

Setup problem(const Size& size) {
    Setup s;
    PartsBox& box = s.choosing.box;
    for (int i = 0; i < size.shims; ++i) box.shims.push_back({0.05 + 0.05 * i, 5});
    for (int i = 0; i < size.holders; ++i) box.holders.push_back({0.25 * i, 2});
    for (int i = 0; i < size.pinions; ++i) box.pinions.push_back(24 + i);
    for (int i = 0; i < size.spurs; ++i) box.spurs.push_back(72 + 2 * i);
    for (int i = 0; i < size.wheels; ++i)
        box.wheels.push_back({std::to_string(i), -5.0 + 0.25 * i, {}, 2});
    for (int i = 0; i < size.tyres; ++i) {
        TyreKind tyre;
        tyre.name = std::to_string(i);
        tyre.diameter = 44.0 - 0.2 * i;
        box.tyres.push_back(tyre);
    }
    box.blades = {0.1, 0.15, 0.2};
    s.choosing.goals = {{"ride.rear", 3.9, 0, 1},      {"width.overall", 171.63, 0, 1},
                        {"width.shift", 0, 0, 4},      {"gear.rollout", 61.3, 0, 0.5},
                        {"float.nominal", 0.15, 0, 2}, {"ride.roll", 0, 0, 1}};
    return s;
}

/// Median of five, in milliseconds.
template <class Work>
double median(Work work) {
    std::vector<double> times;
    for (int i = 0; i < 5; ++i) {
        const auto start = Clock::now();
        work();
        times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
    }
    std::sort(times.begin(), times.end());
    return times[2];
}

void measure_choice(const char* what, const Setup& s, bool clearances, bool front = false) {
    Choice choice;
    const double ms = median([&] {
        Meter meter(asset_library());
        ChooseOptions options;
        options.meter = clearances ? &meter : nullptr;
        options.front = front;
        choice = choose(s, options);
    });
    std::printf("%-44s %8.1f ms  %8.1e builds, %5zu looked at, %4zu measured, %2zu answers\n", what,
                ms, choice.combinations, choice.looked_at, choice.measured, choice.best.size());
}

void measure_growth(bool clearances) {
    std::printf("\n%s, as each list doubles\n", clearances ? "with clearances" : "numbers only");
    measure_choice("as it is", problem({}), clearances);
    measure_choice("shims of twice as many thicknesses", problem({16, 8, 20, 6, 4, 10}),
                   clearances);
    // Steps go to 3 mm: 13 of a quarter millimetre.
    measure_choice("holders 8 to 13", problem({8, 13, 20, 6, 4, 10}), clearances);
    measure_choice("pinions", problem({8, 8, 40, 6, 4, 10}), clearances);
    measure_choice("spurs", problem({8, 8, 20, 12, 4, 10}), clearances);
    measure_choice("wheels", problem({8, 8, 20, 6, 8, 10}), clearances);
    measure_choice("tyres", problem({8, 8, 20, 6, 4, 20}), clearances);
    measure_choice("all but holders", problem({16, 8, 40, 12, 8, 20}), clearances);
}

/// Twelve runs, with the holders and pinions of the box.
void measure_plan(const char* what, bool clearances) {
    Setup s = problem({});
    s.choosing.day.runs = 12;
    s.choosing.day.left = {43.0, 42.82, 42.61, 42.39};
    s.choosing.day.right = {43.0, 42.8, 42.62, 42.4};
    for (Goal& goal : s.choosing.goals) goal.band = goal.reading == "ride.rear" ? 0.3 : 0.5;
    DayPlan plan;
    const double ms = median([&] {
        Meter meter(asset_library());
        ChooseOptions options;
        options.meter = clearances ? &meter : nullptr;
        plan = plan_day(s, options);
    });
    std::printf("%-44s %8.1f ms  %zu runs, %d changes\n", what, ms, plan.runs.size(), plan.changes);
}

void measure_clearance_goal(const char* what, double weight) {
    Setup s = problem({});
    s.choosing.goals.push_back({"clearance", 1.0, 0, weight});
    measure_choice(what, s, true);
}

void measure_rest() {
    Setup s = problem({});
    Setup wrong = s;
    wrong.left.shims.push_back(0.2);
    const Calculated c = calculate(wrong);
    for (const Reading& reading : readings_of(wrong, c.stack, c.stance, c.drive))
        if (reading.name.substr(0, 5) == "width")
            s.choosing.measured.push_back({std::string(reading.name), reading.value, 0.02, ""});
    std::size_t suspects = 0;
    const double diagnosis = median([&] { suspects = diagnose(s).suspects.size(); });
    std::printf("%-44s %8.1f ms  %zu suspects\n", "why what was measured differs", diagnosis,
                suspects);
    std::size_t adjusters = 0;
    const double effects = median([&] { adjusters = adjusters_of(s).size(); });
    std::printf("%-44s %8.1f ms  %zu adjusters\n", "effects of every adjuster", effects, adjusters);
}

}  // namespace

int main() {
    std::printf(
        "box of 40 shims of 8 thicknesses, 8 holders a side, 20 pinions, 6 spurs, 4 kinds of "
        "wheel, 10 of tyre\n");
    measure_choice("best ten, numbers only", problem({}), false);
    measure_choice("best ten with clearances (asked: 200 ms)", problem({}), true);
    measure_choice("the same with front and trades", problem({}), true, true);
    measure_plan("plan of 12 runs, numbers only", false);
    measure_plan("plan of 12 runs (asked: 100 ms)", true);
    measure_clearance_goal("a goal on clearances, weight 1", 1);
    measure_clearance_goal("a goal on clearances, weight 3", 3);
    measure_rest();
    measure_growth(false);
    measure_growth(true);
    return 0;
}
