#include "choose/diagnose.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "choose/limit.hpp"
#include "core/readings.hpp"
#include "random_setup.hpp"

// Against mistakes planted in invented setups, with noise of the stated uncertainty.
using namespace podwright;

namespace {

/// A setup in which every kind of mistake can be made.
Setup build() {
    Setup s;
    s.left.shims = {0.3, 0.2};
    s.right.shims = {0.5, 0.1};
    s.left.inset = -4.5;
    s.right.inset = -4.0;
    s.axial_float.blade = 0.15;
    return s;
}

double value(const Setup& s, const std::string& name) {
    const Calculated c = calculate(s);
    for (const Reading& r : readings_of(s, c.stack, c.stance, c.drive))
        if (r.name == name) return r.value;
    return NAN;
}

/// Normally distributed, by the sum of twelve uniform numbers.
double noise(RandomSetups& random) {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += random.between(0, 1);
    return sum;
}

}  // namespace

TEST_CASE("planted mistakes are found, and the further measurement separates what is equal") {
    RandomSetups random(31);
    const Setup today = build();
    int all = 0;
    int first = 0;
    int settled = 0;
    for (const Suspect& planted : single_mistakes(today, LengthUnit::mm))
        for (int repeat = 0; repeat < 10; ++repeat) {
            Setup s = today;
            for (const char* reading :
                 {"float.nominal", "width.left", "width.right", "ride.left", "ride.right"}) {
                const double u = 0.01;
                s.choosing.measured.push_back(
                    {reading, value(planted.setup, reading) + u * noise(random), u, "caliper"});
            }
            const Diagnosis d = diagnose(s);
            ++all;
            if (!d.disagrees || d.suspects.empty()) continue;
            if (d.suspects[0].text == planted.text) ++first;
            for (std::size_t i = 0; i < d.equal; ++i)
                if (d.suspects[i].text == planted.text) {
                    ++settled;
                    break;
                }
        }
    INFO(first << " first, " << settled << " among the equal, of " << all);
    CHECK(settled >= 0.95 * all);
    CHECK(first >= 0.8 * all);
}

TEST_CASE("where nothing disagrees nothing is suspected") {
    Setup s = build();
    s.choosing.measured = {{"width.overall", value(s, "width.overall") + 0.02, 0.02, ""}};
    const Diagnosis d = diagnose(s);
    CHECK(!d.disagrees);
    CHECK(d.suspects.empty());
}
