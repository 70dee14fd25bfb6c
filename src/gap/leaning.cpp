#include "gap/leaning.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "core/units.hpp"
#include "gap/sector.hpp"
#include "gap/wall_search.hpp"

namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;

constexpr double same_radius = 1e-9;  // mm

double cross(const dvec2& a, const dvec2& b) { return a.x * b.y - a.y * b.x; }
dvec2 across(const dvec3& p) { return {p.y, p.z}; }

Range both(const Range& a, const Range& b) {
    return {std::min(a.low, b.low), std::max(a.high, b.high)};
}

/// The arc about `centre` from the direction of `from` to that of `to`, less than half a turn.
Element arc_about(const dvec2& centre, double radius, const dvec2& from, const dvec2& to) {
    const double half = cross(from, to) / (1 + glm::dot(from, to));  // tangent of half the angle
    const double bulge = half / (1 + std::sqrt(1 + half * half));
    return arc_element(centre + from * radius, centre + to * radius, bulge);
}

/// The wall of a form as an extruded one, b, sees it along its own axis.
class LeaningWall {
public:
    /// Turned: rings about a line along a's x axis, from (x, r) = p0 to p1. Flat: from p0 to p1 of
    /// the outline, along x from t0 to t1.
    struct Patch {
        const Element* element = nullptr;
        bool turned = true;
        double s0 = 0, s1 = 1;
        dvec2 p0{0}, p1{0};
        dvec2 centre{0};   // of the rings, in a's (y, z)
        double bulge = 0;  // of a's wall over what is said above
        Sector sector{};
        double t0 = 0, t1 = 0;
        double bound = 0;
        double along_s = 0, along_t = 0;  // how much slack is due to each
    };

    LeaningWall(const Form& a, const Form& b, const Frame& to_b)
        : a_(a), b_(b), to_b_(to_b), lean_(to_b.turn[0].y, to_b.turn[0].z) {
        for (int i = 0; i < 3; ++i) {
            axis_[i] = {to_b.turn[1][i], to_b.turn[2][i]};
        }
    }

    std::vector<Patch> patches() const {
        std::vector<Patch> all;
        for (const Element& e : a_.region.elements)
            a_.kind == Form::Kind::revolved ? add_rings(e, all) : add_wall(e, all);
        return all;
    }

    dvec3 bound(Patch& patch, double reach) const {
        return patch.turned ? bound_turned(patch, reach) : bound_flat(patch, reach);
    }

    static void halve(const Patch& patch, Patch& first, Patch& second) {
        first = second = patch;
        const bool split_s = patch.along_s > patch.along_t;
        if (!split_s && patch.turned) return patch.sector.halve(first.sector, second.sector);
        if (!split_s) {
            first.t1 = second.t0 = (patch.t0 + patch.t1) / 2;
            return;
        }
        first.s1 = second.s0 = (patch.s0 + patch.s1) / 2;
        // Along the stretch a curved element is followed; a straight one, and the length of an
        // extruded arc, is divided.
        const bool follow = patch.bulge > 0;
        first.p1 = second.p0 = follow ? patch.element->at(first.s1) : (patch.p0 + patch.p1) * 0.5;
        if (!follow) return;
        first.bulge = patch.element->sagitta(first.s0, first.s1);
        second.bulge = patch.element->sagitta(second.s0, second.s1);
    }

private:
    static void add_rings(const Element& e, std::vector<Patch>& all) {
        for (int i = 0; i < 4; ++i) {
            Patch patch;
            patch.element = &e;
            patch.p0 = e.a;
            patch.p1 = e.b;
            patch.bulge = e.sagitta(0, 1);
            patch.sector = Sector::of(i * pi / 2, (i + 1) * pi / 2);
            all.push_back(patch);
        }
    }
    void add_wall(const Element& e, std::vector<Patch>& all) const {
        Patch patch;
        patch.element = &e;
        if (e.kind != Element::Kind::arc) {
            patch.turned = false;
            patch.p0 = e.a;
            patch.p1 = e.b;
            patch.t0 = a_.low;
            patch.t1 = a_.high;
            patch.bulge = e.sagitta(0, 1);
            all.push_back(patch);
            return;
        }
        patch.centre = e.centre;
        patch.p0 = {a_.low, e.radius};
        patch.p1 = {a_.high, e.radius};
        const double start = e.sign > 0 ? e.from : e.from - e.last;
        const int parts = std::max(1, static_cast<int>(std::ceil(e.last * 2 / pi - 1e-9)));
        for (int i = 0; i < parts; ++i) {
            patch.sector = Sector::of(start + e.last * i / parts, start + e.last * (i + 1) / parts);
            all.push_back(patch);
        }
    }

    /// A vector of a's (y, z), and one along x, as b sees them along its axis.
    dvec2 seen(const dvec2& v) const { return axis_[1] * v.x + axis_[2] * v.y; }
    /// The axis of rings at x.
    dvec3 centre_at(const Patch& patch, double x) const { return to_b_.back({x, patch.centre}); }

    /// How far along its axis something is off b's faces.
    double off(const Range& x) const { return std::max({0.0, b_.low - x.high, x.low - b_.high}); }

    static double together(double planar, double slack, double axial, double bulge) {
        return std::hypot(std::max(0.0, planar - slack), axial) - bulge;
    }

    /// Nearest place of b's outline to some curves; `inside`: a point of what they bound. Returns
    /// the distance, 0 where they overlap, and the place on the curves.
    double planar(std::initializer_list<const Element*> curves, const dvec2& inside, double reach,
                  dvec2& place) const {
        Closest nearest;
        if (reach < 1e100) nearest.squared = reach * reach;
        const double before = nearest.squared;
        if (b_.region.contains(inside)) {
            place = inside;
            return 0;
        }
        for (const Element* curve : curves) {
            offer_closest(b_.region, *curve, nearest);
            if (nearest.squared <= 0) break;
        }
        if (nearest.squared < before) place = nearest.b;
        return std::sqrt(nearest.squared);
    }

    /// A piece of a ring: between two directions, u and v, and two radii.
    struct RingPiece {
        dvec2 centre, u, v, along;
        double inner, outer;

        bool contains(const dvec2& p) const {
            const dvec2 way = p - centre;
            const double squared = glm::dot(way, way), sense = cross(u, v);
            return squared >= inner * inner && squared <= outer * outer &&
                   glm::dot(way, along) > 0 && cross(u, way) * sense >= 0 &&
                   cross(way, v) * sense >= 0;
        }
    };
    /// Whether some corner of b's outline lies in the piece; puts it into `place`.
    bool holds_corner(const RingPiece& piece, dvec2& place) const {
        for (const Region::Run& run : b_.region.runs) {
            const dvec2& corner = b_.region.elements[run.begin].a;
            if (!piece.contains(corner)) continue;
            place = corner;
            return true;
        }
        return false;
    }

    dvec3 bound_turned(Patch& patch, double reach) const;
    dvec3 bound_flat(Patch& patch, double reach) const;

    const Form& a_;
    const Form& b_;
    const Frame to_b_;
    dvec2 lean_;     // how b's axis looks along a's (y, z)
    dvec2 axis_[3];  // how a's axes look along b's (y, z)
};

dvec3 LeaningWall::bound_turned(Patch& patch, double reach) const {
    const Sector& sector = patch.sector;
    const dvec3 c0 = centre_at(patch, patch.p0.x), c1 = centre_at(patch, patch.p1.x);
    const Range x0 = sector.range(c0.x, lean_ * patch.p0.y);
    const Range x1 = sector.range(c1.x, lean_ * patch.p1.y);
    const double axial = off(both(x0, x1));
    const dvec2 from = seen(sector.d0), to = seen(sector.d1);
    // A unit vector of a's (y, z) looks as long as the root of 1 - lean².
    const Range lean = sector.range(0, lean_);
    const double most_lean = lean.most();
    const double least_lean =
        lean.low <= 0 && lean.high >= 0 ? 0 : std::min(std::abs(lean.low), std::abs(lean.high));
    const Range length{std::sqrt(1 - most_lean * most_lean),
                       std::sqrt(1 - least_lean * least_lean)};
    const double inner = std::min(patch.p0.y, patch.p1.y) * length.low;
    const double outer = std::max(patch.p0.y, patch.p1.y) * length.high;
    const bool tube = std::abs(patch.p0.y - patch.p1.y) < same_radius;

    const dvec2 centre = across(c0 + c1) * 0.5;
    const double shift = glm::length(across(c1 - c0)) / 2;
    const double slack = shift + (tube ? (outer - inner) / 2 : 0);
    const double tilted = axial > 0 ? std::max(x0.half(), x1.half()) : 0;
    const double stretched = axial > 0 ? std::abs(x0.middle() - x1.middle()) / 2 : 0;
    const double size = 1e-4 * (patch.sector.t1 - patch.sector.t0);
    patch.along_t = std::max({tilted, tube ? slack - shift : 0.0, size});
    patch.along_s = std::max({stretched, shift, patch.bulge});

    double share_t = 0.5, share_s = 0.5;
    patch.bound = std::max(patch.bound, axial - patch.bulge);
    if (patch.bound < reach) {
        const dvec2 u = glm::normalize(from), v = glm::normalize(to);
        const dvec2 along = glm::normalize(u + v);
        const dvec2 inside = centre + along * ((inner + outer) / 2);
        dvec2 place = inside;
        const double limit = reach + slack + patch.bulge;
        double distance = 0;
        if (tube) {
            const Element arc = arc_about(centre, (inner + outer) / 2, u, v);
            distance = planar({&arc}, inside, limit, place);
        } else if (!holds_corner({centre, u, v, along, inner, outer}, place)) {
            const Element far = arc_about(centre, outer, u, v);
            const Element first = line_element(centre + u * inner, centre + u * outer);
            const Element second = line_element(centre + v * inner, centre + v * outer);
            if (inner > same_radius) {
                const Element near = arc_about(centre, inner, u, v);
                distance = planar({&far, &near, &first, &second}, inside, limit, place);
            } else {
                distance = planar({&far, &first, &second}, inside, limit, place);
            }
        }
        if (!tube) {
            const double r0 = patch.p0.y * length.middle(), r1 = patch.p1.y * length.middle();
            share_s = std::clamp((glm::length(place - centre) - r0) / (r1 - r0), 0.0, 1.0);
        }
        if (tube && axial > 0) share_s = off(x0) < off(x1) ? 0 : 1;
        const dvec2 chord = v - u, at = glm::normalize(place - centre) - u;
        share_t = std::clamp(glm::dot(at, chord) / glm::dot(chord, chord), 0.0, 1.0);
        patch.bound = std::max(patch.bound, together(distance, slack, axial, patch.bulge));
    }
    const bool follow = patch.bulge > 0;
    const dvec2 p = follow ? patch.element->at(patch.s0 + (patch.s1 - patch.s0) * share_s)
                           : patch.p0 + (patch.p1 - patch.p0) * share_s;
    const dvec2 d = Sector::direction(sector.t0 + (sector.t1 - sector.t0) * share_t);
    return {p.x, patch.centre + d * p.y};
}

dvec3 LeaningWall::bound_flat(Patch& patch, double reach) const {
    const dvec3 p00 = to_b_.back({patch.t0, patch.p0}), p01 = to_b_.back({patch.t1, patch.p0});
    const dvec3 p10 = to_b_.back({patch.t0, patch.p1}), p11 = to_b_.back({patch.t1, patch.p1});
    const Range x{std::min({p00.x, p01.x, p10.x, p11.x}), std::max({p00.x, p01.x, p10.x, p11.x})};
    const double axial = off(x);
    const double slack = glm::length(across(p01 - p00)) / 2;
    patch.along_s = std::max({axial > 0 ? std::abs(p10.x - p00.x) / 2 : 0.0, patch.bulge,
                              1e-4 * glm::length(patch.p1 - patch.p0)});
    patch.along_t = std::max(axial > 0 ? std::abs(p01.x - p00.x) / 2 : 0.0, slack);
    double share_s = 0.5, share_t = 0.5;
    patch.bound = std::max(patch.bound, axial - patch.bulge);
    if (patch.bound < reach) {
        const Element line = line_element(across(p00 + p01) * 0.5, across(p10 + p11) * 0.5);
        dvec2 place = (line.a + line.b) * 0.5;
        const double distance = planar({&line}, place, reach + slack + patch.bulge, place);
        const dvec2 way = line.b - line.a;
        share_s = std::clamp(glm::dot(place - line.a, way) / glm::dot(way, way), 0.0, 1.0);
        const auto off_at = [&](double at) { return off({at, at}); };
        if (axial > 0) share_t = off_at(p00.x) < off_at(p01.x) ? 0 : 1;
        patch.bound = std::max(patch.bound, together(distance, slack, axial, patch.bulge));
    }
    const dvec2 p = patch.element->at(patch.s0 + (patch.s1 - patch.s0) * share_s);
    return {patch.t0 + (patch.t1 - patch.t0) * share_t, p};
}

/// Searches the wall of `a`; false if they may overlap.
bool search_wall(const Form& a, const Form& b, const Frame& to_b, double tolerance, Gap& best) {
    const LeaningWall wall(a, b, to_b);
    WallSearch<LeaningWall> search(wall, a, b, to_b, tolerance, best.gap);
    if (!search.run() || !search.finished()) return false;
    if (search.found()) best = search.result();
    return true;
}

}  // namespace

bool offer_leaning(const Form& a, const Form& b, const Frame& to_b, double tolerance, Gap& best) {
    if (best.gap < may_overlap || std::abs(to_b.turn[0].x) < leans_little) return false;
    Gap found = best;
    if (!search_wall(a, b, to_b, tolerance, found)) return false;
    if (a.kind == Form::Kind::prism) {
        // The other way round; what each search left aside counts.
        const Frame to_a{glm::transpose(to_b.turn), to_b.back({0, 0, 0})};
        const double bound = found.gap - found.within;
        Gap turned = found;
        if (!search_wall(b, a, to_a, tolerance, turned)) return false;
        if (turned.gap < found.gap) {
            found = {turned.gap,     to_b(turned.b),
                     to_b(turned.a), -(to_b.turn * turned.normal),
                     turned.within,  true};
            found.within = std::max(turned.within, turned.gap - bound);
        }
    }
    best = found;
    return true;
}

}  // namespace podwright
