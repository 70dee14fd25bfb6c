#pragma once

#include <string>
#include <vector>

#include <glm/glm.hpp>

#include "core/drive.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"

namespace podwright {

/// A measured length on the assembly, with the axle in the middle of its float; the float itself
/// is shown where the gap is when the axle stands at the left end.
struct Dimension {
    std::string name;     ///< reading name or parameter key
    std::string label;    ///< "overall width"
    double value;         ///< mm; |from - to| is its size
    glm::dvec3 from, to;  ///< measured points, pod axes
    /// Places for the dimension line, as displacements of the measured points clear of the parts,
    /// the preferred one first; which is seen well depends on the view.
    std::vector<glm::dvec3> offsets;
};

/// Float, shims, reach and inset of each side, widths and track, ride heights, centre distance.
/// A length of zero (no shims, no inset) is left out.
std::vector<Dimension> dimensions(const Setup& setup, const Stack& stack, const Stance& stance,
                                  const Drive& drive);

}  // namespace podwright
