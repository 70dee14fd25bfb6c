#include "gap/parallel.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/units.hpp"
#include "gap/depth.hpp"

namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;

constexpr double touching = 1e-11;  // mm; less is no distance
constexpr double coaxial = 1e-13;   // mm

/// b's axis laid parallel to a's through b's middle.
struct Axes {
    double sense;  ///< +1 or -1: b's x along a's
    dvec2 centre;  ///< b's axis in a's (y, z)
    double along;  ///< x of b's frame in a's

    double x(double of_b) const { return along + sense * of_b; }
};

Axes axes_of(const Form& b, const Frame& to_b) {
    const double sense = to_b.turn[0].x > 0 ? 1 : -1;
    const dvec3 middle = to_b(dvec3(b.middle(), 0, 0));
    return {sense, {middle.y, middle.z}, middle.x - sense * b.middle()};
}

/// A pair in (x, r) where both points stand on the line `out` from a's axis.
void store(Gap& best, double gap, const dvec2& a, const dvec2& b, const dvec2& out,
           const dvec3& normal) {
    best.gap = gap;
    best.a = dvec3(a.x, out * a.y);
    best.b = dvec3(b.x, out * b.y);
    best.normal = normal;
}

/// Square of the distance that a pair must beat. Never so small that apart and touching look alike.
double squared_limit(const Gap& best) {
    if (best.gap > 1e150) return 1e300;
    const double limit = std::max(best.gap, 2 * touching);
    return limit * limit;
}

dvec3 unit_between(const dvec3& a, const dvec3& b, const dvec3& otherwise) {
    const double length = glm::length(b - a);
    return length > 0 ? (b - a) / length : otherwise;
}

/// How b's profile is laid into a's half-plane; `side` tells on which side of a's axis it then is.
struct Image {
    PlaneMotion motion;
    double side;
};
struct Images {
    std::array<Image, 3> all;
    std::size_t count;
    Axes axes;
    double d;   ///< distance of the axes
    dvec2 out;  ///< from a's axis to b's
};

Images images_of(const Form& b, const Axes& axes) {
    const double d = glm::length(axes.centre);
    const auto image = [&](double turn, double shift, double side) {
        return Image{{glm::dmat2(axes.sense, 0, 0, turn), {axes.along, shift}}, side};
    };
    Images images{{}, 0, axes, d, d > coaxial ? axes.centre / d : dvec2(0, 1)};
    if (d <= coaxial) {
        images.all[images.count++] = image(1, 0, 1);
        return images;
    }
    images.all[images.count++] = image(-1, d, 1);
    if (b.radius > d) images.all[images.count++] = image(1, -d, -1);
    images.all[images.count++] = image(1, d, 1);
    return images;
}

/// What the ring (x, radius) of b fills of a's half-plane between its images.
Element filled(const Images& images, const dvec2& ring) {
    const double x = images.axes.x(ring.x);
    return line_element({x, std::abs(images.d - ring.y)}, {x, images.d + ring.y});
}

/// Way from a's axis to the point of b's ring of `radius` that lies `from_axis` from it.
dvec2 way_to(const Images& images, double radius, double from_axis) {
    const double d = images.d;
    if (from_axis <= 0) return images.out;
    const double c = std::clamp(
        (d * d + from_axis * from_axis - radius * radius) / (2 * d * from_axis), -1.0, 1.0);
    return images.out * c + dvec2(-images.out.y, images.out.x) * std::sqrt(1 - c * c);
}

/// The rings at the corners of b's profile and where its arcs reach farthest along x: a face seen
/// from the side ends in one of them.
template <class Take>
void each_ring(const Form& b, Take take) {
    constexpr double least = 1e-12;
    for (const Element& e : b.region.elements) {
        for (const dvec2& p : {e.a, e.b})
            if (p.y > least) take(p);
        if (e.kind != Element::Kind::arc) continue;
        for (const dvec2& way : {dvec2(1, 0), dvec2(-1, 0)})
            if (e.faces(way) && e.centre.y > least) take(e.centre + way * e.radius);
    }
}

/// True if a ring of `radius` about a's axis at b's `x` meets b's material; boundaries apart.
bool ring_in(const Region& b, double x, double d, double radius) {
    const dvec2 low(x, std::abs(d - radius)), high(x, d + radius);
    if (b.contains(low) || b.contains(high)) return true;
    if (high.y - low.y < 1e-12) return false;
    const Element ring = line_element(low, high);
    return std::any_of(b.elements.begin(), b.elements.end(), [&](const Element& e) {
        Closest closest;
        offer_closest(ring, e, closest);
        return closest.squared <= 0;
    });
}

bool nested(const Form& a, const Form& b, const Axes& axes) {
    const double d = glm::length(axes.centre);
    const dvec2 of_a = a.region.elements.front().a, of_b = b.region.elements.front().a;
    const double x = axes.sense * (of_a.x - axes.along);
    if (x >= b.low && x <= b.high && ring_in(b.region, x, d, of_a.y)) return true;
    return a.region.contains({axes.x(of_b.x), std::abs(d - of_b.y)});
}

/// Deepest point of b's surface in a. Between its images a ring is looked at for some rings only.
void offer_depth(const Form& a, const Images& images, const Form& b, bool swapped, Gap& best) {
    const auto offer = [&](const Element& e, auto out_of) {
        Deepest deepest;
        deepest.depth = std::max(0.0, -best.gap);
        offer_deepest(a.region, e, deepest);
        best.within = std::max(best.within, deepest.within);
        if (!deepest.found) return;
        const dvec2 out = out_of(deepest.point);
        const dvec2 way = (deepest.foot - deepest.point) / deepest.depth;
        store(best, -deepest.depth, deepest.foot, deepest.point, out, dvec3(way.x, out * way.y));
        if (swapped) best.normal = -best.normal;
    };
    for (std::size_t i = 0; i < images.count; ++i)
        for (const Element& e : b.region.elements)
            offer(moved(e, images.all[i].motion),
                  [&](const dvec2&) { return images.out * images.all[i].side; });
    if (images.d <= coaxial) return;
    const auto offer_ring = [&](const dvec2& ring) {
        offer(filled(images, ring),
              [&](const dvec2& point) { return way_to(images, ring.y, point.y); });
    };
    each_ring(b, offer_ring);
    for (const Element& e : b.region.elements)
        for (const double share : {0.25, 0.5, 0.75})
            if (const dvec2 ring = e.at(share); ring.y > 1e-12) offer_ring(ring);
}

void swap_into(const Frame& to_b, const Gap& from, Gap& best) {
    best = from;
    best.a = to_b(from.b);
    best.b = to_b(from.a);
    best.normal = to_b.turn * from.normal;
}

void revolved_pair(const Form& a, const Form& b, const Frame& to_b, Gap& best) {
    const Axes axes = axes_of(b, to_b);
    const Images images = images_of(b, axes);
    Closest closest;
    closest.squared = squared_limit(best);
    const double limit = closest.squared;
    dvec2 out = images.out;
    for (std::size_t i = 0; i < images.count; ++i) {
        const double before = closest.squared;
        offer_closest(a.region, b.region, images.all[i].motion, closest);
        if (closest.squared < before) out = images.out * images.all[i].side;
    }
    if (images.d > coaxial)
        each_ring(b, [&](const dvec2& ring) {
            const double before = closest.squared;
            offer_closest(a.region, filled(images, ring), closest);
            if (closest.squared < before) out = way_to(images, ring.y, closest.b.y);
        });
    const double gap = std::sqrt(closest.squared);
    if (gap > touching && !nested(a, b, axes)) {
        if (closest.squared >= limit) return;
        store(best, gap, closest.a, closest.b, out, {});
        best.normal = unit_between(best.a, best.b, {0, out});
        return;
    }
    if (closest.squared < limit && best.gap > 0)
        store(best, 0, closest.a, closest.b, out, {0, out});
    if (best.gap > 0) best.gap = 0;
    offer_depth(a, images, b, false, best);
    const Frame to_a{glm::transpose(to_b.turn), to_b.back({0, 0, 0})};
    Gap other;
    other.gap = std::min(best.gap, 0.0);
    const Gap before = other;
    offer_depth(b, images_of(a, axes_of(a, to_a)), a, true, other);
    const double within = std::max(best.within, other.within);
    if (other.gap < before.gap) swap_into(to_b, other, best);
    best.within = within;
}

/// A point of the prism (its y, z) at the distance `radius` from `centre`, which lies between its
/// least and greatest.
dvec2 prism_point(const Region& region, const dvec2& centre, double radius, const dvec2& foot) {
    const auto excess = [&](const dvec2& p) { return glm::length(p - centre) - radius; };
    const double direct = glm::length(foot - centre);
    dvec2 best = foot;
    const auto offer = [&](const dvec2& p) {
        if (std::abs(excess(p)) < std::abs(excess(best))) best = p;
    };
    offer(farthest_edge(region, centre).at);
    if (std::abs(excess(best)) < 1e-9) return best;
    const dvec2 straight_on = centre + (foot - centre) * (direct > 0 ? radius / direct : 1);
    if (region.contains(straight_on)) return straight_on;
    // Where the edge passes from nearer to farther.
    constexpr int pieces = 8;
    for (const Element& e : region.elements)
        for (int k = 0; k < pieces; ++k) {
            double low = static_cast<double>(k) / pieces, high = (k + 1.0) / pieces;
            const bool nearer = excess(e.at(low)) < 0;
            if (nearer == (excess(e.at(high)) < 0)) continue;
            for (int i = 0; i < 60; ++i) {
                const double middle = (low + high) / 2;
                ((excess(e.at(middle)) < 0) == nearer ? low : high) = middle;
            }
            return e.at(low);
        }
    // The edge keeps to one side: the circle runs through the material.
    const dvec2 across = centre + dvec2(0, radius);
    if (region.contains(across)) return across;
    for (const Element& e : region.elements) offer(farthest(e, centre));
    return best;
}

/// `a` revolved, `b` a prism.
void revolved_and_prism(const Form& a, const Form& b, const Frame& to_b, Gap& best) {
    const Axes axes = axes_of(b, to_b);
    // a's axis in the prism's plane.
    const glm::dmat2 turn{to_b.turn[1].y, to_b.turn[1].z, to_b.turn[2].y, to_b.turn[2].z};
    const dvec2 centre = glm::transpose(turn) * -axes.centre;
    const Foot foot = signed_foot(b.region, centre);
    const double least = std::max(0.0, foot.distance);
    const double limit = std::max(2 * touching, best.gap);
    const double x0 = axes.sense > 0 ? axes.x(b.low) : axes.x(b.high);
    const double x1 = x0 + (b.high - b.low);
    if (least - a.radius >= limit || x0 - a.high >= limit || a.low - x1 >= limit) return;
    // No need of the far edge if a has no hole to hold the prism.
    const double inside = a.region.low.y;
    const double most = inside > 1e-9 ? farthest_edge(b.region, centre).distance
                                      : least + 2 * (a.radius + b.radius);
    if (inside > 1e-9 && inside - most >= limit) return;

    const std::array<Element, 4> sides{
        line_element({x0, least}, {x1, least}), line_element({x1, least}, {x1, most}),
        line_element({x1, most}, {x0, most}), line_element({x0, most}, {x0, least})};
    Closest closest;
    closest.squared = squared_limit(best);
    for (const Element& e : a.region.elements)
        for (const Element& side : sides) offer_closest(e, side, closest);
    const auto write = [&](double gap, const dvec2& on_a, const dvec2& on_b, const dvec2& way) {
        const dvec2 q = prism_point(b.region, centre, on_b.y, foot.at);
        const dvec2 across = turn * (q - centre);
        const double r = glm::length(across);
        const dvec2 out = r > 0 ? across / r : dvec2(0, 1);
        store(best, gap, on_a, on_b, out, dvec3(way.x, out * way.y));
    };
    const double gap = std::sqrt(closest.squared);
    const dvec2 of_a = a.region.elements.front().a;
    const bool in_b = of_a.x > x0 && of_a.x < x1 && of_a.y > least && of_a.y < most;
    if (gap > touching && !in_b && !a.region.contains({x0, least})) {
        if (gap < limit) write(gap, closest.a, closest.b, (closest.b - closest.a) / gap);
        return;
    }
    if (best.gap > 0) write(0, closest.a, closest.b, {0, 1});
    Deepest deepest;
    deepest.depth = std::max(0.0, -best.gap);
    for (const Element& side : sides) offer_deepest(a.region, side, deepest);
    best.within = std::max(best.within, deepest.within);
    if (deepest.found)
        write(-deepest.depth, deepest.foot, deepest.point,
              (deepest.foot - deepest.point) / deepest.depth);
    // Where no surface of the prism lies in a, all of a lies in the prism or they only touch.
    if (!deepest.found && !in_b) return;
    constexpr double close_enough = 1e-4;
    deepest_of_surface(a, b, to_b, close_enough, best);
}

/// Depth of two overlapping outlines, deepest edge point of either in the other.
Deepest planar_depth(const Region& a, const Region& b, const PlaneMotion& motion, bool& swapped) {
    Deepest best;
    for (const Element& e : b.elements) offer_deepest(a, moved(e, motion), best);
    const glm::dmat2 back = glm::transpose(motion.turn);
    const PlaneMotion inverse{back, back * -motion.shift};
    Deepest other;
    other.depth = best.depth;
    other.within = best.within;
    for (const Element& e : a.elements) offer_deepest(b, moved(e, inverse), other);
    swapped = other.found;
    if (!swapped) {
        best.within = other.within;
        return best;
    }
    return {other.depth, motion(other.point), motion(other.foot), true, other.within};
}

void prism_pair(const Form& a, const Form& b, const Frame& to_b, Gap& best) {
    const Axes axes = axes_of(b, to_b);
    const double x0 = axes.sense > 0 ? axes.x(b.low) : axes.x(b.high);
    const double x1 = x0 + (b.high - b.low);
    const double axial = std::max(x0 - a.high, a.low - x1);
    if (axial >= best.gap) return;
    const glm::dmat2 turn{to_b.turn[1].y, to_b.turn[1].z, to_b.turn[2].y, to_b.turn[2].z};
    const PlaneMotion motion{turn, axes.centre - turn * dvec2(0)};
    Closest closest;
    closest.squared = squared_limit(best);
    if (closest.squared < 1e150 && axial > 0) closest.squared -= axial * axial;
    const double allowed = closest.squared;
    offer_closest(a.region, b.region, motion, closest);
    double planar = std::sqrt(closest.squared);
    dvec2 pa = closest.a, pb = closest.b;
    if (planar > touching) {
        const dvec2 of_b = motion(b.region.elements.front().a);
        const dvec2 of_a = a.region.elements.front().a;
        const dvec2 seen = glm::transpose(turn) * (of_a - motion.shift);
        const bool b_in_a = a.region.contains(of_b);
        if (b_in_a || b.region.contains(seen)) {
            planar = 0;
            pa = pb = b_in_a ? of_b : of_a;
        } else if (closest.squared >= allowed) {
            return;
        }
    }
    const double sense = x0 + x1 > a.low + a.high ? 1 : -1;
    const double face_a = sense > 0 ? a.high : a.low, face_b = sense > 0 ? x0 : x1;
    const double shared = (std::max(x0, a.low) + std::min(x1, a.high)) / 2;
    if (axial > 0 || planar > touching) {
        const double gap = std::hypot(std::max(axial, 0.0), planar);
        if (gap >= best.gap) return;
        best.gap = gap;
        best.a = dvec3(axial > 0 ? face_a : shared, pa);
        best.b = dvec3(axial > 0 ? face_b : shared, pb);
        best.normal = unit_between(best.a, best.b, {sense, 0, 0});
        return;
    }
    bool swapped = false;
    Deepest depth = planar_depth(a.region, b.region, motion, swapped);
    if (!depth.found) depth = {0, pb, pa, false, depth.within};
    if (-axial < depth.depth) {
        if (axial >= best.gap) return;
        best.gap = axial;
        best.a = dvec3(face_a, depth.point);
        best.b = dvec3(face_b, depth.point);
        best.normal = {sense, 0, 0};
        return;
    }
    if (-depth.depth >= best.gap) return;
    const dvec3 foot(shared, depth.foot), point(shared, depth.point);
    best.gap = -depth.depth;
    best.within = depth.within;
    best.a = swapped ? point : foot;
    best.b = swapped ? foot : point;
    best.normal = unit_between(best.b, best.a, {sense, 0, 0});
}

}  // namespace

double parallel_error(const Form& a, const Form& b, const Frame& to_b) {
    const double sine = std::hypot(to_b.turn[0].y, to_b.turn[0].z);
    const auto reach = [](const Form& form) { return form.high - form.low + form.radius; };
    return sine * std::min(reach(a), reach(b));
}

void offer_parallel(const Form& a, const Form& b, const Frame& to_b, Gap& best) {
    const bool round_a = a.kind == Form::Kind::revolved, round_b = b.kind == Form::Kind::revolved;
    if (round_a && round_b) return revolved_pair(a, b, to_b, best);
    if (!round_a && !round_b) return prism_pair(a, b, to_b, best);
    if (round_a) return revolved_and_prism(a, b, to_b, best);
    const Frame to_a{glm::transpose(to_b.turn), to_b.back({0, 0, 0})};
    Gap other;
    other.gap = best.gap;
    revolved_and_prism(b, a, to_a, other);
    if (other.gap >= best.gap) return;
    swap_into(to_b, other, best);
    best.normal = -best.normal;
}

}  // namespace podwright
