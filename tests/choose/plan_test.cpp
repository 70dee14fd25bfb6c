#include "choose/plan.hpp"

#include <catch2/catch.hpp>
#include <functional>

#include "choose/room.hpp"
#include "evaluate/evaluate.hpp"
#include "file/asset_library.hpp"
#include "file/choose_report.hpp"
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

TEST_CASE("with clearances the plan is that of full enumeration that measures every choice") {
    RandomSetups random(22);
    int forbidden = 0;
    int days = 0;
    for (int i = 0; i < 16; ++i) {
        Setup s = random_day(random);
        s.choosing.day.runs = std::min(s.choosing.day.runs, 2);
        // The spur needs more room to the ground than some choices leave it.
        s.needs.turning_ground = 4.5 + 0.25 * random.whole(0, 6);
        const Wear left = wear_of(s, Side::left);
        const Wear right = wear_of(s, Side::right);
        DayTable table(s, left, right, s.choosing.day.runs);
        Meter meter(asset_library());
        Room room(meter);
        if (table.states() > 60) continue;
        ++days;
        for (int run = 1; run <= table.runs(); ++run)
            for (std::size_t state = 0; state < table.states(); ++state)
                if (!room.of(table.setup(run, state))) {
                    table.forbid(run, state);
                    ++forbidden;
                }
        std::optional<PlanCost> least;
        std::vector<std::size_t> path(static_cast<std::size_t>(table.runs()));
        const std::function<void(std::size_t, PlanCost)> go = [&](std::size_t run, PlanCost sum) {
            if (run == path.size()) {
                if (!least || sum < *least) least = sum;
                return;
            }
            for (std::size_t state = 0; state < table.states(); ++state) {
                PlanCost next = sum + table.cost(static_cast<int>(run) + 1, state);
                next.changes += run == 0 ? table.changes_from_today(state)
                                         : table.changes(path[run - 1], state);
                path[run] = state;
                go(run + 1, next);
            }
        };
        go(0, {});
        Meter fresh(asset_library());
        ChooseOptions options;
        options.meter = &fresh;
        const DayPlan plan = plan_day(s, options);
        REQUIRE(static_cast<int>(plan.runs.size()) == table.runs());
        CHECK(plan.changes == least->changes);
        std::int64_t too_close = 0;
        for (const RunPlan& run : plan.runs) too_close += run.broken.has(Limit::clearances) ? 1 : 0;
        // What is too close costs 2^45 in the table, what cannot be built 2^50.
        CHECK(too_close == (least->points >> 45) % 32);
    }
    CHECK(days > 8);
    CHECK(forbidden > 50);
}

TEST_CASE("a run that is evaluated from scratch gives the readings and limits that it promised") {
    RandomSetups random(23);
    int clear = 0, touching = 0, out_of_limits = 0;
    for (int i = 0; i < 8; ++i) {
        Setup s = random_day(random);
        // On some days the spur needs more room to the ground than a run can leave it.
        if (i % 2 == 1) s.needs.turning_ground = 5 + 0.25 * i;
        Meter meter(asset_library());
        ChooseOptions options;
        options.meter = &meter;
        for (const RunPlan& run : plan_day(s, options).runs) {
            Meter fresh(asset_library());
            Asked asked;
            asked.meter = &fresh;
            const Evaluation e = evaluate(run.setup, asked);
            const Stance stance = calculate(run.setup).stance;
            CHECK(e.reading("ride.rear")->value == stance.ride);
            bool contact = false;
            for (const Finding& f : e.findings)
                contact = contact || f.code == "contact" || f.code == "close";
            ++(contact ? touching : clear);
            CHECK(contact == run.broken.has(Limit::clearances));
            out_of_limits += run.broken.has(Limit::ride) ? 1 : 0;
            CHECK(run.broken.has(Limit::ride) ==
                  (e.reading("ride.rear")->status >= Status::caution));
        }
    }
    CHECK(clear > 5);
    CHECK(touching > 2);
    CHECK(out_of_limits > 0);
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
    // That a run is planned down to 3 mm of foam is the program's own choice: 43 - 10 = 33 is 3 mm
    // above the 30 mm rim; 32 is not.
    CHECK(plan.runs.size() == 11);
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

TEST_CASE("diameters that grow are no wear, and that is said") {
    Setup s;
    s.choosing.day.runs = 3;
    s.choosing.day.left = {42, 43, 44};
    s.choosing.day.right = {43.0, 42.8, 42.6};
    const Wear left = wear_of(s, Side::left);
    CHECK(left.per_run == 0);
    CHECK(left.growing);
    CHECK(left.before(1) == Approx(43));  // the mean: nothing tells one of them from another
    CHECK(left.before(3) == Approx(43));
    CHECK_FALSE(wear_of(s, Side::right).growing);
    const auto said = caveats(plan_day(s), LengthUnit::mm);
    REQUIRE(said.size() == 1);
    CHECK(said[0].find("left tyre as measured does not shrink") != std::string::npos);
    CHECK(said[0].find("43.00 mm") != std::string::npos);
    const std::string text = plan_text(s, plan_day(s), false);
    CHECK(text.find("0.00 mm a run") == std::string::npos);
    CHECK(text.find("no wear") != std::string::npos);
}

TEST_CASE("a day without wear says that its runs are the same, and how to state it") {
    Setup s;
    s.choosing.day.runs = 3;
    auto said = caveats(plan_day(s), LengthUnit::mm);
    REQUIRE(said.size() == 2);
    CHECK(said[0].find("No wear is stated") == 0);
    CHECK(said[0].find("as wear_left and wear_right under [day]") != std::string::npos);
    CHECK(said[1] == "Without wear every run is the same.");
    s.choosing.day.wear_left = 0.2;
    said = caveats(plan_day(s), LengthUnit::mm);
    REQUIRE(said.size() == 1);
    CHECK(said[0].find("No wear of the right tyre is stated") == 0);
    CHECK(said[0].find("as wear_right under [day]") != std::string::npos);
    s.choosing.day.wear_right = 0.2;
    CHECK(caveats(plan_day(s), LengthUnit::mm).empty());
}

TEST_CASE("points of a day count what no holder and no pinion mends") {
    Setup s;
    s.choosing.day = {2, 0.2, 0.2, {}, {}};
    s.event.shift_max = 0.05;
    s.left.shims.push_back(0.5);  // a shift of 0.25 mm
    const DayPlan plan = plan_day(s);
    REQUIRE(plan.runs.size() == 2);
    CHECK(plan.runs[0].broken.has(Limit::shift));
    // 1000 points for each mm beyond the limit, each run: derived, 0.25 - 0.05.
    CHECK(plan.points == Approx(2 * 200).margin(1e-3));
    CHECK(plan.fixed_points == plan.points);
    CHECK(broken_runs(plan) == 2);
    CHECK(plan_text(s, plan, false).find("2 of 2 runs break a limit") != std::string::npos);
}
