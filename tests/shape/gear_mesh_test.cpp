#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "shape/shape_support.hpp"

using namespace podwright;

namespace {

/// The teeth of a gear part in (forward, up), at `pose`.
std::vector<glm::dvec2> teeth(const Built& built, std::string_view key, const Gear& gear,
                              const Pose& pose, double chord_error) {
    const glm::dmat4 place = placed(built.assembly, built.part(key), pose);
    std::vector<glm::dvec2> points;
    for (const glm::dvec2& p : tooth_outline(gear, chord_error)) {
        const glm::dvec4 at = place * glm::dvec4(0, p.x, p.y, 1);
        points.emplace_back(at.x, at.z);
    }
    return points;
}

std::vector<glm::dvec2> turned(const std::vector<glm::dvec2>& points, const glm::dvec2& centre,
                               double angle) {
    std::vector<glm::dvec2> result;
    const double c = std::cos(angle), s = std::sin(angle);
    for (const glm::dvec2& p : points) {
        const glm::dvec2 d = p - centre;
        result.push_back(centre + glm::dvec2(c * d.x - s * d.y, s * d.x + c * d.y));
    }
    return result;
}

bool reaches_into(const std::vector<glm::dvec2>& a, const std::vector<glm::dvec2>& b,
                  const glm::dvec2& near, double radius) {
    return std::any_of(a.begin(), a.end(), [&](const glm::dvec2& p) {
        return glm::length(p - near) < radius && is_inside(p, b);
    });
}

bool overlap(const std::vector<glm::dvec2>& a, const std::vector<glm::dvec2>& b,
             const glm::dvec2& near, double radius) {
    return reaches_into(a, b, near, radius) || reaches_into(b, a, near, radius);
}

/// How far the pinion can be turned one way before its teeth meet those of the spur.
double play(const std::vector<glm::dvec2>& pinion, const std::vector<glm::dvec2>& spur,
            const glm::dvec2& centre, const glm::dvec2& near, double radius, double way) {
    double free = 0, blocked = 0.05;
    for (int i = 0; i < 22; ++i) {
        const double angle = (free + blocked) / 2;
        (overlap(turned(pinion, centre, way * angle), spur, near, radius) ? blocked : free) = angle;
    }
    return free;
}

struct Mesh2d {
    glm::dvec2 pinion_centre, pitch_point;
    double pinion_radius;  // of the working pitch circle
};

Mesh2d centres_of(const Built& built) {
    const glm::dvec3 motor = built.assembly.motor_point;
    const glm::dvec2 pinion(motor.x, motor.z), axle(0, built.drive.axle_z);
    const double share = static_cast<double>(built.drive.pinion.teeth) /
                         (built.drive.pinion.teeth + built.drive.spur.teeth);
    return {pinion, pinion + (axle - pinion) * share, glm::length(axle - pinion) * share};
}

void check_mesh(const Setup& setup) {
    const Built built(setup);
    REQUIRE(built.drive.slot.reached);
    const Mesh2d at = centres_of(built);
    const double near = 6 * setup.gears.module, e = 2e-4;
    const double tooth = 2 * pi / built.drive.spur.teeth;
    for (int step = 0; step < 5; ++step) {
        const Pose pose{0, tooth * step / 5 + (step == 4 ? 1.0 : 0.0), 0};
        const auto pinion = teeth(built, "pinion", built.drive.pinion, pose, e);
        const auto spur = teeth(built, "spur", built.drive.spur, pose, e);
        INFO("axle turned by " << pose.turn);
        CHECK_FALSE(overlap(pinion, spur, at.pitch_point, near));
        // Play of the pinion with the spur held, on the working pitch circle: the backlash
        // (ISO 21771, from memory), the same both ways.
        const double one = play(pinion, spur, at.pinion_centre, at.pitch_point, near, 1);
        const double other = play(pinion, spur, at.pinion_centre, at.pitch_point, near, -1);
        CHECK((one + other) * at.pinion_radius == Approx(built.drive.mesh.backlash).margin(3e-3));
        CHECK(one * at.pinion_radius == Approx(other * at.pinion_radius).margin(3e-3));
    }
}

}  // namespace

TEST_CASE("pinion and spur stand in mesh with the backlash that the drive states") {
    check_mesh({});
}

TEST_CASE("other gears, holders and backlash mesh as well") {
    Setup setup;
    setup.gears.pinion = 30;
    setup.gears.spur = 81;
    setup.gears.backlash = 0.1;
    setup.gears.pinion_thinning = 0.02;
    check_mesh(setup);

    Setup up;
    up.left.holder_way = up.right.holder_way = Way::up;
    up.left.holder_step = up.right.holder_step = 1.0;
    check_mesh(up);
}

TEST_CASE("rolling forward, the axle takes the top of the wheel forward and turns the motor back") {
    const Built built{Setup{}};
    const double angle = 0.01;
    const Pose rest{}, rolled{0, angle, 0};
    const auto moved = [&](std::string_view key, const glm::dvec3& at) {
        const Part& part = built.part(key);
        const glm::dvec4 local = glm::inverse(part.place) * glm::dvec4(at, 1);
        return glm::dvec3(placed(built.assembly, part, rolled) * local) - at;
    };
    const glm::dvec3 top(0, 70, built.stance.axle_in_pod + 20);
    CHECK(moved("left.tyre", top).x == Approx(20 * std::sin(angle)).margin(1e-6));
    const glm::dvec3 motor = built.assembly.motor_point;
    const double ratio = built.drive.final_drive;
    CHECK(ratio == Approx(76.0 / 34));
    CHECK(moved("pinion", motor + glm::dvec3(0, 0, 5)).x ==
          Approx(-5 * std::sin(angle * ratio)).margin(1e-9));
    CHECK(placed(built.assembly, built.part("motor"), rest) ==
          placed(built.assembly, built.part("motor"), rolled));
}
