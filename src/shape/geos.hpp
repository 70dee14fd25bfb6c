#pragma once

#include <geos_c.h>

#include <memory>
#include <vector>

#include <glm/glm.hpp>

// GEOS with owners; for the sources that compute with it and no other header.
namespace podwright {

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

inline GEOSGeometry* make_ring(GEOSContextHandle_t geos, const std::vector<glm::dvec2>& points) {
    const auto count = static_cast<unsigned>(points.size());
    GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(geos, count + 1, 2);
    for (unsigned i = 0; i <= count; ++i) {
        const glm::dvec2& p = points[i % count];
        GEOSCoordSeq_setXY_r(geos, sequence, i, p.x, p.y);
    }
    return GEOSGeom_createLinearRing_r(geos, sequence);
}

inline Geometry make_polygon(GEOSContextHandle_t geos,
                             const std::vector<std::vector<glm::dvec2>>& rings) {
    std::vector<GEOSGeometry*> holes;
    holes.reserve(rings.size());
    for (std::size_t i = 1; i < rings.size(); ++i) holes.push_back(make_ring(geos, rings[i]));
    return {GEOSGeom_createPolygon_r(geos, make_ring(geos, rings.front()), holes.data(),
                                     static_cast<unsigned>(holes.size())),
            Destroy{geos}};
}

}  // namespace podwright
