#pragma once

#include "shape/builders.hpp"

namespace podwright {

/// How the spur sits on the carrier; x is measured outboard from the thrust face, radii from the
/// axle.
struct SpurProportions {
    double rim_inside;  ///< of the toothed ring
    double flange;      ///< of the carrier, to which the web bolts
    double bolt_circle;
    double screw_scale;        ///< against a screw of 3 mm
    double web_low, web_high;  ///< x of the web's faces
    double flange_high;        ///< x of the outboard face of the flange
};

SpurProportions spur_proportions(const Build& build);

}  // namespace podwright
