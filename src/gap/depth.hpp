#pragma once

#include "gap/distance.hpp"

namespace podwright {

/// The deepest point of `form`'s surface, walls and end faces, in another form, in the frame of
/// `form`; updates `deep`, with `a` on the surface, if it lies deeper. Found to `tolerance` or 1 %
/// of the depth, or to Gap::within.
void deepest_of_surface(const Form& form, const Form& other, const Frame& to_other,
                        double tolerance, Gap& deep);

}  // namespace podwright
