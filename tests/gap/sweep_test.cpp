#include <algorithm>
#include <cmath>
#include <vector>

#include <catch2/catch.hpp>

#include "core/units.hpp"
#include "gap/sweep.hpp"
#include "gap/swept_outline.hpp"
#include "gap_support.hpp"

// What turning parts pass through, against what their points do when they are turned: derived.
namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;

/// A point of the half-plane against what is swept: negative inside.
double off(const MeasuredPart& swept_part, const Frame& axis, const dvec2& p) {
    double least = 1e300;
    for (const Form& form : swept_part.forms)
        least =
            std::min(least, signed_distance(form, form.place.back(axis({p.x, p.y, 0}))).distance);
    return least;
}

dvec2 in_half_plane(const Frame& axis, const dvec3& p) {
    const dvec3 q = axis.back(p);
    return {q.x, std::hypot(q.y, q.z)};
}

/// Points on the surface of a mesh, at most `step` apart.
std::vector<dvec3> points_of(const Mesh& mesh, const glm::dmat4& place, double step) {
    std::vector<dvec3> all;
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        dvec3 t[3];
        for (std::size_t k = 0; k < 3; ++k)
            t[k] =
                dvec3(place * glm::dvec4(dvec3(mesh.vertices[mesh.triangles[i + k]].position), 1));
        const double longest = std::max(
            {glm::length(t[1] - t[0]), glm::length(t[2] - t[0]), glm::length(t[2] - t[1])});
        const int n = std::max(1, static_cast<int>(std::ceil(longest / step)));
        for (int a = 0; a <= n; ++a)
            for (int b = 0; a + b <= n; ++b)
                all.push_back(t[0] +
                              ((t[1] - t[0]) * double(a) + (t[2] - t[0]) * double(b)) / double(n));
    }
    return all;
}

/// Everything that `solid`, placed, passes through must lie in what is swept, and every corner of
/// that next to something that it passes through.
void check_sweep(const Solid& solid, const glm::dmat4& place, const Frame& axis) {
    constexpr double step = 0.05, chord = 2e-3;
    const MeasuredPart part{{form_of(Body{solid, place, Look::dark_steel}, asset_mesh)}};
    SweptMemory memory;
    const MeasuredPart swept_part = swept(part, axis, false, memory);
    std::vector<dvec2> passed;
    for (const dvec3& p : points_of(mesh_of(solid, chord, asset_mesh), place, step))
        passed.push_back(in_half_plane(axis, p));
    double farthest_out = -1e300;
    for (std::size_t i = 0; i < passed.size(); i += 7)
        farthest_out = std::max(farthest_out, off(swept_part, axis, passed[i]));
    CHECK(farthest_out <= chord);
    double loosest = 0;
    for (const Form& form : swept_part.forms)
        for (const Element& e : form.region.elements) {
            const dvec2 corner = in_half_plane(axis, form.place({e.a.x, e.a.y, 0}));
            double nearest = 1e300;
            for (const dvec2& p : passed) nearest = std::min(nearest, glm::distance(p, corner));
            loosest = std::max(loosest, nearest);
        }
    // Points lie up to a step apart, so that a corner may be half a step's diagonal from the next.
    CHECK(loosest <= swept_excess * 1.5 + step);
}

Revolved screw() {
    return {{{{-6, 0}, 0},
             {{2, 0}, 0},
             {{2, 2.2}, 0},
             {{1.5, 2.75}, 0},
             {{0, 2.75}, 0},
             {{0, 1.5}, 0},
             {{-6, 1.5}, 0}}};
}

const Frame about_x{};

/// A box as a mesh of triangles.
std::vector<Facets::Triangle> facets_of(const Mesh& mesh) {
    std::vector<Facets::Triangle> all;
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        Facets::Triangle t{};
        for (std::size_t k = 0; k < 3; ++k)
            t[k] = dvec3(mesh.vertices[mesh.triangles[i + k]].position);
        all.push_back(t);
    }
    return all;
}

double area(const std::vector<Loop>& loops) {
    double sum = 0;
    for (const Loop& loop : loops)
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const dvec2 &p = loop[i].at, &q = loop[(i + 1) % loop.size()].at;
            sum += (p.x * q.y - q.x * p.y) / 2;
        }
    return sum;
}

}  // namespace

TEST_CASE("a screw turning beside the axis and across it and askew and on it") {
    check_sweep(screw(), turned({0, 0, 1}, 0, {1, 7, 3}), about_x);
    check_sweep(screw(), turned({0, 0, 1}, pi, {1, 7, 3}), about_x);
    check_sweep(screw(), turned({0, 0, 1}, pi / 2, {4, 3, 8}), about_x);
    check_sweep(screw(), turned({0.6, 0, 0.8}, 0.7, {1, -7, 3}), about_x);
    check_sweep(screw(), turned({0, 0, 1}, pi / 2, {0, 1, 0}), about_x);
}

TEST_CASE("a screw beside the axis is swept exactly") {
    const MeasuredPart part{{form_of(Body{screw(), at(1, 6, 8), Look::dark_steel}, asset_mesh)}};
    SweptMemory memory;
    const MeasuredPart all = swept(part, about_x, false, memory);
    CHECK(off(all, about_x, {2, 10 + 2.75}) == Approx(0).margin(1e-12));
    CHECK(off(all, about_x, {2, 10 - 2.75}) == Approx(0).margin(1e-12));
    CHECK(off(all, about_x, {-2, 10 + 2}) == Approx(0.5).margin(1e-12));
    CHECK(off(all, about_x, {-2, 10}) == Approx(-1.5).margin(1e-12));
    CHECK(off(all, about_x, {-6, 10}) == Approx(1).margin(1e-12));
}

TEST_CASE("a box turning about an axis reaches as far as its edge") {
    const Mesh box = mesh_of(Box{{-2, -3, -4}, {2, 3, 4}}, 0.01, asset_mesh);
    const std::vector<Loop> loops = swept_outline(facets_of(box));
    REQUIRE(loops.size() == 1);
    double low = 1e300, high = -1e300, radius = 0;
    for (const Corner& c : loops[0]) {
        low = std::min(low, c.at.x);
        high = std::max(high, c.at.x);
        radius = std::max(radius, c.at.y);
    }
    CHECK(radius >= 5);
    CHECK(radius <= 5 + swept_excess);
    CHECK(low <= -2);
    CHECK(low >= -2 - swept_excess);
    CHECK(high >= 2);
    CHECK(high <= 2 + swept_excess);
    CHECK(area(loops) >= 20);
    CHECK(area(loops) <= 20 + 14 * swept_excess);
}

TEST_CASE("a hollow that is open to one end stays open, a closed one is filled") {
    // A cup, and a drum with a chamber: profiles of known area.
    const Revolved cup{
        {{{0, 0}, 0}, {{1, 0}, 0}, {{1, 8}, 0}, {{6, 8}, 0}, {{6, 9}, 0}, {{0, 9}, 0}}};
    const Revolved drum{{{{0, 5}, 0}, {{6, 5}, 0}, {{6, 9}, 0}, {{0, 9}, 0}}};
    Mesh chamber = mesh_of(drum, 1e-3, asset_mesh);
    append(
        chamber,
        mesh_of(Revolved{{{{2, 6}, 0}, {{4, 6}, 0}, {{4, 8}, 0}, {{2, 8}, 0}}}, 1e-3, asset_mesh),
        glm::dmat4(1));
    CHECK(area(swept_outline(facets_of(mesh_of(cup, 1e-3, asset_mesh)))) ==
          Approx(9 + 5).margin(48 * swept_excess));
    CHECK(area(swept_outline(facets_of(chamber))) == Approx(24).margin(24 * swept_excess));
}

TEST_CASE("the least gap of a turning mesh is found, and nothing below it") {
    // A box as a user's mesh about the x axis; a plate stands beside it, a pin within its reach.
    const Mesh box = mesh_of(Box{{-2, -3, -4}, {2, 3, 4}}, 0.01, asset_mesh);
    const MeshLibrary library = [&](std::string_view) -> const Mesh& { return box; };
    const MeasuredPart part{
        {form_of(Body{Imported{"/box", 1}, glm::dmat4(1), Look::dark_steel}, library)}};
    SweptMemory memory;
    const MeasuredPart turning = swept(part, about_x, true, memory);
    const MeasuredPart wall{{form_of(Box{{-9, 5.2, -9}, {9, 6, 9}})}};
    const MeasuredPart pin{
        {form_of(Body{cylinder(0.5, 3), at(3.6, 2, 1), Look::dark_steel}, asset_mesh)}};
    for (const MeasuredPart& other : {wall, pin}) {
        double least = 1e300;
        for (int i = 0; i < 48; ++i)
            least = std::min(
                least, gap_between(part, turned({1, 0, 0}, i * pi / 24 + std::atan2(3.0, 4.0)),
                                   other, glm::dmat4(1), 1e300, 1e300)
                           .gap);
        const double bound = gap_between(turning, glm::dmat4(1), other, glm::dmat4(1)).gap;
        CHECK(bound <= least);
        CHECK(bound >= least - 0.01);
    }
}

}  // namespace podwright
