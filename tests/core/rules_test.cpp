#include "core/rules.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/parameters.hpp"
#include "evaluate/evaluate.hpp"

// Limits and margins are derived from the setups' own numbers; the rules are invented.
using namespace podwright;

namespace {

bool has(const Evaluation& e, const std::string& code) {
    for (const Finding& f : e.findings)
        if (f.code == code) return true;
    return false;
}

Evaluation with_rule(Setup setup, const EventRule& rule) {
    setup.choosing.rules = {rule};
    return evaluate(setup);
}

}  // namespace

TEST_CASE("a rule holds on one side of its limit, at the limit, and not on the other side") {
    const Setup setup;
    const Evaluation plain = evaluate(setup);
    constexpr double step = 1e-3;
    int rules = 0;
    const auto both_sides_of = [&](const std::string& of, double value) {
        INFO(of << " " << value);
        ++rules;
        for (const double by : {-step, 0.0, step}) {
            // The value lies `by` above the low limit, and below the high one.
            const Evaluation low = with_rule(setup, {of, value - by, {}, "page 1"});
            const Evaluation high = with_rule(setup, {of, {}, value + by, "page 1"});
            CHECK(has(low, "rule.broken") == (by < 0));
            CHECK(has(high, "rule.broken") == (by < 0));
            Setup ruled = setup;
            ruled.choosing.rules = {{of, value - by, value + 2 * step, "page 1"}};
            const auto states = rule_states(ruled, plain.readings);
            REQUIRE(states.size() == 1);
            REQUIRE(states[0].value);
            CHECK(states[0].margin == Approx(by).margin(1e-9));
            CHECK(states[0].broken() == (by < 0));
        }
    };
    // What the program can be asked for in a rule: readings without feel, and every number.
    for (const Reading& reading : plain.readings)
        if (std::isfinite(reading.value)) both_sides_of(std::string(reading.name), reading.value);
    for (const Parameter& p : parameters())
        if (p.kind == ValueKind::number && !p.optional && p.get(setup))
            both_sides_of(p.key, *p.get(setup));
    CHECK(rules > 120);
}

TEST_CASE("a broken rule says by how much, and where it stands") {
    const Setup setup;
    const double width = evaluate(setup).reading("width.overall")->value;
    const Evaluation e = with_rule(setup, {"width.overall", {}, width - 0.25, "sheet 2.1"});
    const auto found = std::find_if(e.findings.begin(), e.findings.end(),
                                    [](const Finding& f) { return f.code == "rule.broken"; });
    REQUIRE(found != e.findings.end());
    CHECK(found->level == Level::stop);
    CHECK(found->text.find("0.25 mm more than") != std::string::npos);
    CHECK(found->text.find("(sheet 2.1)") != std::string::npos);
    CHECK(found->fix.find("own rulebook decides") != std::string::npos);
}

TEST_CASE("a box that lacks what is on the car is said, to the piece") {
    Setup setup;  // two 0.3 and two 0.2 mm shims, two 0.5 mm holders
    setup.choosing.box.shims = {{0.3, 2}, {0.2, 2}};
    CHECK_FALSE(has(evaluate(setup), "box.short"));
    setup.choosing.box.shims = {{0.3, 2}, {0.2, 1}};
    CHECK(has(evaluate(setup), "box.short"));
    setup.choosing.box = {};
    setup.choosing.box.holders = {{0.5, 2}};
    CHECK_FALSE(has(evaluate(setup), "box.short"));
    setup.choosing.box.holders = {{0.5, 1}};
    CHECK(has(evaluate(setup), "box.short"));
    setup.choosing.box = {};
    setup.choosing.box.pinions = {33, 35};
    CHECK(has(evaluate(setup), "box.short"));
}
