#include "gap/plate.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;

constexpr double square = 1e-12;      // cosine of what still counts as a right angle
constexpr double least_apart = 1e-7;  // mm between the solid and the plane of the face
constexpr double sharp = 1e-6;        // mm, of the search along an edge

/// The face of the prism in the frame of the revolved solid: x along the axis, v aside, at the
/// height -h below it.
struct Face {
    const Form& a;
    const Form& b;
    const Frame& to_b;
    dvec3 down{0}, aside{0};
    double h = 0;   ///< of the axis over the face
    double at = 0;  ///< x of the face in the prism's own frame
    Gap& best;

    dvec3 point(const dvec2& in_region) const { return to_b({at, in_region.x, in_region.y}); }
    /// Point of the space at x, v on the face.
    dvec3 on_face(double x, double v) const { return dvec3(x, 0, 0) + aside * v + down * h; }

    /// `q` on the face, `p` = (x, radius) of the profile in the half-plane through q.
    void offer(const dvec3& q, const dvec2& p, double distance, double within) {
        if (distance >= best.gap) return;
        const dvec2 across(q.y, q.z);
        const dvec2 out = across / glm::length(across);
        best.gap = distance;
        best.a = {p.x, out * p.y};
        best.b = q;
        best.normal = (best.b - best.a) / distance;
        best.within = within;
    }

    /// Nearest pair of a line in the half-plane and the profile.
    void offer_line(const dvec2& from, const dvec2& to, double v_sign, double known_v) {
        const Element line = line_element(from, to);
        Closest closest;
        for (const Element& e : a.region.elements) offer_closest(line, e, closest);
        const double distance = std::sqrt(closest.squared);
        if (distance >= best.gap) return;
        const double v = known_v >= 0
                             ? v_sign * known_v
                             : v_sign * std::sqrt(std::max(0.0, closest.a.y * closest.a.y - h * h));
        offer(on_face(closest.a.x, v), closest.b, distance, 0);
    }
};

/// Straight below the axis: the lowest places of the profile whose foot lies on the face.
void offer_inside(Face& face) {
    for (const Element& e : face.a.region.elements)
        for (const dvec2& p : {e.a, e.b, extreme(e, {0, 1})}) {
            const double distance = face.h - p.y;
            if (distance >= face.best.gap) continue;
            const dvec3 foot = face.on_face(p.x, 0);
            const dvec3 own = face.to_b.back(foot);
            if (face.b.region.contains({own.y, own.z})) face.offer(foot, p, distance, 0);
        }
}

/// An edge at any angle: halved until nothing on it can lie lower than what is found.
void search_edge(Face& face, const Element& edge, double from, double to, int depth) {
    const double middle = (from + to) / 2;
    const dvec3 q = face.point(edge.at(middle));
    const SurfacePoint nearest = signed_distance(face.a, q);
    const dvec2 profile(nearest.at.x, std::hypot(nearest.at.y, nearest.at.z));
    const double half = edge.length() * (to - from) / 2;
    face.offer(q, profile, nearest.distance, sharp);
    if (nearest.distance - half >= face.best.gap - sharp || depth == 0) return;
    search_edge(face, edge, from, middle, depth - 1);
    search_edge(face, edge, middle, to, depth - 1);
}

void offer_edge(Face& face, const Element& edge) {
    constexpr int deepest = 40;
    const dvec3 p = face.point(edge.a);
    const dvec3 q = face.point(edge.b);
    const double v = glm::dot(p, face.aside);
    const double w = glm::dot(q, face.aside);
    const auto radius = [&](double aside) { return std::hypot(aside, face.h); };
    if (edge.kind == Element::Kind::line && std::abs(v - w) < 1e-10) {
        face.offer_line({p.x, radius(v)}, {q.x, radius(v)}, v < 0 ? -1 : 1, std::abs(v));
    } else if (edge.kind == Element::Kind::line && std::abs(p.x - q.x) < 1e-10) {
        // The two sides of the axis are two lines; each begins where it is nearest to the axis.
        for (const double sign : {-1.0, 1.0}) {
            const double near = std::max(0.0, std::min(sign * v, sign * w));
            const double far = std::max(sign * v, sign * w);
            if (far <= near) continue;
            face.offer_line({p.x, radius(near)}, {p.x, radius(far)}, sign, -1);
        }
    } else {
        search_edge(face, edge, 0, 1, deepest);
    }
}

}  // namespace

bool offer_plate(const Form& a, const Form& b, const Frame& to_b, Gap& best) {
    if (a.kind != Form::Kind::revolved || b.kind != Form::Kind::prism || a.facets || b.facets)
        return false;
    const dvec3 along = to_b.turn[0];
    if (std::abs(along.x) > square) return false;
    const double low = glm::dot(along, to_b({b.low, 0, 0}));
    const double high = glm::dot(along, to_b({b.high, 0, 0}));
    const bool below = high < -a.radius - least_apart;
    if (!below && low < a.radius + least_apart) return false;

    Gap found;
    found.gap = best.gap;
    const dvec3 down = below ? -along : along;
    Face face{a,
              b,
              to_b,
              down,
              glm::cross(down, dvec3(1, 0, 0)),
              below ? -high : low,
              below ? b.high : b.low,
              found};
    if (face.h - a.radius >= best.gap) return true;
    offer_inside(face);
    for (const Element& edge : b.region.elements) offer_edge(face, edge);
    if (found.gap < best.gap) best = found;
    return true;
}

}  // namespace podwright
