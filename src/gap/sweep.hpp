#pragma once

#include "gap/distance.hpp"

namespace podwright {

/// Everything that the part passes through while it turns about the x axis of `axis` (given in the
/// part's frame), as bodies of revolution. Exact for what is revolved about that axis or extruded
/// along it; anything else is replaced by the smallest ring of rectangular section that holds its
/// box or its body of revolution, and is never smaller than what it stands for.
MeasuredPart swept(const MeasuredPart& part, const Frame& axis);

/// A frame at `point` whose x axis runs along the unit vector `along`.
Frame axis_frame(const glm::dvec3& point, const glm::dvec3& along);

}  // namespace podwright
