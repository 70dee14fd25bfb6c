#pragma once

#include <vector>

#include "gap/element.hpp"
#include "shape/solid.hpp"

namespace podwright {

/// A piece of the plane bounded by elements: an outline and its holes. Elements are kept in runs
/// that follow each other, each within a circle, so that far runs are skipped.
struct Region {
    struct Run {
        std::size_t begin = 0, end = 0;
        glm::dvec2 centre{0};
        double radius = 0;
    };
    std::vector<Element> elements;
    std::vector<Run> runs;
    glm::dvec2 low{1e300}, high{-1e300};

    void add(const Loop& loop);
    /// To be called when all elements are there.
    void finish();

    bool contains(const glm::dvec2& p) const;
};

/// A boundary point and its distance, negative if the asking point lies inside.
struct Foot {
    glm::dvec2 at{0};
    double distance = 1e300;
};
/// Boundary point nearest to `p`, not looked for beyond `limit`; its distance is not signed.
Foot nearest_edge(const Region& region, const glm::dvec2& p, double limit = 1e300);
/// The same with its sign.
Foot signed_foot(const Region& region, const glm::dvec2& p);
Foot farthest_edge(const Region& region, const glm::dvec2& p);

/// Nearest pair of the boundaries of `a` and of `b` moved, offered to `best`.
void offer_closest(const Region& a, const Region& b, const PlaneMotion& move_b, Closest& best);

/// The same for one element.
void offer_closest(const Region& a, const Element& e, Closest& best);

/// The deepest point of `e` inside a region: `depth` is the distance to the nearest of the region's
/// elements, `point` lies on e, `foot` on the region's edge. Found to 1e-10 or
/// to `within`.
struct Deepest {
    double depth = 0;
    glm::dvec2 point{0}, foot{0};
    bool found = false;
    double within = 0;  ///< no point is deeper by more than this
};
void offer_deepest(const Region& region, const Element& e, Deepest& best);

}  // namespace podwright
