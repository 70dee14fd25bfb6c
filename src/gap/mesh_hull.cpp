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

/// Between neighbouring stations, heights at both ends whose trapezium holds every edge that passes
/// there: an edge that reaches across counts where it crosses the stations, one that begins or ends
/// between them with its highest point at both.
std::vector<dvec2> highest_ends(const std::vector<Shadow>& edges,
                                const std::vector<double>& stations) {
    std::vector<dvec2> ends(stations.size() - 1, dvec2(0));
    for (const Shadow& e : edges) {
        if (e.b.x - e.a.x < 1e-9) continue;  // its ends belong to other edges too
        const auto at = [&](double x) {
            const double share = std::clamp((x - e.a.x) / (e.b.x - e.a.x), 0.0, 1.0);
            return e.a.y + (e.b.y - e.a.y) * share;
        };
        const auto first = std::upper_bound(stations.begin(), stations.end(), e.a.x);
        std::size_t k =
            first == stations.begin() ? 0 : static_cast<std::size_t>(first - stations.begin()) - 1;
        for (; k + 1 < stations.size() && stations[k] < e.b.x; ++k) {
            const double low = stations[k], high = stations[k + 1], slack = (high - low) * 1e-3;
            const double from = std::max(low, e.a.x), to = std::min(high, e.b.x);
            if (to - from < slack) continue;  // no more than rounding reaches in
            const bool across = e.a.x <= low + slack && e.b.x >= high - slack;
            const double top = std::max(at(from), at(to));
            ends[k].x = std::max(ends[k].x, across ? at(low) : top);
            ends[k].y = std::max(ends[k].y, across ? at(high) : top);
        }
    }
    return ends;
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
    // A fine mesh needs no more stations than the eye: every so many, both ends kept.
    constexpr std::size_t most_stations = 400;
    if (stations.size() > most_stations) {
        std::vector<double> fewer;
        for (std::size_t i = 0; i <= most_stations; ++i)
            fewer.push_back(stations[i * (stations.size() - 1) / most_stations]);
        stations = std::move(fewer);
    }
    const std::vector<dvec2> ends = highest_ends(edges, stations);
    Loop upper;
    for (std::size_t k = 0; k + 1 < stations.size(); ++k) {
        upper.push_back({{stations[k], ends[k].x}, 0});
        upper.push_back({{stations[k + 1], ends[k].y}, 0});
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
