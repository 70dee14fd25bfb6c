#pragma once

#include <list>
#include <vector>

#include "gap/distance.hpp"

namespace podwright {

/// What bodies that lie across the axis have swept, the latest ones: of a part that changes most
/// bodies stay as they were.
class SweptMemory {
public:
    /// swept_crosswise() about the place 0, calculated if it is not known.
    const std::vector<Loop>& crosswise(const std::vector<Element>& profile, double along,
                                       double beside);

private:
    struct Known {
        std::vector<Element> profile;
        double along = 0, beside = 0;
        std::vector<Loop> loops;
    };
    std::list<Known> known_;  ///< the latest first
};

/// Everything that the part passes through while it turns about the x axis of `axis` (given in the
/// part's frame), as bodies of revolution. Exact for what is revolved about that axis or, without a
/// bore, about one parallel to it, and for what is extruded along it. Anything else by its surface
/// or profile (swept_outline.hpp): never smaller, and larger by no more than `swept_excess`; of
/// what is extruded across the axis, its box. `own_mesh`: of a mesh its triangles are swept, not
/// the body of revolution that holds them.
MeasuredPart swept(const MeasuredPart& part, const Frame& axis, bool own_mesh, SweptMemory& memory);

/// The same axis for the sake of turning about it, without the last digits of a part that lies on
/// it, so that what was swept once can be used again.
Frame settled(const Frame& axis);

/// A frame at `point` whose x axis runs along the unit vector `along`.
Frame axis_frame(const glm::dvec3& point, const glm::dvec3& along);

}  // namespace podwright
