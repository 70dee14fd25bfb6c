#include "shape/mass_properties.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/shaft_loads.hpp"
#include "core/units.hpp"
#include "random_setup.hpp"
#include "shape/loops.hpp"
#include "shape/shape_support.hpp"

using namespace podwright;

namespace {

void check_close(const Moments& a, const Moments& b, double relative) {
    const double size = std::cbrt(std::abs(b.volume)) + glm::length(b.first) / b.volume;
    CHECK(a.volume == Approx(b.volume).epsilon(relative));
    for (int i = 0; i < 3; ++i) {
        CHECK(a.first[i] == Approx(b.first[i]).margin(relative * b.volume * size));
        for (int j = 0; j < 3; ++j)
            CHECK(a.second[i][j] ==
                  Approx(b.second[i][j])
                      .margin(relative * (b.second[0][0] + b.second[1][1] + b.second[2][2])));
    }
}

}  // namespace

TEST_CASE("moments of simple solids are their closed forms") {
    // Derived, by integration: cylinder I = m r²/2, across m (3 r² + h²)/12; sphere 2 m r²/5;
    // torus m (R² + 3/4 r²); box m (b² + c²)/12.
    const glm::dvec3 x(1, 0, 0), y(0, 1, 0), o(0);
    const Moments cylinder = moments_of(Revolved{rectangle({-4, 0}, {4, 5})});
    CHECK(cylinder.volume == Approx(pi * 25 * 8).epsilon(1e-13));
    CHECK(polar_moment(cylinder, o, x) == Approx(cylinder.volume * 12.5).epsilon(1e-13));
    CHECK(polar_moment(cylinder, o, y) ==
          Approx(cylinder.volume * (75.0 + 64) / 12).epsilon(1e-13));
    const Moments sphere = moments_of(Revolved{Loop{{{-3, 0}, 0}, {{3, 0}, 1}}});
    CHECK(sphere.volume == Approx(4.0 / 3 * pi * 27).epsilon(1e-12));
    CHECK(polar_moment(sphere, o, x) == Approx(sphere.volume * 0.4 * 9).epsilon(1e-11));
    CHECK(polar_moment(sphere, o, y) == Approx(sphere.volume * 0.4 * 9).epsilon(1e-11));
    const Moments torus = moments_of(Revolved{circle({1, 10}, 2)});
    CHECK(torus.volume == Approx(2 * pi * pi * 10 * 4).epsilon(1e-12));
    CHECK(polar_moment(torus, o, x) == Approx(torus.volume * (100 + 3)).epsilon(1e-12));
    CHECK(torus.first.x == Approx(torus.volume).epsilon(1e-12));
    const Moments box = moments_of(Box{{-1, -2, -3}, {4, 5, 6}});
    CHECK(polar_moment(box, {1.5, 1.5, 1.5}, x) ==
          Approx(box.volume * (49.0 + 81) / 12).epsilon(1e-13));
    const Moments plate =
        moments_of(Extruded{rectangle({-10, -5}, {10, 5}), {circle_hole({3, 0}, 2)}, 1.5});
    CHECK(plate.volume == Approx((200 - 4 * pi) * 1.5).epsilon(1e-12));
    CHECK(polar_moment(plate, o, x) ==
          Approx(1.5 * (200 * 500 / 12.0 - 4 * pi * (2 + 9))).epsilon(1e-12));
}

TEST_CASE("moments of every body agree with its fine mesh") {
    // The divergence theorem over a mesh that is inscribed to 1 µm: relative difference of the
    // order of chord error over size, 1e-3 on the thinnest.
    RandomSetups random(1234);
    for (int n = 0; n < 4; ++n) {
        const Built built(n == 0 ? Setup{} : random.next());
        for (const Part& part : built.assembly.parts)
            for (const Body& body : part.bodies) {
                INFO(part.key);
                if (std::get_if<Imported>(&body.solid)) continue;
                const Moments exact = moments_of(body.solid);
                const Moments meshed = moments_of(mesh_of(body.solid, 0.001, asset_mesh));
                const glm::dmat4 place = part.place * body.place;
                check_close(moved(exact, place), moved(meshed, place), 4e-3);
                CHECK(exact.volume == Approx(meshed.volume).epsilon(4e-3));
            }
    }
}

TEST_CASE("moments of gears converge to the exact ones") {
    for (const auto& [teeth, module, bore] :
         {std::tuple{76, 0.396875, 20.0}, {34, 0.396875, 3.175}, {12, 0.5, 2.0}, {9, 0.5, 1.5}}) {
        ToothedRing ring{standard_gear(teeth, module, radians(20), Dedendum::fine_pitch), 4, bore};
        const Moments exact = moments_of(ring);
        double before = 1;
        for (const double error : {0.01, 0.0005}) {
            const Moments meshed = moments_of(mesh_of(ring, error, asset_mesh));
            const double off = std::abs(meshed.volume / exact.volume - 1);
            CHECK(off < before);
            CHECK(std::abs(meshed.second[1][1] / exact.second[1][1] - 1) < 2 * before);
            before = off;
        }
        CHECK(before < 4e-4);
    }
}

TEST_CASE("the generic screws weigh what their meshes do") {
    for (const char* name : {"cap_screw", "set_screw"}) {
        INFO(name);
        const Moments mesh = moments_of(asset_mesh(name)), kept = generic_moments({name, 0});
        CHECK(kept.volume == Approx(mesh.volume).epsilon(1e-4));
        CHECK(kept.first.x == Approx(mesh.first.x).epsilon(1e-3));
        CHECK(kept.second[0][0] == Approx(mesh.second[0][0]).epsilon(1e-3));
        CHECK(kept.second[1][1] == Approx(mesh.second[1][1]).epsilon(1e-2));
        CHECK(kept.second[2][2] == Approx(mesh.second[2][2]).epsilon(1e-2));
    }
    Scales scales(asset_mesh);
    CHECK(scales({"end_bell", 0}).volume == Approx(volume(asset_mesh("end_bell"))).epsilon(1e-6));
}

TEST_CASE("turning mass of the default car") {
    const Built b{Setup{}};
    const TurningMass t = turning_mass_of(b.setup, b.stance, b.drive, b.assembly);
    // Derived: the axle is the shaft that is calculated with, two lengths of 6.35 and a waist of 6
    // with a bore of 4, of 7.85 g/cm³, less its chamfers.
    const TurningPart* axle = t.find("axle");
    REQUIRE(axle != nullptr);
    CHECK(axle->mass == Approx(axle_shaft(b.setup, b.stack).mass()).epsilon(0.02));
    // Tyre by hand: a foam ring of 43/30 by 41 with rounded edges, 0.2 g/cm³.
    const double tyre = 0.2e-6 * pi / 4 * (43.0 * 43 - 30 * 30) * 41;
    CHECK(t.find("left.tyre")->mass == Approx(tyre).epsilon(0.01));
    CHECK(t.find("left.tyre")->polar == Approx(tyre * (43.0 * 43 + 30 * 30) / 8).epsilon(0.015));
    CHECK(t.find("left.tyre")->y == Approx(b.stack.left.wheel).epsilon(1e-9));
    CHECK(t.find("right.tyre")->y == Approx(-b.stack.right.wheel).epsilon(1e-9));
    double sum = 0;
    for (const TurningPart& part : t.parts) {
        INFO(part.key);
        CHECK(part.mass > 0);
        CHECK(part.polar > 0);
        sum += part.polar;
    }
    const double ratio = 76.0 / 34;
    CHECK(t.inertia == Approx(sum + (t.pinion + t.rotor) * ratio * ratio).epsilon(1e-12));
    CHECK(t.equivalent == Approx(t.inertia / 21.5 / 21.5).epsilon(1e-12));
    // What does not turn is not in it.
    for (const char* key : {"motor", "pod.left", "left.holder", "blade", "pinion"})
        CHECK(t.find(key) == nullptr);
}

TEST_CASE("parts together are one body") {
    // Two point masses of 1 kg at 0 and 10: centre 5, transverse 50 (Steiner).
    const TurningPart a{"a", 1, 2, 0, 0}, b{"b", 1, 3, 0, 10};
    const TurningPart both = together({&a, &b});
    CHECK(both.mass == 2);
    CHECK(both.polar == 5);
    CHECK(both.y == 5);
    CHECK(both.transverse == 50);
}
