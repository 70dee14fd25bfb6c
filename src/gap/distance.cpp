#include "gap/distance.hpp"

#include <algorithm>
#include <cmath>

#include "gap/general.hpp"
#include "gap/leaning.hpp"
#include "gap/mesh_wall.hpp"
#include "gap/parallel.hpp"
#include "gap/plate.hpp"
#include "gap/round.hpp"

namespace podwright {

namespace {

using glm::dvec3;

constexpr double parallel_tolerance = 1e-10;  // mm

/// The faster ways for axes at an angle; false if none of them will do.
bool offer_tilted(const Form& a, const Form& b, const Frame& to_b, double tolerance, Gap& best) {
    if (offer_plate(a, b, to_b, best)) return true;
    return b.kind == Form::Kind::prism ? offer_leaning(a, b, to_b, tolerance, best)
                                       : offer_round(a, b, to_b, tolerance, best);
}

void offer(const Form& a, const Frame& place_a, const Form& b, const Frame& place_b,
           double tolerance, Gap& best);

/// offer() for the pair in the other order: `second` of it is measured first.
void offer_turned(const Form& first, const Frame& first_place, const Form& second,
                  const Frame& second_place, double tolerance, Gap& best) {
    const double before = best.gap;
    offer(first, first_place, second, second_place, tolerance, best);
    if (best.gap >= before) return;
    std::swap(best.a, best.b);
    best.normal = -best.normal;
}

/// Updates `best`, in pod axes, if the gap of the pair is smaller.
void offer(const Form& a, const Frame& place_a, const Form& b, const Frame& place_b,
           double tolerance, Gap& best) {
    if (b.facets && !a.facets) {
        offer_turned(b, place_b, a, place_a, tolerance, best);
        return;
    }
    if (a.kind == Form::Kind::prism && b.kind == Form::Kind::revolved && !a.facets && !b.facets) {
        offer_turned(b, place_b, a, place_a, tolerance, best);
        return;
    }
    const Frame to_b = place_a.to(place_b);
    Gap found;
    found.gap = best.gap;
    const bool parallel = parallel_error(a, b, to_b) < parallel_tolerance;
    if (a.facets)
        offer_mesh(a, b, to_b, tolerance, found);
    else if (parallel)
        offer_parallel(a, b, to_b, found);
    else if (!offer_tilted(a, b, to_b, tolerance, found))
        offer_general(a, b, to_b, found);
    if (found.gap >= best.gap) return;
    best = found;
    best.a = place_a(found.a);
    best.b = place_a(found.b);
    best.normal = place_a.turn * found.normal;
    best.exact = !a.hull && !b.hull;
}

/// The same, with the triangles of a mesh where its hull comes near.
void offer_near(const Form& a, const Frame& place_a, const Form& b, const Frame& place_b,
                double meshes_below, double tolerance, Gap& best) {
    Gap hulls = best;
    offer(a, place_a, b, place_b, tolerance, hulls);
    if (hulls.gap >= best.gap) return;
    if (hulls.gap >= meshes_below || (!a.mesh && !b.mesh)) {
        best = hulls;
        return;
    }
    offer(a.mesh ? *a.mesh : a, place_a, b.mesh ? *b.mesh : b, place_b, tolerance, best);
}

/// The farthest that a form reaches along `way` (its own frame).
dvec3 support(const Form& form, const dvec3& way) {
    const glm::dvec2 across(way.y, way.z);
    const double radial = glm::length(across);
    if (form.facets) {
        dvec3 best = form.facets->triangles().front()[0];
        for (const auto& triangle : form.facets->triangles())
            for (const dvec3& p : triangle)
                if (glm::dot(p - best, way) > 0) best = p;
        return best;
    }
    if (form.kind == Form::Kind::prism) {
        glm::dvec2 best = form.region.elements.front().a;
        for (const Element& e : form.region.elements)
            if (const glm::dvec2 p = extreme(e, across); glm::dot(p - best, across) > 0) best = p;
        return {way.x > 0 ? form.high : form.low, best};
    }
    const glm::dvec2 in_plane(way.x, radial);
    glm::dvec2 best = form.region.elements.front().a;
    for (const Element& e : form.region.elements)
        if (const glm::dvec2 p = extreme(e, in_plane); glm::dot(p - best, in_plane) > 0) best = p;
    const glm::dvec2 out = radial > 0 ? across / radial : glm::dvec2(0, 1);
    return {best.x, out * best.y};
}

struct Placed {
    Frame frame;
    Bounds box;
};
Placed placed(const Form& body, const Frame& part) {
    const Frame frame = part * body.place;
    return {frame, bounds(body, frame)};
}

}  // namespace

MeasuredPart measured(const Part& part, const MeshLibrary& imports) {
    MeasuredPart result;
    result.forms.reserve(part.bodies.size());
    for (const Body& body : part.bodies) result.forms.push_back(form_of(body, imports));
    return result;
}

Gap gap_between(const Form& a, const Frame& place_a, const Form& b, const Frame& place_b,
                double beyond) {
    Gap best;
    best.gap = beyond;
    offer(a, place_a, b, place_b, usual_tolerance, best);
    return best;
}

Gap gap_between(const MeasuredPart& a, const glm::dmat4& place_a, const MeasuredPart& b,
                const glm::dmat4& place_b, double beyond, double meshes_below, double tolerance) {
    const Frame frame_a = frame_of(place_a), frame_b = frame_of(place_b);
    Gap best;
    best.gap = beyond;
    if (a.forms.empty() || b.forms.empty()) return best;
    std::vector<Placed> of_a, of_b;
    for (const Form& body : a.forms) of_a.push_back(placed(body, frame_a));
    for (const Form& body : b.forms) of_b.push_back(placed(body, frame_b));
    const auto least = [&](std::size_t i, std::size_t j) {
        return least_distance(of_a[i].box, of_b[j].box);
    };
    const auto measure = [&](std::size_t i, std::size_t j) {
        offer_near(a.forms[i], of_a[i].frame, b.forms[j], of_b[j].frame, meshes_below, tolerance,
                   best);
    };
    // The nearest boxes first: what they yield lets most other pairs be skipped.
    std::size_t first_a = 0, first_b = 0;
    double nearest = 1e300;
    for (std::size_t i = 0; i < of_a.size(); ++i)
        for (std::size_t j = 0; j < of_b.size(); ++j)
            if (least(i, j) < nearest) nearest = least(i, j), first_a = i, first_b = j;
    if (nearest >= best.gap) return best;
    measure(first_a, first_b);
    for (std::size_t i = 0; i < of_a.size(); ++i)
        for (std::size_t j = 0; j < of_b.size(); ++j)
            if ((i != first_a || j != first_b) && least(i, j) < best.gap) measure(i, j);
    return best;
}

Gap gap_to_plane(const MeasuredPart& part, const glm::dmat4& place, const dvec3& point,
                 const dvec3& normal) {
    const Frame frame = frame_of(place);
    Gap best;
    for (const Form& body : part.forms) {
        const Frame at = frame * body.place;
        const Form& form = body.mesh ? *body.mesh : body;
        const dvec3 p = at(support(form, -(glm::transpose(at.turn) * normal)));
        const double height = glm::dot(p - point, normal);
        if (height >= best.gap) continue;
        best = {height, p, p - normal * height, height < 0 ? normal : -normal, 0, true};
    }
    return best;
}

Bounds bounds(const Form& form, const Frame& place) {
    Bounds box;
    const dvec3 middle = place((form.box_low + form.box_high) * 0.5);
    const dvec3 half = (form.box_high - form.box_low) * 0.5;
    dvec3 reach{0};
    for (int i = 0; i < 3; ++i) {
        const double x = std::abs(place.turn[0][i]);
        const double y = std::abs(place.turn[1][i]), z = std::abs(place.turn[2][i]);
        reach[i] = form.kind == Form::Kind::revolved
                       ? half.x * x + form.radius * std::sqrt(std::max(0.0, 1 - x * x))
                       : half.x * x + half.y * y + half.z * z;
    }
    box.add(middle - reach);
    box.add(middle + reach);
    return box;
}

double least_distance(const Bounds& a, const Bounds& b) {
    const dvec3 apart = glm::max(a.low - b.high, b.low - a.high);
    if (apart.x <= 0 && apart.y <= 0 && apart.z <= 0) return -1e300;
    return glm::length(glm::max(apart, dvec3(0)));
}

}  // namespace podwright
