#include "core/parameters.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "core/conflicts.hpp"

using namespace podwright;

TEST_CASE("every parameter is complete, in range and reachable") {
    std::set<std::string> keys;
    const Setup setup;
    for (const Parameter& p : parameters()) {
        INFO(p.key);
        CHECK(keys.insert(p.key).second);
        CHECK_FALSE(p.help.empty());
        CHECK(p.help.back() == '.');
        CHECK(find_parameter(p.key) == &p);
        if (p.kind == ValueKind::number || p.kind == ValueKind::choice) {
            CHECK(p.low < p.high);
            CHECK(p.step > 0);
            const auto now = p.get(setup);
            CHECK(now.has_value() != p.optional);
            if (now) {
                CHECK(*now >= p.low);
                CHECK(*now <= p.high);
            }
            Setup changed = setup;
            p.set(changed, p.high);
            CHECK(*p.get(changed) == Approx(p.high).epsilon(1e-12));
        }
        if (p.kind == ValueKind::list) {
            Setup changed = setup;
            p.set_list(changed, {0.25, 0.75});
            CHECK(p.get_list(changed) == std::vector<double>{0.25, 0.75});
        }
    }
}

TEST_CASE("each side's values are the same but for the side") {
    const Setup setup;
    for (const Parameter& p : parameters()) {
        const std::string other = other_side_key(p.key);
        if (other.empty()) continue;
        INFO(p.key);
        const Parameter* q = find_parameter(other);
        REQUIRE(q != nullptr);
        CHECK(q->low == p.low);
        CHECK(q->high == p.high);
        CHECK(q->unit == p.unit);
        if (p.kind == ValueKind::number) {
            Setup changed = setup;
            p.set(changed, p.high);
            CHECK(*q->get(changed) == *q->get(setup));
        }
    }
}

TEST_CASE("changes are made and kept in range") {
    const Change changes[] = {{"left.inset", 99, {}},
                              {"right.shims", 0, {0.1}},
                              {"no.such", 1, {}},
                              {"fits.axle", 0, {}, "H7/g6"}};
    const Setup after = with_changes(Setup{}, changes);
    CHECK(after.left.inset == 15);
    CHECK(after.right.shims == std::vector<double>{0.1});
    CHECK(after.right.inset == Setup{}.right.inset);
    CHECK(after.fits.axle == "H7/g6");
}

TEST_CASE("the default setup is free of conflicts and each conflict is found") {
    CHECK_FALSE(find_conflict(Setup{}));
    const auto blamed = [](const char* key, double value) {
        Setup s;
        find_parameter(key)->set(s, value);
        const auto conflict = find_conflict(s);
        return conflict ? conflict->key : std::string("none");
    };
    CHECK(blamed("bearing.outside", 7) == "bearing.bore");
    CHECK(blamed("axle.bore", 6.2) == "axle.bore");
    CHECK(blamed("left.seat", 20) == "left.seat");
    CHECK(blamed("right.holder_step", 3) == "right.holder_step");
    CHECK(blamed("left.rim_diameter", 42) == "left.tyre_diameter");
    CHECK(blamed("motor.slot_x", 12) == "motor.slot_x");
    CHECK(blamed("motor.slot_z", 8) == "motor.slot_z");
    CHECK(blamed("float.low", 0.9) == "float.low");
    CHECK(blamed("gears.pinion", 8) == "gears.pinion");
    CHECK(blamed("right.reach", 6) == "right.reach");
    CHECK(blamed("motor.can_length", 80) == "motor.can_length");
}
