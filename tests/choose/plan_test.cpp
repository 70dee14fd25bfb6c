#include "choose/plan.hpp"

#include <catch2/catch.hpp>
#include <functional>

#include "file/asset_library.hpp"
#include "random_setup.hpp"

using namespace podwright;

namespace {

Setup random_day(RandomSetups& random) {
    Setup s;
    PartsBox& box = s.choosing.box;
    for (int i = 0; i < random.whole(1, 2); ++i)
        box.holders.push_back({0.5 * i + (random.whole(0, 1) ? 0.5 : 0.0), random.whole(1, 2)});
    for (int i = 0; i < random.whole(1, 3); ++i) box.pinions.push_back(32 + i);
    s.choosing.day.runs = random.whole(1, 3);
    s.choosing.day.wear_left = 0.05 * random.whole(1, 8);
    s.choosing.day.wear_right = random.whole(0, 1) ? *s.choosing.day.wear_left : 0.3;
    s.choosing.goals = {{"ride.rear", 3.5 + 0.1 * random.whole(0, 10), 0.2, 1},
                        {"gear.rollout", 58.0 + random.whole(0, 4), 1, 0.3}};
    s.event.ride_low = 3.4;
    s.event.roll_max = radians(1);
    return s;
}

}  // namespace

TEST_CASE("the plan of a short day costs what full enumeration finds") {
    RandomSetups random(21);
    for (int i = 0; i < 80; ++i) {
        const Setup s = random_day(random);
        const DayTable table(s, wear_of(s, Side::left), wear_of(s, Side::right),
                             s.choosing.day.runs);
        REQUIRE(table.runs() == s.choosing.day.runs);
        const auto cost_of = [&](const std::vector<std::size_t>& path) {
            PlanCost sum;
            for (std::size_t run = 0; run < path.size(); ++run) {
                sum = sum + table.cost(static_cast<int>(run) + 1, path[run]);
                sum.changes += run == 0 ? table.changes_from_today(path[0])
                                        : table.changes(path[run - 1], path[run]);
            }
            return sum;
        };
        std::optional<PlanCost> least;
        std::vector<std::size_t> path(static_cast<std::size_t>(table.runs()));
        const std::function<void(std::size_t)> go = [&](std::size_t run) {
            if (run == path.size()) {
                const PlanCost cost = cost_of(path);
                if (!least || cost < *least) least = cost;
                return;
            }
            for (std::size_t state = 0; state < table.states(); ++state) {
                path[run] = state;
                go(run + 1);
            }
        };
        go(0);
        CHECK(cost_of(table.best()) == *least);
    }
}

TEST_CASE("a plan's runs have the diameters of the day and the readings that they promise") {
    Setup s;
    s.choosing.box.holders = {{0, 2}, {0.5, 2}, {1.0, 2}};
    s.choosing.box.pinions = {33, 34, 35};
    s.choosing.day = {6, 0.3, 0.3, {}, {}};
    s.choosing.goals = {{"ride.rear", 3.9, 0.3, 1}};
    Meter meter(asset_library());
    ChooseOptions options;
    options.meter = &meter;
    const DayPlan plan = plan_day(s, options);
    REQUIRE(plan.runs.size() == 6);
    int changes = 0;
    for (const RunPlan& run : plan.runs) {
        CHECK(run.setup.left.tyre.diameter == Approx(43.0 - 0.3 * (run.run - 1)));
        CHECK(run.broken.empty());
        // Half of the diameter is the axle's height: derived from the stance's equations.
        const double z =
            18 + (run.setup.left.holder_way == Way::up ? 1 : -1) * run.setup.left.holder_step;
        CHECK(calculate(run.setup).stance.ride ==
              Approx(run.setup.left.tyre.diameter / 2 - z).margin(1e-9));
        CHECK(run.points == 0);
        changes += run.changes;
    }
    // 4.0 mm sinks by 0.15 a run: below 3.6 after the third, so holders of the next step, both
    // sides, once: 21.05 - 17.0 = 4.05.
    CHECK(changes == 2);
    CHECK(plan.changes == 2);
}

TEST_CASE("a day ends where the tyres are down to the rim") {
    Setup s;
    s.choosing.day = {40, 1.0, 1.0, {}, {}};
    const DayPlan plan = plan_day(s);
    CHECK(plan.runs_asked == 40);
    CHECK(plan.runs.size() == 11);  // 43 - 10 = 33 is 3 mm above the 30 mm rim; 32 is not
}

TEST_CASE("wear: the line of NIST's Norris data has the certified values") {
    // NIST Statistical Reference Datasets, linear regression, Norris: data and certified values.
    const double x[] = {0.2,   337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6,
                        777.0, 558.2, 0.4,   0.6,   775.5, 666.9, 338.0, 447.5, 11.6,
                        556.0, 228.1, 995.8, 887.6, 120.2, 0.3,   0.3,   556.8, 339.1,
                        887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
    const double y[] = {0.1,   338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1,
                        778.9, 559.2, 0.3,   0.1,   778.1, 668.8, 339.3, 448.9, 10.8,
                        557.7, 228.3, 998.0, 888.8, 119.6, 0.3,   0.6,   557.6, 339.3,
                        888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
    const Line line = fit_line(x, y);
    CHECK(line.intercept == Approx(-0.262323073774029).epsilon(1e-10));
    CHECK(line.slope == Approx(1.00211681802045).epsilon(1e-13));
    CHECK(line.intercept_deviation == Approx(0.232818234301152).epsilon(1e-10));
    CHECK(line.slope_deviation == Approx(0.429796848199937e-3).epsilon(1e-10));
    CHECK(line.residual_deviation == Approx(0.884796396144373).epsilon(1e-10));
}

TEST_CASE("wear is the given one, else the slope of the measured diameters") {
    Setup s;
    s.choosing.day.runs = 3;
    s.choosing.day.left = {43.0, 42.8, 42.6, 42.4};
    s.choosing.day.wear_right = 0.25;
    CHECK(wear_of(s, Side::left).per_run == Approx(0.2));
    CHECK(wear_of(s, Side::left).before(3) == Approx(42.6));
    CHECK(wear_of(s, Side::right).before(3) == Approx(42.5));
}
