#include <algorithm>
#include <cmath>
#include <vector>

#include <catch2/catch.hpp>

#include "core/units.hpp"
#include "gap_support.hpp"
#include "shape/assembly.hpp"

// Clearances of a whole axle worked out by hand from its calculated positions; all derived.
namespace podwright {

namespace {

struct Built {
    Setup setup;
    Stack stack;
    Stance stance;
    Drive drive;
    Assembly assembly;

    explicit Built(const Setup& from)
        : setup(from),
          stack(stack_of(setup)),
          stance(stance_of(setup, stack)),
          drive(drive_of(setup, stack, stance)),
          assembly(assemble(setup, stack, stance, drive)) {}

    const Part& part(std::string_view key) const { return *assembly.find(key); }

    Gap parts(std::string_view a, std::string_view b) const {
        return gap_between(measured(part(a), asset_mesh), part(a).place,
                           measured(part(b), asset_mesh), part(b).place);
    }
    Gap bodies(std::string_view a, std::size_t i, std::string_view b, std::size_t j) const {
        const Form f = form_of(part(a).bodies[i], asset_mesh);
        const Form g = form_of(part(b).bodies[j], asset_mesh);
        return gap_between(f, frame_of(part(a).place) * f.place, g,
                           frame_of(part(b).place) * g.place);
    }
    double plate_outer() const { return setup.pod.plate_inner + setup.pod.plate_thickness; }
};

constexpr double close = 1e-9;

}  // namespace

TEST_CASE("tyre and pod plate stand apart by what the stack says") {
    const Built built{Setup{}};
    const double face = built.stack.left.wheel - built.setup.left.tyre.width / 2;
    REQUIRE(face > built.plate_outer());
    CHECK(built.bodies("left.tyre", 0, "pod.left", 0).gap ==
          Approx(face - built.plate_outer()).margin(close));
}

TEST_CASE("a tyre set 0.02 mm into the pod plate, and clear of it by as much") {
    for (const double wanted : {-0.02, 0.02}) {
        Setup setup;
        const Built before{setup};
        const double gap =
            before.stack.left.wheel - setup.left.tyre.width / 2 - before.plate_outer();
        setup.left.inset += gap - wanted;
        const Built built{setup};
        CHECK(built.bodies("left.tyre", 0, "pod.left", 0).gap == Approx(wanted).margin(close));
    }
}

TEST_CASE("can and axle stand apart by the centre distance less both radii") {
    const Built built{Setup{}};
    const double distance = std::hypot(built.assembly.motor_point.x,
                                       built.assembly.motor_point.z - built.stance.axle_in_pod);
    // The can lies beside the axle's waist.
    CHECK(built.bodies("motor", 0, "axle", 0).gap ==
          Approx(distance - built.setup.motor.can_diameter / 2 - built.setup.axle.waist / 2)
              .margin(close));
}

TEST_CASE("spur and ground") {
    const Built built{Setup{}};
    const Gear& gear = built.drive.spur;
    const double tip = diameters(gear).outside / 2;
    const double half = tooth_thickness(gear, 2 * tip) / (2 * tip);
    const glm::dvec3 down = -built.assembly.ground_normal;
    // How far the tooth that points most downward is off the downward line.
    const Part& spur = built.part("spur");
    const glm::dvec3 y(spur.place[1]), z(spur.place[2]);
    const double pitch = 2 * pi / gear.teeth;
    const double angle = std::atan2(glm::dot(down, y), glm::dot(down, z));
    const double off = std::abs(angle - pitch * std::round(angle / pitch));
    const double reach = tip * std::cos(std::max(0.0, off - half));
    const glm::dvec3 centre(spur.place[3]);
    const double height =
        glm::dot(centre - built.assembly.ground_point, built.assembly.ground_normal);
    const Gap gap = gap_to_plane(measured(spur, asset_mesh), spur.place,
                                 built.assembly.ground_point, built.assembly.ground_normal);
    CHECK(gap.gap == Approx(height - reach).margin(close));
    CHECK(gap.exact);
}

TEST_CASE("tyres stand on the ground but for their sag") {
    const Built built{Setup{}};
    for (const char* key : {"left.tyre", "right.tyre"}) {
        const Part& tyre = built.part(key);
        const Gap gap = gap_to_plane(measured(tyre, asset_mesh), tyre.place,
                                     built.assembly.ground_point, built.assembly.ground_normal);
        const Side side = key[0] == 'l' ? Side::left : Side::right;
        // The ground is tilted against the pod by the rake, the wheel is round.
        CHECK(gap.gap == Approx(-built.stance.side(side).sag).margin(0.02));
    }
}

TEST_CASE("hub and holder") {
    const Built built{Setup{}};
    const AxleSide& left = built.setup.left;
    // The boss of the hub stands before the bearing's bore in the holder's lip.
    const double boss = std::min({built.setup.axle.diameter / 2 + 1.5,
                                  (built.setup.bearing.bore + built.setup.bearing.outside) / 4 +
                                      0.3 * built.setup.bearing.ball_diameter - 0.1,
                                  left.hub_diameter / 2 - 0.3});
    const double across = built.setup.bearing.outside / 2 - boss;
    const double axial = built.stack.left.thrust - left.seat;
    CHECK(built.bodies("left.hub", 1, "left.holder", 1).gap ==
          Approx(std::hypot(across, axial)).margin(close));
    CHECK(built.parts("left.hub", "left.holder").gap <= std::hypot(across, axial) + close);
}

TEST_CASE("spur and pinion have half the normal backlash on either flank") {
    const Built built{Setup{}};
    const PairState& mesh = built.drive.mesh;
    CHECK(built.parts("spur", "pinion").gap ==
          Approx(mesh.backlash * std::cos(mesh.pressure_angle) / 2).margin(1e-7));
}

TEST_CASE("unlike holders tilt the axle and hardly change the clearances") {
    Setup setup;
    const Built level{setup};
    for (const double step : {1e-10, 1e-6, 1e-3, 0.02}) {
        Setup tilted = setup;
        tilted.left.holder_step += step;
        const Built built{tilted};
        for (const auto& [a, b] : {std::pair{"left.tyre", "pod.left"},
                                   {"axle", "motor"},
                                   {"left.hub", "left.holder"},
                                   {"carrier", "pod.right"},
                                   {"spur", "pod.right"},
                                   {"axle", "pod.floor"}}) {
            const Gap before = level.parts(a, b), after = built.parts(a, b);
            CAPTURE(a, b, step, before.gap, after.gap, after.within);
            CHECK(after.gap == Approx(before.gap).margin(2 * step + after.within + close));
        }
    }
}

TEST_CASE("gaps of the whole assembly agree with those of its meshes") {
    // FCL 0.7 on meshes of a stated chord error.
    for (const double step : {0.0, 0.5}) {
        Setup setup;
        setup.left.holder_step += step;
        const Built built{setup};
        const double chord = 0.004;
        std::vector<MeasuredPart> ready;
        std::vector<MeshOracle> meshes;
        std::vector<double> errors;
        for (const Part& part : built.assembly.parts) {
            ready.push_back(measured(part, asset_mesh));
            Mesh whole;
            for (const Body& body : part.bodies)
                append(whole, mesh_of(body.solid, chord, asset_mesh), body.place);
            errors.push_back(whole.chord_error);
            meshes.emplace_back(whole);
        }
        int checked = 0;
        for (std::size_t i = 0; i < ready.size(); ++i)
            for (std::size_t j = i + 1 + i % 3; j < ready.size(); j += 3) {
                const Part &a = built.assembly.parts[i], &b = built.assembly.parts[j];
                const Gap gap = gap_between(ready[i], a.place, ready[j], b.place, 20, 20);
                if (gap.gap < 0.02 || gap.gap >= 20) continue;
                ++checked;
                CAPTURE(a.key, b.key, gap.gap, gap.within);
                // Vertices are floats, some 40 mm from their frame.
                CHECK(meshes[i].distance(a.place, meshes[j], b.place) ==
                      Approx(gap.gap).margin(errors[i] + errors[j] + 1e-5 + gap.within));
            }
        CHECK(checked > 25);
    }
}

}  // namespace podwright
