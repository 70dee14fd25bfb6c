#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/setup.hpp"
#include "shape/part.hpp"

namespace podwright {

/// How two parts are meant to stand to each other.
enum class Fit {
    clearance,  ///< not meant to touch
    touching,   ///< faces that meet, or may at an end of the float
    sliding,    ///< one turns or slides in the other
    fixed,      ///< pressed, clamped, screwed or glued together
    meshing     ///< the teeth of the gears
};

/// "clearance", "touching", "sliding fit", "fixed", "mesh".
std::string_view word(Fit);

/// The fit that the assembly means two of its parts to have, whichever is named first.
Fit fit_between(const Assembly& assembly, const Part& first, const Part& second);

/// Two parts that the assembly means to touch.
struct MeantFit {
    std::string a, b;
    Fit fit = Fit::touching;
};
/// All of them, but for those of the feeler blade, which is taken away.
std::vector<MeantFit> fits_of(const Assembly& assembly);

/// The clearance that a pair which is not meant to touch needs: the greatest of the needs of its
/// kinds, 0 where nothing moves between the two.
double need_between(const Needs& needs, const Part& first, const Part& second);
/// The same for a part and the ground. Tyres stand on it and need none.
double need_to_ground(const Needs& needs, const Part& part);

}  // namespace podwright
