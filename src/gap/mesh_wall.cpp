#include "gap/mesh_wall.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "gap/depth.hpp"
#include "gap/wall_search.hpp"

namespace podwright {

namespace {

using glm::dvec3;
using Triangle = Facets::Triangle;

/// Puts the longest side first; returns its length.
double longest_first(Triangle& t) {
    const auto side = [&](std::size_t i) { return glm::length(t[(i + 1) % 3] - t[i]); };
    std::size_t longest = 0;
    for (std::size_t i = 1; i < 3; ++i)
        if (side(i) > side(longest)) longest = i;
    std::rotate(t.begin(), t.begin() + static_cast<std::ptrdiff_t>(longest), t.end());
    return glm::length(t[1] - t[0]);
}

/// Stretches of triangles, then triangles and their pieces.
class MeshWall {
public:
    struct Patch {
        Facets::Stretch stretch;
        bool piece = false;  ///< of one triangle
        Triangle triangle{};
        double bound = 0;
    };

    MeshWall(const Form& a, const Form& b, const Frame& to_b)
        : facets_(*a.facets), b_(b), to_b_(to_b) {}

    std::vector<Patch> patches() const {
        Patch patch;
        patch.stretch = facets_.all();
        return {patch};
    }

    double distance(const dvec3& p) const { return signed_distance(b_, to_b_.back(p)).distance; }

    dvec3 bound(Patch& patch, double /*reach*/) const {
        if (!patch.piece && patch.stretch.size() > 1) {
            const Facets::Sphere sphere = facets_.sphere(patch.stretch);
            const double at = distance(sphere.centre);
            patch.bound = std::max(patch.bound, at - sphere.radius);
            return facets_.triangles()[patch.stretch.begin + patch.stretch.size() / 2][0];
        }
        if (!patch.piece) {
            patch.piece = true;
            patch.triangle = facets_.triangles()[patch.stretch.begin];
        }
        // A circle about a triangle is no wider than that of an equilateral one of its longest
        // side.
        const double longest = longest_first(patch.triangle);
        double least = 1e300;
        dvec3 at = patch.triangle[0];
        for (const dvec3& p : patch.triangle)
            if (const double d = distance(p); d < least) least = d, at = p;
        const double squared = least > 0 ? least * least - longest * longest / 3 : 0;
        patch.bound = std::max({patch.bound, squared > 0 ? std::sqrt(squared) : 0.0,
                                least - longest / std::sqrt(3.0)});
        return at;
    }

    static void halve(const Patch& patch, Patch& first, Patch& second) {
        first = second = patch;
        if (!patch.piece) {
            first.stretch = patch.stretch.first();
            second.stretch = patch.stretch.second();
            return;
        }
        const dvec3 middle = (patch.triangle[0] + patch.triangle[1]) * 0.5;
        first.triangle[1] = second.triangle[0] = middle;
    }

private:
    const Facets& facets_;
    const Form& b_;
    const Frame to_b_;
};

/// The deepest point of a mesh in another form.
class DeepestOfMesh {
public:
    DeepestOfMesh(const Form& a, const Form& b, const Frame& to_b)
        : wall_(a, b, to_b), a_(a), b_(b), to_b_(to_b) {}

    void run(double tolerance, Gap& deep) {
        const auto less = [](const Work& x, const Work& y) { return x.most < y.most; };
        constexpr int most_steps = 20000;
        std::vector<Work> heap;
        const auto push = [&](const MeshWall::Patch& patch) {
            const Work work = measured(patch, deep);
            if (work.most <= std::max(0.0, -deep.gap) + tolerance) return;
            heap.push_back(work);
            std::push_heap(heap.begin(), heap.end(), less);
        };
        for (const MeshWall::Patch& patch : wall_.patches()) push(patch);
        int steps = 0;
        for (; !heap.empty() && steps < most_steps; ++steps) {
            std::pop_heap(heap.begin(), heap.end(), less);
            const Work work = heap.back();
            heap.pop_back();
            if (work.most <= std::max(0.0, -deep.gap) + tolerance) break;
            MeshWall::Patch first, second;
            MeshWall::halve(work.patch, first, second);
            push(first);
            push(second);
        }
        const bool cut = steps == most_steps && !heap.empty();
        deep.within = std::max({deep.within, tolerance, cut ? heap.front().most + deep.gap : 0.0});
    }

private:
    struct Work {
        MeshWall::Patch patch;
        double most = 0;
    };
    /// Tries a point, and says how deep the others may be.
    Work measured(const MeshWall::Patch& patch, Gap& deep) const {
        Work work{patch, 0};
        const Facets& facets = *a_.facets;
        if (!patch.piece && patch.stretch.size() > 1) {
            const Facets::Sphere sphere = facets.sphere(patch.stretch);
            work.most = sphere.radius - wall_.distance(sphere.centre);
            return work;
        }
        if (!patch.piece) {
            work.patch.piece = true;
            work.patch.triangle = facets.triangles()[patch.stretch.begin];
        }
        longest_first(work.patch.triangle);
        const Triangle& t = work.patch.triangle;
        const dvec3 middle = (t[0] + t[1] + t[2]) / 3.0;
        double radius = 0;
        for (const dvec3& p : t) radius = std::max(radius, glm::length(p - middle));
        const SurfacePoint foot = signed_distance(b_, to_b_.back(middle));
        if (foot.distance < deep.gap) {
            deep.gap = foot.distance;
            deep.a = middle;
            deep.b = to_b_(foot.at);
            const dvec3 way = deep.a - deep.b;
            if (glm::length(way) > 0) deep.normal = glm::normalize(way);
        }
        work.most = radius - foot.distance;
        return work;
    }

    const MeshWall wall_;
    const Form& a_;
    const Form& b_;
    const Frame to_b_;
};

}  // namespace

void offer_mesh(const Form& a, const Form& b, const Frame& to_b, double tolerance, Gap& best) {
    constexpr double overlap = 1e-9, depth_within = 2e-3;  // mm
    constexpr int most_steps = 200000;
    std::optional<Gap> near;
    if (best.gap > may_overlap) {
        const MeshWall wall(a, b, to_b);
        WallSearch<MeshWall> search(wall, a, b, to_b, tolerance, best.gap, most_steps);
        const bool apart = search.run();
        if (search.found()) near = search.result();
        if (apart && (!near || near->within < near->gap)) {
            if (near) best = *near;
            return;
        }
    }
    Gap deep;
    deep.gap = std::min(best.gap, -overlap);
    const double before = deep.gap;
    DeepestOfMesh(a, b, to_b).run(depth_within, deep);
    const Frame to_a{glm::transpose(to_b.turn), to_b.back({0, 0, 0})};
    Gap of_b;
    of_b.gap = deep.gap;
    if (b.facets)
        DeepestOfMesh(b, a, to_a).run(depth_within, of_b);
    else
        deepest_of_surface(b, a, to_a, depth_within, of_b);
    if (of_b.gap < deep.gap) {
        const double within = std::max(deep.within, of_b.within);
        deep = {of_b.gap, to_b(of_b.b), to_b(of_b.a), -(to_b.turn * of_b.normal), within, true};
    }
    if (deep.gap < before) {
        best = deep;
    } else if (near && near->gap < best.gap) {
        // Next to touching, or the steps ran out: what is known is that they do not overlap.
        near->gap = std::max(near->gap, 0.0);
        near->within = near->gap;
        best = *near;
    }
}

}  // namespace podwright
