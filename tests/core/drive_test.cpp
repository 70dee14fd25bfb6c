#include "core/drive.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "random_setup.hpp"

using namespace podwright;

namespace {

constexpr std::uint64_t seed = 771;

Drive drive(const Setup& s) {
    const Stack stack = stack_of(s);
    return drive_of(s, stack, stance_of(s, stack));
}

Setup with_gears(int pinion, int spur, double tyre) {
    Setup s;
    s.gears.pinion = pinion;
    s.gears.spur = spur;
    s.left.tyre.diameter = tyre;
    s.right.tyre.diameter = tyre;
    return s;
}

}  // namespace

TEST_CASE("rollout, final drive and speed") {
    // Derived: circumference x driving/driven.
    const Drive a = drive(with_gears(24, 78, 60));
    CHECK(a.rollout == Approx(57.9986336).epsilon(1e-9));
    CHECK(a.final_drive == Approx(78.0 / 24).epsilon(1e-12));
    CHECK(drive(with_gears(20, 84, 64.5)).rollout == Approx(48.2458872).epsilon(1e-9));
    // Derived: x rev/min x 60/10^6 -> 69.59836033 km/h.
    Setup s = with_gears(24, 78, 60);
    s.motor.speed = 20000;
    CHECK(drive(s).speed == Approx(69.59836033).epsilon(1e-9));
    // Unlike tyres on one axle: the mean.
    s.left.tyre.diameter = 61;
    s.right.tyre.diameter = 59;
    CHECK(drive(s).rollout == Approx(57.9986336).epsilon(1e-9));
}

TEST_CASE("the motor stands where its slot gives the wanted backlash") {
    RandomSetups random(seed);
    int reached = 0;
    for (int n = 0; n < 300; ++n) {
        const Setup s = random.next();
        const Drive d = drive(s);
        const SlotPoint at = slot_point(s.motor, d.slot.position);
        CHECK(std::hypot(at.x, at.z - d.axle_z) == Approx(d.mesh.distance).epsilon(1e-12));
        CHECK(d.slot.position >= 0);
        CHECK(d.slot.position <= s.motor.slot_length);
        if (d.slot.reached) {
            ++reached;
            CHECK(d.mesh.backlash == Approx(s.gears.backlash).margin(1e-9));
        } else {
            // The end that is kept to is the nearest: no place on the slot comes nearer.
            const double wanted = distance_for_backlash(d.pinion, d.spur, s.gears.backlash);
            for (double p : {0.0, s.motor.slot_length / 2, s.motor.slot_length}) {
                const SlotPoint other = slot_point(s.motor, p);
                if (other.x * std::cos(s.motor.slot_angle) +
                        (other.z - d.axle_z) * std::sin(s.motor.slot_angle) <
                    0)
                    continue;  // on the side that leads towards the axle
                CHECK(std::abs(std::hypot(other.x, other.z - d.axle_z) - wanted) >=
                      std::abs(d.slot.distance - wanted) - 1e-9);
            }
        }
    }
    CHECK(reached > 20);
    CHECK(reached < 290);
}

TEST_CASE("a slot along the line of centres by hand") {
    // Derived: axle at height 18, slot level with it from 18 forward; 3-4-5 for the other.
    Motor m;
    m.slot_x = 18;
    m.slot_z = 18;
    m.slot_angle = 0;
    m.slot_length = 9;
    const SlotPlace level = place_on_slot(m, 18, 22.5);
    CHECK(level.position == Approx(4.5).epsilon(1e-12));
    CHECK(level.reached);
    CHECK_FALSE(place_on_slot(m, 18, 27.5).reached);
    CHECK(place_on_slot(m, 18, 27.5).position == 9);
    CHECK(place_on_slot(m, 18, 27.5).wanted == Approx(9.5).epsilon(1e-12));
    CHECK_FALSE(place_on_slot(m, 18, 17).reached);
    m.slot_z = 18 + 15;  // wanted distance 25: 20 forward, 15 up
    CHECK(place_on_slot(m, 18, 25).position == Approx(2).epsilon(1e-12));
    // Never farther away than the line passes: no place on it is 10 from the axle.
    CHECK_FALSE(place_on_slot(m, 18, 10).reached);
}

TEST_CASE("a slot holds its pair whichever end it is described from") {
    // The same slot from its far end: a place p is the place length - p.
    RandomSetups random(4711);
    int reached = 0;
    for (int n = 0; n < 200; ++n) {
        Motor m;
        m.slot_x = random.between(-30, 30);
        m.slot_z = random.between(0, 30);
        m.slot_angle = radians(random.between(-180, 180));
        m.slot_length = random.between(2, 12);
        Motor other = m;
        const SlotPoint end = slot_point(m, m.slot_length);
        other.slot_x = end.x;
        other.slot_z = end.z;
        other.slot_angle = m.slot_angle + pi;
        const SlotPlace a = place_on_slot(m, 18, 22), b = place_on_slot(other, 18, 22);
        CHECK(a.reached == b.reached);
        if (a.reached) CHECK(a.distance == Approx(22).epsilon(1e-12));
        if (b.reached) CHECK(b.distance == Approx(22).epsilon(1e-12));
        // Out of reach, either end's nearest distance is the same.
        if (!a.reached) CHECK(a.distance == Approx(b.distance).epsilon(1e-9));
        reached += a.reached ? 1 : 0;
    }
    CHECK(reached > 20);
}

TEST_CASE("a holder change shows in the mesh that is not set again") {
    Setup s;
    s.motor.clamped_at = drive(s).slot.position;
    CHECK(drive(s).unset.backlash == Approx(s.gears.backlash).margin(1e-9));
    const SlotPoint motor = slot_point(s.motor, *s.motor.clamped_at);
    const double before = std::hypot(motor.x, motor.z - drive(s).axle_z);
    for (Side side : both_sides) s.side(side).holder_way = Way::up;
    const Drive after = drive(s);
    // The distance by Pythagoras, the backlash by the usual approximation 2 dC tan a
    // (qtcgears.com Q410P388, eq. 14-2), good to a few percent.
    const double apart = std::hypot(motor.x, motor.z - after.axle_z) - before;
    CHECK(after.unset.distance - before == Approx(apart).margin(1e-12));
    CHECK(after.unset.backlash - s.gears.backlash ==
          Approx(2 * apart * std::tan(after.unset.pressure_angle)).epsilon(0.05));
    CHECK(after.mesh.backlash == Approx(s.gears.backlash).margin(1e-9));
}

TEST_CASE("unlike holders tilt the mesh, unlike tyres do not") {
    Setup s;
    CHECK(drive(s).mesh_tilt == 0);
    s.left.tyre.diameter += 1;  // pod and axle lean together
    CHECK(drive(s).mesh_tilt == 0);
    s.left.holder_step = 1.0;
    CHECK(drive(s).mesh_tilt ==
          Approx(std::atan(0.5 / (s.left.seat + s.right.seat))).epsilon(1e-12));
    // Derived: across the face the axle rises by 4 mm tan(tilt); what of it lies along the line of
    // centres parts the gears, and each mm of that is 2 tan a_w of backlash.
    const Drive d = drive(s);
    const SlotPoint motor = slot_point(s.motor, d.slot.position);
    CHECK(d.backlash_across == Approx(2 * std::tan(d.mesh.pressure_angle) * std::tan(d.mesh_tilt) *
                                      4 * std::abs(motor.z - d.axle_z) / d.mesh.distance)
                                   .epsilon(1e-12));
    CHECK(d.backlash_across > 0);
}
