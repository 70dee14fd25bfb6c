#include "shape/grown_outline.hpp"

#include <algorithm>
#include <stdexcept>

#include "shape/geos.hpp"

namespace podwright {

namespace {

std::vector<glm::dvec2> ring_points(GEOSContextHandle_t geos, const GEOSGeometry* ring,
                                    bool counter_clockwise) {
    const GEOSCoordSequence* sequence = GEOSGeom_getCoordSeq_r(geos, ring);
    unsigned count = 0;
    char turns_left = 0;
    GEOSCoordSeq_getSize_r(geos, sequence, &count);
    GEOSCoordSeq_isCCW_r(geos, sequence, &turns_left);
    std::vector<glm::dvec2> points(count - 1);  // the last repeats the first
    for (unsigned i = 0; i + 1 < count; ++i)
        GEOSCoordSeq_getXY_r(geos, sequence, i, &points[i].x, &points[i].y);
    if ((turns_left != 0) != counter_clockwise) std::reverse(points.begin(), points.end());
    return points;
}

}  // namespace

std::vector<std::vector<glm::dvec2>> grown_outline(
    const std::vector<std::vector<glm::dvec2>>& polygons, double slack) {
    const Geos geos;
    const auto owned = [&](GEOSGeometry* geometry) {
        if (!geometry) throw std::runtime_error("an outline cannot be joined");
        return Geometry(geometry, Destroy{geos.get()});
    };
    std::vector<GEOSGeometry*> pieces;
    pieces.reserve(polygons.size());
    for (const auto& polygon : polygons)
        pieces.push_back(make_polygon(geos.get(), {polygon}).release());
    const Geometry all = owned(GEOSGeom_createCollection_r(
        geos.get(), GEOS_MULTIPOLYGON, pieces.data(), static_cast<unsigned>(pieces.size())));
    const Geometry joined = owned(GEOSUnaryUnion_r(geos.get(), all.get()));
    const Geometry simple = owned(GEOSTopologyPreserveSimplify_r(geos.get(), joined.get(), slack));
    // Simplifying moves an edge by no more than the slack: growing by as much holds it all again.
    constexpr int segments = 4;
    constexpr double longest_mitre = 5;
    const Geometry grown =
        owned(GEOSBufferWithStyle_r(geos.get(), simple.get(), slack, segments, GEOSBUF_CAP_FLAT,
                                    GEOSBUF_JOIN_MITRE, longest_mitre));

    std::vector<std::vector<glm::dvec2>> rings;
    for (int i = 0; i < GEOSGetNumGeometries_r(geos.get(), grown.get()); ++i) {
        const GEOSGeometry* polygon = GEOSGetGeometryN_r(geos.get(), grown.get(), i);
        rings.push_back(ring_points(geos.get(), GEOSGetExteriorRing_r(geos.get(), polygon), true));
        for (int k = 0; k < GEOSGetNumInteriorRings_r(geos.get(), polygon); ++k)
            rings.push_back(
                ring_points(geos.get(), GEOSGetInteriorRingN_r(geos.get(), polygon, k), false));
    }
    return rings;
}

}  // namespace podwright
