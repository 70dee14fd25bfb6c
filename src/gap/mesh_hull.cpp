#include "gap/mesh_hull.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace podwright {

namespace {

using glm::dvec2;

/// Edges of the mesh in (x, radius). The radius along a straight edge is convex, so that the chord
/// lies above it; and over a triangle it is greatest on its edges.
struct Shadow {
    dvec2 a, b;  // a.x <= b.x
};

std::vector<Shadow> shadows(const Mesh& mesh) {
    std::vector<Shadow> result;
    result.reserve(mesh.triangles.size());
    const auto shadow = [&](std::uint32_t index) {
        const glm::dvec3 p(mesh.vertices[index].position);
        return dvec2(p.x, std::hypot(p.y, p.z));
    };
    for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
        const std::size_t next = i % 3 == 2 ? i - 2 : i + 1;
        dvec2 a = shadow(mesh.triangles[i]), b = shadow(mesh.triangles[next]);
        if (a.x > b.x) std::swap(a, b);
        result.push_back({a, b});
    }
    return result;
}

}  // namespace

Loop hull_profile(const Mesh& mesh) {
    const std::vector<Shadow> edges = shadows(mesh);
    std::vector<double> stations;
    for (const Shadow& e : edges) stations.insert(stations.end(), {e.a.x, e.b.x});
    std::sort(stations.begin(), stations.end());
    stations.erase(std::unique(stations.begin(), stations.end(),
                               [](double a, double b) { return b - a < 1e-6; }),
                   stations.end());
    // Between neighbouring stations the edges that reach across are straight; the trapezium over
    // the highest ends holds them all.
    Loop upper;
    for (std::size_t k = 0; k + 1 < stations.size(); ++k) {
        const double low = stations[k], high = stations[k + 1], slack = (high - low) * 1e-3;
        double at_low = 0, at_high = 0;
        for (const Shadow& e : edges) {
            if (e.a.x > low + slack || e.b.x < high - slack || e.b.x - e.a.x < 1e-9) continue;
            const auto at = [&](double x) {
                const double share = std::clamp((x - e.a.x) / (e.b.x - e.a.x), 0.0, 1.0);
                return e.a.y + (e.b.y - e.a.y) * share;
            };
            at_low = std::max(at_low, at(low));
            at_high = std::max(at_high, at(high));
        }
        upper.push_back({{low, at_low}, 0});
        upper.push_back({{high, at_high}, 0});
    }
    // Counter-clockwise from the axis: along it forward, then the upper edge backward, less the
    // corners that do not turn.
    Loop profile{{{stations.front(), 0}, 0}, {{stations.back(), 0}, 0}};
    for (std::size_t k = upper.size(); k-- > 0;) {
        while (profile.size() > 2) {
            const dvec2 last = profile.back().at, before = profile[profile.size() - 2].at;
            const dvec2 u = last - before, v = upper[k].at - last;
            const bool repeats = glm::length(v) < 1e-5;
            const bool runs_on =
                std::abs(u.x * v.y - u.y * v.x) < 1e-5 * glm::length(v) && glm::dot(u, v) > 0;
            if (!repeats && !runs_on) break;
            if (repeats && profile.size() > 3 && profile.back().at.y >= upper[k].at.y) break;
            profile.pop_back();
        }
        if (profile.size() <= 2 || glm::length(profile.back().at - upper[k].at) >= 1e-5)
            profile.push_back(upper[k]);
    }
    return profile;
}

}  // namespace podwright
