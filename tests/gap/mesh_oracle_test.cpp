#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "core/units.hpp"
#include "gap_support.hpp"
#include "shape/loops.hpp"

// Against FCL 0.7 on ever finer meshes of the same solids. FCL reports 0 for crossing meshes and a
// positive gap for one inside the other's material: such pairs are told by our sign and left out.
namespace podwright {

namespace {

/// Convex, or with a bore.
Solid random_round(Draw& draw, bool convex) {
    const double radius = draw.between(2, 8), half = draw.between(0.5, 8);
    if (!convex) return tube(radius * draw.between(0.3, 0.9), radius, 2 * half);
    const double c = std::min(radius, half) * draw.between(0.1, 0.6);
    return Revolved{{{{-half, 0}, 0},
                     {{half, 0}, 0},
                     {{half, radius - c}, std::tan(pi / 8)},
                     {{half - c, radius}, 0},
                     {{-half + c, radius}, 0},
                     {{-half, radius - c}, 0}}};
}

struct Meshed {
    Mesh mesh;
    MeshOracle oracle;
    Meshed(const Solid& solid, double chord)
        : mesh(mesh_of(solid, chord, asset_mesh)), oracle(mesh) {}
};

constexpr double float_vertices = 4e-6;  // mm; the meshes' vertices are floats

}  // namespace

TEST_CASE("meshes of convex round solids come closer to the true gap from above") {
    Draw draw(31);
    int checked = 0;
    double coarse_sum = 0, fine_sum = 0;
    for (int i = 0; i < 40; ++i) {
        const Solid a = random_round(draw, true), b = random_round(draw, true);
        const glm::dmat4 at_a = draw.placement(1), at_b = draw.placement(14);
        const Gap gap = gap_of(a, at_a, b, at_b);
        if (gap.gap < 0.01) continue;
        ++checked;
        CAPTURE(i, gap.gap, gap.within);
        double error = 0;
        for (const double chord : {0.04, 0.0025}) {
            const Meshed mesh_a(a, chord), mesh_b(b, chord);
            error = mesh_a.oracle.distance(at_a, mesh_b.oracle, at_b) - gap.gap;
            CHECK(error >= -float_vertices);
            CHECK(error <= mesh_a.mesh.chord_error + mesh_b.mesh.chord_error + float_vertices);
            (chord > 0.01 ? coarse_sum : fine_sum) += error;
        }
    }
    CHECK(checked >= 15);
    // The chord error falls by 16; so does what is left, on the whole.
    CHECK(fine_sum < coarse_sum / 6);
}

TEST_CASE("meshes of bored and extruded solids agree to their chord error") {
    Draw draw(32);
    int checked = 0;
    for (int i = 0; i < 40; ++i) {
        const Solid a = i % 2 ? random_round(draw, false)
                              : Solid{Extruded{rounded_rectangle({-6, -4}, {6, 4}, 2),
                                               {circle_hole({2, 0}, 1.5)},
                                               draw.between(0.5, 4)}};
        const Solid b = random_round(draw, i % 3 == 0);
        const glm::dmat4 at_a = draw.placement(1), at_b = draw.placement(11);
        const Gap gap = gap_of(a, at_a, b, at_b);
        const double chord = 0.005;
        const Meshed mesh_a(a, chord), mesh_b(b, chord);
        const double other = mesh_a.oracle.distance(at_a, mesh_b.oracle, at_b);
        CAPTURE(i, gap.gap, gap.within, other);
        const double slack = mesh_a.mesh.chord_error + mesh_b.mesh.chord_error + float_vertices;
        if (gap.gap > 0) {
            ++checked;
            CHECK(other == Approx(gap.gap).margin(slack));
        } else if (gap.gap < -slack) {
            // Boundaries of such solids cross: none is small enough to be inside another.
            CHECK(other == Approx(0).margin(slack));
        }
    }
    CHECK(checked >= 12);
}

TEST_CASE("imported meshes against each other and against plates") {
    Draw draw(33);
    int checked = 0;
    const auto imported = [](const char* name) {
        MeasuredPart part;
        Body body;
        body.solid = Imported{name};
        part.forms.push_back(form_of(body, asset_mesh));
        return part;
    };
    const Solid plate = Box{{-1, -6, -6}, {1, 6, 6}};
    MeasuredPart measured_plate;
    measured_plate.forms.push_back(form_of(plate));
    const MeshOracle plate_mesh(mesh_of(plate, 1, asset_mesh));
    const MeasuredPart screw = imported("cap_screw"), set = imported("set_screw");
    const MeshOracle screw_mesh(asset_mesh("cap_screw")), set_mesh(asset_mesh("set_screw"));
    for (int i = 0; i < 24; ++i) {
        const glm::dmat4 at_a = draw.placement(1), at_b = draw.placement(7);
        const bool flat = i % 2 == 0;
        const MeasuredPart& b = flat ? measured_plate : set;
        const Gap exact = gap_between(screw, at_a, b, at_b, 1e300, 1e300);
        const Gap hull = gap_between(screw, at_a, b, at_b, 1e300, -1e300);
        const double other = screw_mesh.distance(at_a, flat ? plate_mesh : set_mesh, at_b);
        CAPTURE(i, exact.gap, exact.within, hull.gap, other);
        CHECK(exact.exact);
        CHECK(hull.gap <= exact.gap + 1e-4);
        if (exact.gap <= 0) continue;
        ++checked;
        CHECK(exact.gap == Approx(other).margin(float_vertices + exact.within));
    }
    CHECK(checked >= 8);
}

TEST_CASE("a mesh stands on the ground by its lowest vertex") {
    Draw draw(34);
    MeasuredPart bell;
    Body body;
    body.solid = Imported{"end_bell"};
    bell.forms.push_back(form_of(body, asset_mesh));
    for (int i = 0; i < 10; ++i) {
        const glm::dmat4 place = draw.placement(20);
        double lowest = 1e300;
        for (const Vertex& v : asset_mesh("end_bell").vertices)
            lowest = std::min(lowest, (place * glm::dvec4(glm::dvec3(v.position), 1)).z);
        CHECK(gap_to_plane(bell, place, {0, 0, -3}, {0, 0, 1}).gap ==
              Approx(lowest + 3).margin(1e-9));
    }
}

TEST_CASE("a loose shaft in a tilted bore") {
    const Solid bore = tube(5.2, 8, 10), shaft = cylinder(5, 40);
    for (const double tilt : {0.002, 0.01, 0.02}) {
        const glm::dmat4 place = turned({0, 0.6, 0.8}, tilt, {0.5, 0.03, -0.02});
        const Gap gap = gap_of(bore, glm::dmat4(1.0), shaft, place);
        const Meshed mesh_a(bore, 0.0005), mesh_b(shaft, 0.0005);
        CHECK(mesh_a.oracle.distance(glm::dmat4(1.0), mesh_b.oracle, place) ==
              Approx(gap.gap).margin(0.001 + float_vertices));
    }
}

}  // namespace podwright
