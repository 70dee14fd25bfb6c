#include "shape/triangulate.hpp"

#include <geos_c.h>

#include <map>
#include <memory>
#include <stdexcept>
#include <utility>

namespace podwright {

namespace {

/// A GEOS context and what it owns; freed in the right order.
class Geos {
public:
    Geos() : handle_(GEOS_init_r()) {}
    ~Geos() { GEOS_finish_r(handle_); }
    Geos(const Geos&) = delete;
    Geos& operator=(const Geos&) = delete;
    GEOSContextHandle_t get() const { return handle_; }

private:
    GEOSContextHandle_t handle_;
};

struct Destroy {
    GEOSContextHandle_t handle;
    void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(handle, geometry); }
};
using Geometry = std::unique_ptr<GEOSGeometry, Destroy>;

GEOSGeometry* make_ring(GEOSContextHandle_t geos, const std::vector<glm::dvec2>& points) {
    const auto count = static_cast<unsigned>(points.size());
    GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(geos, count + 1, 2);
    for (unsigned i = 0; i <= count; ++i) {
        const glm::dvec2& p = points[i % count];
        GEOSCoordSeq_setXY_r(geos, sequence, i, p.x, p.y);
    }
    return GEOSGeom_createLinearRing_r(geos, sequence);
}

Geometry make_polygon(GEOSContextHandle_t geos, const std::vector<std::vector<glm::dvec2>>& rings) {
    std::vector<GEOSGeometry*> holes;
    holes.reserve(rings.size());
    for (std::size_t i = 1; i < rings.size(); ++i) holes.push_back(make_ring(geos, rings[i]));
    return {GEOSGeom_createPolygon_r(geos, make_ring(geos, rings.front()), holes.data(),
                                     static_cast<unsigned>(holes.size())),
            Destroy{geos}};
}

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
