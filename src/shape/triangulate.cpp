#include "shape/triangulate.hpp"

#include <map>
#include <stdexcept>
#include <utility>

#include "shape/geos.hpp"

namespace podwright {

namespace {

using Indices = std::map<std::pair<double, double>, std::uint32_t>;

void add_triangle(GEOSContextHandle_t geos, const GEOSGeometry* triangle, const Indices& indices,
                  std::vector<std::uint32_t>& out) {
    const GEOSCoordSequence* sequence =
        GEOSGeom_getCoordSeq_r(geos, GEOSGetExteriorRing_r(geos, triangle));
    glm::dvec2 at[3];
    std::uint32_t index[3];
    for (unsigned k = 0; k < 3; ++k) {
        GEOSCoordSeq_getXY_r(geos, sequence, k, &at[k].x, &at[k].y);
        index[k] = indices.at({at[k].x, at[k].y});
    }
    const glm::dvec2 a = at[1] - at[0], b = at[2] - at[0];
    if (a.x * b.y - a.y * b.x < 0) std::swap(index[1], index[2]);
    out.insert(out.end(), index, index + 3);
}

}  // namespace

std::vector<std::uint32_t> triangulate(const std::vector<std::vector<glm::dvec2>>& rings) {
    Indices indices;
    std::uint32_t count = 0;
    for (const auto& ring : rings)
        for (const glm::dvec2& p : ring) indices.emplace(std::pair{p.x, p.y}, count++);

    const Geos geos;
    const Geometry polygon = make_polygon(geos.get(), rings);
    const Geometry triangles(GEOSConstrainedDelaunayTriangulation_r(geos.get(), polygon.get()),
                             Destroy{geos.get()});
    // A polygon of n corners with h holes has n + 2 h - 2 triangles.
    const std::size_t expected = count + 2 * (rings.size() - 1) - 2;
    const int found = triangles ? GEOSGetNumGeometries_r(geos.get(), triangles.get()) : 0;
    if (static_cast<std::size_t>(found) != expected)
        throw std::runtime_error("an outline crosses itself or one of its holes");

    std::vector<std::uint32_t> out;
    out.reserve(3 * expected);
    for (int i = 0; i < found; ++i)
        add_triangle(geos.get(), GEOSGetGeometryN_r(geos.get(), triangles.get(), i), indices, out);
    return out;
}

}  // namespace podwright
