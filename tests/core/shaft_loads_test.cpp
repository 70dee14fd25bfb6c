#include "core/shaft_loads.hpp"

#include <catch2/catch.hpp>

#include "core/axle_compare.hpp"
#include "core/shaft_study.hpp"
#include "core/units.hpp"

using namespace podwright;

namespace {

struct Calculated {
    Setup setup;
    Stack stack;
    Stance stance;
    Drive drive;
    explicit Calculated(const Setup& s)
        : setup(s),
          stack(stack_of(s)),
          stance(stance_of(s, stack)),
          drive(drive_of(s, stack, stance)) {}
    CaseLoads loads(LoadCase which) const { return case_loads(which, setup, stack, stance, drive); }
    std::vector<ShaftLoad> on_shaft(LoadCase which) const {
        return shaft_loads(loads(which), shaft_places(setup, stack, drive), setup, stance, drive);
    }
};

/// Plain wheels and an axle, so that the study needs no solids.
TurningMass simple_mass() {
    TurningMass t;
    t.parts = {{"axle", 0.016, 0.1, 20, 0},       {"left.wheel", 0.01, 2, 2, 65},
               {"right.wheel", 0.01, 2, 2, -65},  {"spur", 0.004, 0.3, 0.2, -37},
               {"left.hub", 0.005, 0.2, 0.2, 45}, {"carrier", 0.005, 0.2, 0.2, -45}};
    t.rotor = 0.8;
    sum_up(t, 76.0 / 34, 21.5);
    return t;
}

}  // namespace

TEST_CASE("load transfer") {
    // dFz = m a h / t: Automotive Chassis Engineering p.174 (fliphtml5.com/osspz/szqt/185), a 0.6 x
    // 9.81, t 1.46 m; its own sum of 1556, 195 and 158 is misprinted as 1919: it is 1909.
    const double g = 0.6 * 9.81 / standard_gravity;
    CHECK(load_transfer(1280 * 0.54, g, 70, 1460) == Approx(195.0604).epsilon(1e-6));
    CHECK(load_transfer(1280 * 0.46, g, 320, 1460) == Approx(759.6004).epsilon(1e-6));
    CHECK(load_transfer(140, g, 280, 1460) == Approx(158.0351).epsilon(1e-6));
    CHECK(load_transfer(180, g, 300, 1460) == Approx(217.7014).epsilon(1e-6));
    // 1.6 kg, 0.9 x 9.81, h 45, t 170 mm -> 3.739341176 N (derived by the same formula).
    CHECK(load_transfer(1.6, 0.9 * 9.81 / standard_gravity, 45, 170) ==
          Approx(3.739341176).epsilon(1e-9));
}

TEST_CASE("corner loads are in balance and lift the inner wheel at the right acceleration") {
    Setup s;
    const Calculated c(s);
    const CaseLoads left = c.loads(LoadCase::corner_left), right = c.loads(LoadCase::corner_right);
    const double weight = s.left.tyre.load + s.right.tyre.load;
    CHECK(left.left.vertical + left.right.vertical == Approx(weight));
    CHECK(left.right.vertical > left.left.vertical);  // the right wheel is outside
    CHECK(left.thrust == Approx(weight * s.cases.lateral));
    CHECK(right.thrust == Approx(-left.thrust));
    CHECK(right.left.vertical == Approx(left.right.vertical));
    // Two-wheel lift at ay/g = t/(2h) (derived): just below it loads, just above it lifts.
    s.cases.lateral = 0.999 * c.stack.track / (2 * s.car.cg_height);
    CHECK(Calculated(s).loads(LoadCase::corner_left).left.vertical > 0);
    s.cases.lateral = 1.001 * c.stack.track / (2 * s.car.cg_height);
    CHECK(Calculated(s).loads(LoadCase::corner_left).left.vertical == 0);
}

TEST_CASE("loads on the shaft balance the ground's and the gear's") {
    const Calculated c{Setup{}};
    // Launch: torque in equals torque out; the gear's force has the size T / (r cos a_w).
    const auto launch = c.on_shaft(LoadCase::launch);
    double torque = 0;
    for (const ShaftLoad& load : launch) torque += load.torque;
    CHECK(torque == Approx(0).margin(1e-9));
    const double T = 60 * 76.0 / 34;
    const double radius = c.drive.mesh.distance * 76 / 110;
    REQUIRE(launch.size() == 3);
    CHECK(std::hypot(launch[2].force_x, launch[2].force_z) ==
          Approx(T / radius / std::cos(c.drive.mesh.pressure_angle)).epsilon(1e-9));
    // The moment of that force about the axle, from the mesh point, is T (derived).
    const SlotPoint motor = slot_point(c.setup.motor, c.drive.slot.position);
    const double rx = radius * motor.x / c.drive.mesh.distance;
    const double rz = radius * (motor.z - c.drive.axle_z) / c.drive.mesh.distance;
    CHECK(rz * launch[2].force_x - rx * launch[2].force_z == Approx(T).epsilon(1e-9));
    // The pinion pushes the spur away from the motor.
    CHECK(rx * launch[2].force_x + rz * launch[2].force_z < 0);

    // A corner: the lateral force a radius below the axle is a couple on the hub.
    const CaseLoads corner = c.loads(LoadCase::corner_left);
    const auto on = c.on_shaft(LoadCase::corner_left);
    const double beyond = c.stack.left.wheel - c.stack.left.mounting;
    CHECK(on[0].couple_z == Approx(corner.left.vertical * beyond + corner.left.lateral * 21.5));
    CHECK(on[1].couple_z == Approx(-corner.right.vertical * beyond + corner.right.lateral * 21.5));

    // A kerb: the static factor, on one wheel.
    const CaseLoads kerb = c.loads(LoadCase::kerb_right);
    CHECK(kerb.right.vertical == Approx(5 * 4.0));
    CHECK(kerb.left.vertical == Approx(4.0));
}

TEST_CASE("the study finds what beams by hand give") {
    const Calculated c{Setup{}};
    const ShaftStudy study = study_shaft(c.setup, c.stack, c.stance, c.drive, simple_mass());
    REQUIRE(study.cases.size() == all_load_cases.size());
    // At rest, symmetric: reactions are the wheels' loads, moment at the bearing load x arm.
    const SolvedCase& rest = study.solved(LoadCase::rest);
    CHECK(rest.state.reaction_left[1] == Approx(-4).epsilon(1e-9));
    CHECK(rest.state.reaction_right[1] == Approx(-4).epsilon(1e-9));
    const double arm = study.places.wheel_left - study.places.bearing_left;
    double most = 0;
    for (const ShaftCut& cut : rest.state.cuts) most = std::max(most, std::abs(cut.moment_z));
    CHECK(most == Approx(4 * arm).epsilon(1e-9));
    // The kerb is the worst for stress, by far the greatest load.
    CHECK((study.worst_case == LoadCase::kerb_left || study.worst_case == LoadCase::kerb_right));
    // Wind-up by hand: T/2 L/(G J) over waist and ends, from the spur to each hub.
    const Shaft shaft = axle_shaft(c.setup, c.stack);
    const auto flexible = [&](double low, double high) {
        double sum = 0;
        for (const ShaftSection& s : shaft.sections) {
            const double from = std::max(s.from, low), to = std::min(s.to, high);
            if (to > from) sum += (to - from) / (80000 * s.polar_moment());
        }
        return sum;
    };
    const double left = flexible(study.places.gear, study.places.hub_left);
    const double right = flexible(study.places.hub_right, study.places.gear);
    const double at_axle = 60 * 76.0 / 34;
    CHECK(study.windup_left == Approx(at_axle / 2 * left).epsilon(1e-9));
    CHECK(study.windup_right == Approx(at_axle / 2 * right).epsilon(1e-9));
    CHECK(study.windup_left > 3 * study.windup_right);
    CHECK(study.windup_lead ==
          Approx((study.windup_left - study.windup_right) * 21.5).epsilon(1e-12));
    CHECK(study.windup_yaw == Approx(std::atan(study.windup_lead / c.stack.track)).epsilon(1e-12));
    CHECK(study.windup_yaw > 0);
    // Torsion: wheel and hub, spur and rotor (seen through the gears), wheel and carrier, on those
    // two springs.
    const double rotor = 0.8 * (76.0 / 34) * (76.0 / 34) + 0.3;
    const auto torsion = torsional_frequencies({2 + 0.2, rotor, 2 + 0.2}, 1 / left, 1 / right);
    CHECK(study.torsion_low == Approx(torsion[0] / (2 * pi)).epsilon(1e-9));
    CHECK(study.torsion_high == Approx(torsion[1] / (2 * pi)).epsilon(1e-9));
    CHECK(study.bending_speed == Approx(60 * study.bending_frequency).epsilon(1e-12));
}

TEST_CASE("the bending speed of heavy wheels by hand") {
    // Derived. An axle without a waist, and wheels so heavy that the axle's own mass does not
    // count: both go up together. Each is a mass on a rigid lever e from the hub out to its centre;
    // of two equal overhung loads each newton lifts it by c = a²(3L+2a)/(6EI) + 2 e a(L+a)/(2EI) +
    // e²(L+2a)/(2EI), and shear of the overhang adds a/(kappa G A).
    Setup s;
    s.axle.waist = s.axle.diameter;
    const Calculated calculated(s);
    constexpr double kg = 20;
    TurningMass heavy;
    heavy.parts = {{"left.wheel", kg, 2, 0, calculated.stack.left.wheel},
                   {"right.wheel", kg, 2, 0, -calculated.stack.right.wheel}};
    heavy.rotor = 0.8;
    sum_up(heavy, 76.0 / 34, 21.5);
    const ShaftStudy study =
        study_shaft(s, calculated.stack, calculated.stance, calculated.drive, heavy);
    const double b = 31 + 0.9144 - 3.175 / 2, L = 2 * b;
    const double a = calculated.stack.left.mounting - b;
    const double e = calculated.stack.left.wheel - calculated.stack.left.mounting;
    const ShaftSection section{0, 1, 6.35, 4};
    const double EI = 205000 * section.second_moment();
    const ShaftMaterial steel{205000, 80000, 0, 460, 460 / std::sqrt(3.0)};
    const double c = a * a * (3 * L + 2 * a) / (6 * EI) + 2 * e * a * (L + a) / (2 * EI) +
                     e * e * (L + 2 * a) / (2 * EI) +
                     a / (shear_coefficient(section, steel) * 80000 * section.area());
    const double by_hand = std::sqrt(1000 / (kg * c)) / (2 * pi);
    CHECK(study.bending_frequency == Approx(by_hand).epsilon(1e-3));
    CHECK(study.bending_frequency < by_hand);
    CHECK(study.bending_speed == Approx(60 * by_hand).epsilon(1e-3));
}

TEST_CASE("curves follow the states") {
    const Calculated c{Setup{}};
    const ShaftStudy study = study_shaft(c.setup, c.stack, c.stance, c.drive, simple_mass());
    const ShaftModel model = shaft_model(c.setup, c.stack, c.drive);
    const SolvedCase& corner = study.solved(LoadCase::corner_left);
    const ShaftCurves curves = shaft_curves(model, corner, study.places, 201);
    REQUIRE(curves.y.size() == 201);
    double least = 1e9;
    for (std::size_t i = 0; i < curves.y.size(); ++i)
        if (std::abs(curves.y[i] - study.places.bearing_left) < 0.5)
            least = std::min(least, std::abs(curves.z[i]));
    CHECK(least < 1e-3);  // the bearing holds it
    const ShaftCurves launch =
        shaft_curves(model, study.solved(LoadCase::launch), study.places, 101);
    CHECK(std::abs(launch.twist.back()) == Approx(study.windup_left).epsilon(1e-9));
    CHECK(std::abs(launch.twist.front()) == Approx(study.windup_right).epsilon(1e-9));
}

TEST_CASE("a comparison says which axle, when and why") {
    Setup carbon;
    carbon.axle.material = Material::carbon_wrapped;
    carbon.axle.waist = 6.35;
    const auto figures = [](const Setup& s, double axle_kg) {
        const Calculated c(s);
        TurningMass t = simple_mass();
        t.parts.front().mass = axle_kg;
        // The same car: what the axle weighs less than 16 g, the car weighs less.
        AxleFigures f =
            axle_figures(s, c.drive, c.stance, t, study_shaft(s, c.stack, c.stance, c.drive, t),
                         s.car.mass - 0.016 + axle_kg);
        f.name = "the " + std::string(data(s.axle.material).key);
        return f;
    };
    const AxleFigures steel = figures(Setup{}, 0.016), tube = figures(carbon, 0.0035);
    const AxleComparison c = compare(steel, tube);
    CHECK(c.mass_saved == Approx(0.0125));
    CHECK(c.acceleration_gained > 0);
    CHECK(c.bends > 1);
    CHECK(c.winds > 1);
    CHECK(c.better == BetterAxle::depends);
    CHECK(c.verdict.find("12.5 g lighter") != std::string::npos);
    // Turned round it says the same of the same axles.
    const AxleComparison back = compare(tube, steel);
    CHECK(back.bends == Approx(1 / c.bends));
    CHECK(back.acceleration_gained == Approx(1 / (1 + c.acceleration_gained) - 1));
    CHECK(back.better == BetterAxle::depends);
    CHECK(back.verdict == c.verdict);
    // One that does not hold loses, however light.
    carbon.axle.strength = 20;
    const AxleComparison broken = compare(steel, figures(carbon, 0.0035));
    CHECK(broken.better == BetterAxle::first);
    CHECK(broken.verdict.find("does not hold") != std::string::npos);
    // Lighter and stiffer wins outright.
    AxleFigures wonder = steel;
    wonder.mass *= 0.5;
    wonder.deflection *= 0.9;
    wonder.windup *= 0.9;
    CHECK(compare(steel, wonder).better == BetterAxle::second);
    CHECK(compare(wonder, steel).better == BetterAxle::first);
    // Of two that weigh the same the stiffer one wins, whichever is named first.
    wonder.mass = steel.mass;
    CHECK(compare(steel, wonder).better == BetterAxle::second);
    CHECK(compare(wonder, steel).better == BetterAxle::first);
    CHECK(compare(wonder, steel).verdict == compare(steel, wonder).verdict);
    wonder.windup = 2 * steel.windup;
    CHECK(compare(steel, wonder).better == BetterAxle::depends);
    CHECK(compare(steel, steel).better == BetterAxle::alike);
    // Neither holds: the verdict says so first.
    AxleFigures weak = steel, weaker = tube;
    weak.holds = weaker.holds = false;
    CHECK(compare(weak, weaker).verdict.rfind("Neither axle holds.", 0) == 0);
    // Without torque and loads there is nothing to divide by.
    AxleFigures idle = steel;
    idle.acceleration = idle.deflection = idle.windup = 0;
    CHECK(compare(idle, idle).better == BetterAxle::alike);
    // A figure is better only where that shows.
    for (const ComparedFigure& f : compared_figures(c)) {
        INFO(std::string(f.name));
        const bool shown_alike =
            shown_figure(f, f.first, LengthUnit::mm) == shown_figure(f, f.second, LengthUnit::mm);
        CHECK((f.better == BetterAxle::alike) == shown_alike);
        if (f.name == "mass" || f.name == "acceleration") CHECK(f.better == BetterAxle::second);
        if (f.name == "deflection" || f.name == "windup") CHECK(f.better == BetterAxle::first);
    }
}
