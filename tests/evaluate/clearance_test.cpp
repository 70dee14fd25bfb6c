#include "gap/clearance.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "evaluate/evaluate.hpp"
#include "file/asset_library.hpp"
#include "gap/fit.hpp"
#include "random_setup.hpp"

using namespace podwright;

namespace {

constexpr std::uint64_t seed = 61803;

const Clearance* find(const std::vector<Clearance>& all, const std::string& a,
                      const std::string& b) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Clearance& c) {
        return (c.a == a && c.b == b) || (c.a == b && c.b == a);
    });
    return found == all.end() ? nullptr : &*found;
}

Evaluation measured_evaluation(const Setup& setup, Meter& meter) {
    Asked asked;
    asked.meter = &meter;
    return evaluate(setup, asked);
}

/// The default car with the motor's can `gap` away from the axle's waist.
Setup can_to_axle(double gap) {
    Setup setup;
    const Drive drive = evaluate(setup).drive;
    // Common practice, no source: centre distance less can radius less axle radius.
    setup.motor.can_diameter = 2 * (drive.mesh.distance - setup.axle.waist / 2 - gap);
    return setup;
}

}  // namespace

TEST_CASE("what is meant to touch is declared, whichever part is named first") {
    const Assembly assembly = evaluate(Setup{}).assembly;
    const auto fit = [&](const char* a, const char* b) {
        const Fit one = fit_between(assembly, *assembly.find(a), *assembly.find(b));
        CHECK(one == fit_between(assembly, *assembly.find(b), *assembly.find(a)));
        return one;
    };
    // Facts of how such an axle is built: common practice, no source.
    CHECK(fit("left.bearing", "left.holder") == Fit::sliding);
    CHECK(fit("left.bearing", "left.shim.1") == Fit::touching);
    CHECK(fit("left.shim.1", "left.shim.2") == Fit::touching);
    CHECK(fit("left.shim.2", "left.hub") == Fit::touching);
    CHECK(fit("right.shim.2", "carrier") == Fit::touching);
    CHECK(fit("left.bearing", "left.shim.2") == Fit::clearance);
    CHECK(fit("left.shim.1", "left.hub") == Fit::clearance);
    CHECK(fit("axle", "right.bearing") == Fit::sliding);
    CHECK(fit("axle", "left.hub") == Fit::fixed);
    CHECK(fit("right.wheel", "right.tyre") == Fit::fixed);
    CHECK(fit("spur", "pinion") == Fit::meshing);
    CHECK(fit("left.bearing", "right.holder") == Fit::clearance);
    CHECK(fit("left.tyre", "pod.left") == Fit::clearance);
    CHECK(fit("axle", "motor") == Fit::clearance);
    CHECK(word(Fit::fixed) != word(Fit::touching));
}

TEST_CASE("every pair of parts has a fit or a clearance, however far apart") {
    Meter meter(asset_library());
    Asked asked;
    asked.meter = &meter;
    asked.horizon = 1e9;
    const Setup setup;
    const Evaluation e = evaluate(setup, asked);
    const std::vector<MeantFit> fits = fits_of(e.assembly);
    const auto& parts = e.assembly.parts;
    for (std::size_t i = 0; i < parts.size(); ++i)
        for (std::size_t j = i + 1; j < parts.size(); ++j) {
            if (parts[i].key == "blade" || parts[j].key == "blade") continue;
            INFO(parts[i].key << " / " << parts[j].key);
            const bool meant = std::any_of(fits.begin(), fits.end(), [&](const MeantFit& fit) {
                return fit.a == parts[i].key && fit.b == parts[j].key;
            });
            CHECK(meant == (find(e.clearances, parts[i].key, parts[j].key) == nullptr));
        }
    // The same numbers for the near ones as with the usual horizon.
    Meter other(asset_library());
    for (const Clearance& near : measured_evaluation(setup, other).clearances) {
        const Clearance* c = find(e.clearances, near.a, near.b);
        INFO(near.a << " / " << near.b);
        REQUIRE(c != nullptr);
        CHECK(c->worst.gap == Approx(near.worst.gap).margin(1e-12));
    }
    CHECK(fit_word({0.02, {}, {}, {}}) == "clearance");
    CHECK(fit_word({0, {}, {}, {}}) == "touching");
    CHECK(fit_word({-0.02, {}, {}, {}}) == "interference");
}

TEST_CASE("each kind of pair has its need") {
    Needs needs;
    needs.turning_fixed = 1;
    needs.turning_ground = 2;
    needs.gear = 3;
    needs.hub_holder = 4;
    needs.tyre_pod = 5;
    const Assembly assembly = evaluate(Setup{}).assembly;
    const auto need = [&](const char* a, const char* b) {
        return need_between(needs, *assembly.find(a), *assembly.find(b));
    };
    CHECK(need("axle", "motor") == 1);
    CHECK(need("spur", "pod.right") == 3);
    CHECK(need("pinion", "right.tyre") == 3);
    CHECK(need("left.hub", "left.holder") == 4);
    CHECK(need("carrier", "right.bearing") == 4);
    CHECK(need("left.tyre", "pod.left") == 5);
    CHECK(need("pod.floor", "motor") == 0);     // nothing moves between them
    CHECK(need("left.hub", "left.tyre") == 0);  // they turn together
    CHECK(need_to_ground(needs, *assembly.find("spur")) == 2);
    CHECK(need_to_ground(needs, *assembly.find("pod.floor")) == 0);
}

TEST_CASE("clearances that can be written down by hand") {
    const Setup setup;
    Meter meter(asset_library());
    const Evaluation e = measured_evaluation(setup, meter);
    const Clearance* can = find(e.clearances, "axle", "motor");
    REQUIRE(can != nullptr);
    CHECK(can->now.gap ==
          Approx(e.drive.mesh.distance - setup.motor.can_diameter / 2 - setup.axle.waist / 2)
              .margin(1e-9));
    const Clearance* spur = find(e.clearances, "spur", ground_key);
    REQUIRE(spur != nullptr);
    // Axle height less the outside radius, at the turn where a tooth points down; the ground falls
    // away from the axle by the rake, which changes it by less than a hundredth.
    const double radius = diameters(e.drive.spur).outside / 2;
    CHECK(spur->now.gap >= e.stance.axle_height - radius - 0.01);
    CHECK(spur->now.gap == Approx(e.stance.axle_height - radius).margin(0.05));
}

TEST_CASE("contact by 0.02 mm is found, and 0.02 mm of room is not taken for contact") {
    Meter meter(asset_library());
    for (const double gap : {-0.02, 0.02}) {
        const Setup setup = can_to_axle(gap);
        REQUIRE_FALSE(find_conflict(setup));
        const Evaluation e = measured_evaluation(setup, meter);
        const Clearance* can = find(e.clearances, "axle", "motor");
        REQUIRE(can != nullptr);
        CHECK(can->now.gap == Approx(gap).margin(1e-6));
        const auto code = gap < 0 ? "contact" : "close";
        const auto finding =
            std::find_if(e.findings.begin(), e.findings.end(), [&](const Finding& f) {
                return f.code == code && f.parts == std::vector<std::string>{"axle", "motor"};
            });
        REQUIRE(finding != e.findings.end());
        CHECK(finding->level == (gap < 0 ? Level::stop : Level::caution));
        CHECK(finding->text.find("0.02 mm") != std::string::npos);

        // The fix makes the room that was needed.
        REQUIRE_FALSE(finding->changes.empty());
        const Evaluation after = measured_evaluation(with_changes(setup, finding->changes), meter);
        const Clearance* mended = find(after.clearances, "axle", "motor");
        REQUIRE(mended != nullptr);
        CHECK(mended->worst.gap >= mended->need - 1e-9);
    }
}

TEST_CASE("where the axle binds no shim is added to make room") {
    Setup setup;
    setup.axial_float.set_by = FloatBy::shoulder;
    setup.axial_float.shoulder = evaluate(setup).stack.thrust_faces - 0.7;
    Meter meter(asset_library());
    const Evaluation e = measured_evaluation(setup, meter);
    int contacts = 0;
    for (const Finding& f : e.findings) {
        if (f.code != "contact" && f.code != "close") continue;
        ++contacts;
        INFO(f.text);
        CHECK(f.changes.empty());
        CHECK(f.fix.find("it binds") != std::string::npos);
    }
    CHECK(contacts > 0);
}

TEST_CASE("a fix by holders names both where they differ, and keeps what it promises") {
    Setup setup;
    setup.left.holder_step = 0.5;
    setup.left.holder_way = Way::up;
    setup.right.holder_step = 1;
    setup.right.holder_way = Way::up;
    setup.needs.roll = radians(3);
    Meter meter(asset_library());
    const Evaluation e = measured_evaluation(setup, meter);
    int holders = 0;
    for (const Finding& f : e.findings) {
        if (f.fix.rfind("Fit holders of", 0) != 0) continue;
        ++holders;
        const Setup after = with_changes(setup, f.changes);
        for (const Side side : both_sides) {
            const AxleSide& now = after.side(side);
            const std::string named = length(now.holder_step, LengthUnit::mm) +
                                      (now.holder_step == 0          ? ""
                                       : now.holder_way == Way::down ? " down"
                                                                     : " up") +
                                      (side == Side::left ? " on the left" : " on the right");
            INFO(f.fix);
            CHECK(f.fix.find(named) != std::string::npos);
        }
        const Evaluation mended = measured_evaluation(after, meter);
        const Clearance* c =
            find(mended.clearances, f.parts[0], f.parts.size() > 1 ? f.parts[1] : ground_key);
        REQUIRE(c != nullptr);
        CHECK(f.fix.find(length(c->worst.gap, LengthUnit::mm) + " then") != std::string::npos);
    }
    CHECK(holders > 0);
}

TEST_CASE("the envelope is never above what any pose shows") {
    RandomSetups random(seed);
    Meter meter(asset_library());
    for (int n = 0; n < 4; ++n) {
        const Setup setup = n == 0 ? Setup{} : random.next();
        const Evaluation e = evaluate(setup);
        const std::vector<Clearance> all = meter.clearances(setup, e.assembly);
        REQUIRE(all.size() > 20);
        for (const double along : {-1.0, -0.4, 0.3, 1.0})
            for (const double turn : {0.0, 0.7, 2.1}) {
                const std::vector<Clearance> posed =
                    meter.clearances(setup, e.assembly, {along, turn, 0});
                for (const Clearance& c : posed) {
                    const Clearance* whole = find(all, c.a, c.b);
                    if (!whole) continue;  // beyond the horizon there
                    INFO("setup " << n << ": " << c.a << " / " << c.b << " at " << along << ", "
                                  << turn);
                    CHECK(c.now.gap >= whole->worst.gap - 1e-6);
                }
            }
    }
}

TEST_CASE("the envelope is sharp where the shapes are round") {
    // For bodies of revolution no turn matters, and along the float the ends are enough by hand.
    Meter meter(asset_library());
    const Setup setup;
    const Evaluation e = evaluate(setup);
    const std::vector<Clearance> all = meter.clearances(setup, e.assembly);
    for (const auto& [a, b] : {std::pair{"axle", "motor"},
                               {"right.holder", "carrier"},
                               {"left.bearing", "left.hub"},
                               {"right.tyre", "motor"}}) {
        const Clearance* c = find(all, a, b);
        INFO(a << " / " << b);
        REQUIRE(c != nullptr);
        double least = 1e300;
        for (int i = -20; i <= 20; ++i)
            for (const Clearance& p : meter.clearances(setup, e.assembly, {i / 20.0, 0, 0}))
                if (p.a == c->a && p.b == c->b) least = std::min(least, p.now.gap);
        CHECK(c->worst.gap <= least + 1e-9);
        CHECK(c->worst.gap >= least - 0.01);
    }
}

TEST_CASE("over the ground the envelope holds every wear and roll") {
    Setup setup;
    Meter meter(asset_library());
    const Evaluation e = evaluate(setup);
    const Clearance whole = meter.clearance(setup, e.assembly, "spur", ground_key);
    double least = 1e300;
    for (double left = 40; left <= 43; left += 0.5)
        for (double right = 40; right <= 43; right += 0.5) {
            Setup worn = setup;
            worn.left.tyre.diameter = left;
            worn.right.tyre.diameter = right;
            const Evaluation now = evaluate(worn);
            for (double roll = -1; roll <= 1; roll += 0.25) {
                // Height of the spur's lowest points, by hand: the circles at the ends of its face
                // of 4 mm stand square to the axle. It floats by 0.075 mm to either side.
                const double lean = now.stance.roll + radians(roll);
                for (const double along : {-2.075, 2.075}) {
                    const double y = -now.drive.gear_u + along;
                    const double height = now.stance.axle_z(y) -
                                          diameters(now.drive.spur).outside / 2 +
                                          now.stance.ride_at(0, 0) + y * std::tan(lean);
                    least = std::min(least, height * std::cos(lean));
                }
            }
        }
    // The envelope is found to 0.02 mm.
    CHECK(whole.worst.gap <= least + 0.01);
    CHECK(whole.worst.gap >= least - 0.02);
    CHECK(whole.when.worn_right);
}

TEST_CASE("a meter's answers do not depend on what it measured before") {
    RandomSetups random(seed + 1);
    Meter used(asset_library());
    int checked = 0;
    for (int n = 0; n < 6; ++n) {
        Setup setup = random.next();
        setup.right.holder_step = setup.left.holder_step;  // a level axle: measured in no time
        setup.right.holder_way = setup.left.holder_way;
        if (find_conflict(setup)) continue;
        ++checked;
        const Assembly assembly = evaluate(setup).assembly;
        Meter fresh(asset_library());
        const auto a = used.clearances(setup, assembly);
        const auto b = fresh.clearances(setup, assembly);
        REQUIRE(a.size() == b.size());
        for (std::size_t i = 0; i < a.size(); ++i) {
            CHECK(a[i].a == b[i].a);
            CHECK(a[i].b == b[i].b);
            CHECK(a[i].now.gap == b[i].now.gap);
            CHECK(a[i].worst.gap == b[i].worst.gap);
        }
    }
    CHECK(checked > 3);
}

TEST_CASE("the worst case is said in words") {
    CHECK(words({}) == "as it stands");
    CHECK(words({-1, true, true, true, radians(-1.5)}) ==
          "axle at the right end of its float, at some turn, worn tyres, 1.5 deg of roll to the "
          "left");
    CHECK(words({0, false, false, true, 0}) == "worn right tyre");
}
