#include "gap/round.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "core/units.hpp"
#include "gap/sector.hpp"
#include "gap/wall_search.hpp"

namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;

double cross(const dvec2& a, const dvec2& b) { return a.x * b.y - a.y * b.x; }

/// The wall of a body of revolution as another one, b, sees it.
class RoundWall {
public:
    /// A stretch of an element of the profile, turned through a sector.
    struct Patch {
        const Element* element = nullptr;
        double s0 = 0, s1 = 1;
        dvec2 p0{0}, p1{0};  // its ends
        Sector sector{};
        double bound = 0;
        double across = 0, along = 0;  // how much of the hexagon is due to sector and stretch
    };

    RoundWall(const Form& a, const Form& b, const Frame& to_b)
        : a_(a), b_(b), to_b_(to_b), wave_x_(wave(0)), wave_y_(wave(1)), wave_z_(wave(2)) {}

    std::vector<Patch> patches() const {
        std::vector<Patch> all;
        for (const Element& e : a_.region.elements)
            all.push_back({&e, 0, 1, e.a, e.b, Sector::of(0, 2 * pi)});
        return all;
    }

    dvec3 bound(Patch& patch, double reach) const;

    static void halve(const Patch& patch, Patch& first, Patch& second) {
        first = second = patch;
        if (patch.along > patch.across) {
            first.s1 = second.s0 = (patch.s0 + patch.s1) / 2;
            first.p1 = second.p0 = patch.element->at(first.s1);
        } else {
            patch.sector.halve(first.sector, second.sector);
        }
    }

private:
    /// How one of b's axes looks along a's (y, z).
    dvec2 wave(int axis) const { return {to_b_.turn[axis].y, to_b_.turn[axis].z}; }

    /// Where b sees the ring of a's profile point p through the sector: along its axis, and from
    /// it.
    void seen(const dvec2& p, const Sector& sector, Range& x, Range& r) const {
        const dvec3 axial = dvec3(p.x, 0, 0) - to_b_.origin;
        x = sector.range(glm::dot(axial, to_b_.turn[0]), wave_x_ * p.y);
        // From the point of b's axis in the middle of x; what the ring varies along the axis is
        // taken off.
        const dvec3 centre = axial - to_b_.turn[0] * x.middle();
        const Range squared = sector.range(glm::dot(centre, centre) + p.y * p.y,
                                           dvec2(centre.y, centre.z) * (2 * p.y));
        r = {std::sqrt(std::max(0.0, squared.low - x.half() * x.half())),
             std::sqrt(std::max(0.0, squared.high))};
    }

    dvec2 lateral(const dvec2& p) const {
        const dvec3 axial = dvec3(p.x, 0, 0) - to_b_.origin;
        return {glm::dot(axial, to_b_.turn[1]), glm::dot(axial, to_b_.turn[2])};
    }

    /// How far the distance from b's axis falls below its chord between two rings, at most. Seen
    /// along that axis the points are c + r·E(t); with f the angle between two of them the sag of
    /// |(1-s) l0 + s l1| is at most 2 (1 - cos f) |l0| |l1| / (sqrt|l0| + sqrt|l1|)². Derived.
    double sag(const dvec2& p0, const dvec2& p1, const Range& r0, const Range& r1,
               const Sector& sector) const {
        const dvec2 c0 = lateral(p0), c1 = lateral(p1);
        const double least = std::min(r0.high, r1.high);
        const auto seen_along = [&](const dvec2& w) {  // of w·E(t)
            return wave_y_ * w.x + wave_z_ * w.y;
        };
        const double inner = sector.range(glm::dot(c0, c1), seen_along(c0 * p1.y + c1 * p0.y)).low +
                             p0.y * p1.y * to_b_.turn[0].x * to_b_.turn[0].x;
        const double product = r0.low * r1.low;
        if (inner <= 0 || product <= 0) return least;
        const dvec2 w = c1 * p0.y - c0 * p1.y;
        const double area = sector.range(cross(c0, c1), seen_along({w.y, -w.x})).most();
        const double roots = std::sqrt(r0.low) + std::sqrt(r1.low);
        return std::min(least, 2 * area * area / product / (roots * roots));
    }

    /// Distance of b's profile from the segment moved about within a box.
    double clear_of(const dvec2& m0, const dvec2& m1, const dvec2& half, Closest& nearest) const {
        const dvec2 sign{m1.x < m0.x ? -1.0 : 1.0, m1.y < m0.y ? -1.0 : 1.0};
        const dvec2 u = sign * half, v{u.x, -u.y};
        const std::array<dvec2, 6> corners{m0 - u, m0 + v, m1 + v, m1 + u, m1 - v, m0 - v};
        for (std::size_t i = 0; i < 6; ++i) {
            const dvec2& from = corners[i];
            const dvec2& to = corners[(i + 1) % 6];
            if (glm::length(to - from) > 1e-14)
                offer_closest(b_.region, line_element(from, to), nearest);
        }
        const auto inside = [&](const dvec2& p) {
            bool left = true, right = true;
            for (std::size_t i = 0; i < 6; ++i) {
                const double side = cross(corners[(i + 1) % 6] - corners[i], p - corners[i]);
                left = left && side >= 0;
                right = right && side <= 0;
            }
            return left || right;
        };
        if (inside(b_.region.elements.front().a) || b_.region.contains((m0 + m1) * 0.5)) return 0;
        return std::sqrt(nearest.squared);
    }

    const Form& a_;
    const Form& b_;
    const Frame to_b_;
    dvec2 wave_x_, wave_y_, wave_z_;
};

dvec3 RoundWall::bound(Patch& patch, double reach) const {
    const Element& e = *patch.element;
    Range x0{}, r0{}, x1{}, r1{};
    seen(patch.p0, patch.sector, x0, r0);
    seen(patch.p1, patch.sector, x1, r1);
    const double bulge = e.sagitta(patch.s0, patch.s1);
    const double low = sag(patch.p0, patch.p1, r0, r1, patch.sector);
    const dvec2 m0{x0.middle(), r0.middle() - low / 2}, m1{x1.middle(), r1.middle() - low / 2};
    const dvec2 half{std::max(x0.half(), x1.half()), std::max(r0.half(), r1.half()) + low / 2};
    patch.along = bulge + low;
    patch.across = std::max(half.x, half.y - low / 2);
    if (low >= std::min(r0.high, r1.high)) {  // nothing is known of the sag: halve what is longer
        patch.along = glm::length(patch.p1 - patch.p0);
        patch.across = std::max(patch.p0.y, patch.p1.y) * (patch.sector.t1 - patch.sector.t0);
    }
    Closest nearest;
    if (reach < 1e100) nearest.squared = (reach + bulge) * (reach + bulge);
    const dvec2 way = m1 - m0;
    patch.bound = std::max(patch.bound, clear_of(m0, m1, half, nearest) - bulge);
    // The place of the patch that answers to the hexagon's nearest.
    const double whole = glm::dot(way, way);
    const double share =
        whole > 0 ? std::clamp(glm::dot(nearest.b - m0, way) / whole, 0.0, 1.0) : 0.5;
    const dvec2 p = e.at(patch.s0 + (patch.s1 - patch.s0) * share);
    return {p.x, patch.sector.middle() * p.y};
}

}  // namespace

bool offer_round(const Form& a, const Form& b, const Frame& to_b, double tolerance, Gap& best) {
    if (best.gap < may_overlap || std::abs(to_b.turn[0].x) < leans_little) return false;
    const RoundWall wall(a, b, to_b);
    WallSearch<RoundWall> search(wall, a, b, to_b, tolerance, best.gap);
    if (!search.run() || !search.finished()) return false;
    if (search.found()) best = search.result();
    return true;
}

}  // namespace podwright
