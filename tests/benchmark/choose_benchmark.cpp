#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>
#include <vector>

#include "choose/choose.hpp"
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

void measure(const char* what, const Size& size, bool clearances) {
    const Setup s = problem(size);
    std::vector<double> times;
    Choice choice;
    for (int i = 0; i < 5; ++i) {
        Meter meter(asset_library());
        ChooseOptions options;
        options.meter = clearances ? &meter : nullptr;
        options.front = false;
        const auto start = Clock::now();
        choice = choose(s, options);
        times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
    }
    std::sort(times.begin(), times.end());
    std::printf("%-34s %8.1f ms   %9.2e builds, %6zu looked at, %4zu measured, %2zu answers\n",
                what, times[2], choice.combinations, choice.looked_at, choice.measured,
                choice.best.size());
}

}  // namespace

int main() {
    measure("best ten, numbers only", {}, false);
    measure("best ten with clearances", {}, true);
    for (const bool clearances : {false, true}) {
        std::printf("%s\n", clearances ? "with clearances" : "numbers only");
        measure("shims doubled", {16, 8, 20, 6, 4, 10}, clearances);
        measure("holders doubled", {8, 13, 20, 6, 4, 10}, clearances);
        measure("pinions doubled", {8, 8, 40, 6, 4, 10}, clearances);
        measure("spurs doubled", {8, 8, 20, 12, 4, 10}, clearances);
        measure("wheels doubled", {8, 8, 20, 6, 8, 10}, clearances);
        measure("tyres doubled", {8, 8, 20, 6, 4, 20}, clearances);
    }
    return 0;
}
