#include <cmath>
#include <string>

#include <catch2/catch.hpp>

#include "core/units.hpp"
#include "gap_support.hpp"

// Meshes of the user's, as fine as they come, against the solids that they stand for.
namespace podwright {

namespace {

/// A torus about x, of 2 · around · along triangles.
Mesh fine_torus(double ring, double section, int around, int along) {
    Mesh mesh;
    for (int i = 0; i < around; ++i)
        for (int k = 0; k < along; ++k) {
            const double t = 2 * pi * i / around, s = 2 * pi * k / along;
            const double r = ring + section * std::cos(s);
            Vertex vertex{};
            vertex.position = glm::vec3(section * std::sin(s), r * std::cos(t), r * std::sin(t));
            mesh.vertices.push_back(vertex);
        }
    const auto at = [&](int i, int k) {
        return static_cast<std::uint32_t>((i % around) * along + k % along);
    };
    for (int i = 0; i < around; ++i)
        for (int k = 0; k < along; ++k) {
            const std::uint32_t a = at(i, k), b = at(i + 1, k), c = at(i + 1, k + 1),
                                d = at(i, k + 1);
            for (const std::uint32_t v : {a, b, c, a, c, d}) mesh.triangles.push_back(v);
        }
    return mesh;
}

/// 200 000 triangles; the chords are off by no more than 0.002 mm.
const Mesh& big() {
    static const Mesh mesh = fine_torus(10, 3, 500, 200);
    return mesh;
}
constexpr double chord = 0.002;

MeasuredPart part_of(const Solid& solid) {
    MeasuredPart part;
    Body body;
    body.solid = solid;
    part.forms.push_back(form_of(body, [](std::string_view) -> const Mesh& { return big(); }));
    return part;
}

const MeasuredPart& big_part() {
    static const MeasuredPart part = part_of(Imported{"big"});
    return part;
}

Gap measured_gap(const MeasuredPart& a, const glm::dmat4& at_a, const MeasuredPart& b,
                 const glm::dmat4& at_b) {
    return gap_between(a, at_a, b, at_b, 1e300, 1e300);
}

}  // namespace

TEST_CASE("the distance of a point from a big mesh has its sign") {
    const Form& mesh = *big_part().forms.front().mesh;
    const Form solid = form_of(Solid{torus(10, 3)});
    Draw draw(61);
    for (int i = 0; i < 300; ++i) {
        const glm::dvec3 p = draw.unit() * draw.between(5, 15);
        const double of_solid = signed_distance(solid, p).distance;
        CAPTURE(i, of_solid);
        CHECK(signed_distance(mesh, p).distance == Approx(of_solid).margin(chord));
    }
    CHECK(signed_distance(mesh, {0, 0, 0}).distance == Approx(7).margin(chord));
}

TEST_CASE("a big mesh measures as the body that it stands for") {
    Draw draw(62);
    int apart = 0, overlapping = 0;
    for (int i = 0; i < 24; ++i) {
        const Solid other = i % 2 ? Solid{cylinder(2, 6)} : Solid{Box{{-2, -1, -3}, {2, 1, 3}}};
        const glm::dmat4 place = draw.placement(14);
        const Gap exact = gap_of(torus(10, 3), glm::dmat4(1.0), other, place);
        const Gap gap = measured_gap(big_part(), glm::dmat4(1.0), part_of(other), place);
        CAPTURE(i, exact.gap, exact.within, gap.gap, gap.within);
        CHECK(gap.exact);
        if (exact.gap > 0.01) {
            ++apart;
            CHECK(gap.gap == Approx(exact.gap).margin(chord + gap.within + exact.within));
            CHECK(gap.within <= 1.1e-4);
        } else if (exact.gap < -0.01) {
            ++overlapping;
            CHECK(gap.gap < 0);
        }
    }
    CHECK(apart > 5);
    CHECK(overlapping > 3);
}

TEST_CASE("a ball in a big mesh overlaps it by its depth, one in its hole does not") {
    const MeasuredPart ball = part_of(sphere(1));
    const Gap inside = measured_gap(big_part(), glm::dmat4(1.0), ball, at(0, 10, 0));
    // The middle line of the tube passes through the ball's surface: 3 below. Derived.
    CHECK(inside.gap == Approx(-3).margin(chord + inside.within));
    const Gap free = measured_gap(big_part(), glm::dmat4(1.0), ball, at(0, 0, 0));
    CHECK(free.gap == Approx(6).margin(chord));
    const Gap swapped = measured_gap(ball, at(0, 0, 0), big_part(), glm::dmat4(1.0));
    CHECK(swapped.gap == Approx(free.gap).margin(2e-4));
    CHECK(glm::length(swapped.a - free.b) < 2 + chord);
    // Dipped in by 0.02 mm, and clear by as much.
    for (const double wanted : {-0.02, 0.02}) {
        const Gap gap = measured_gap(big_part(), glm::dmat4(1.0), ball, at(0, 14 + wanted, 0));
        CHECK(gap.gap == Approx(wanted).margin(chord + gap.within));
        CHECK(gap.within < 5e-3);
    }
}

TEST_CASE("two big meshes") {
    const Gap exact = gap_of(torus(10, 3), glm::dmat4(1.0), torus(10, 3), at(0, 27, 0));
    const Gap gap = measured_gap(big_part(), glm::dmat4(1.0), big_part(), at(0, 27, 0));
    CHECK(gap.gap == Approx(exact.gap).margin(2 * chord + 1e-4));
    CHECK(measured_gap(big_part(), glm::dmat4(1.0), big_part(), at(0, 25, 0)).gap ==
          Approx(-1).margin(0.01));
}

}  // namespace podwright
