#pragma once

#include <string>
#include <vector>

#include "core/parameters.hpp"
#include "core/setup.hpp"
#include "core/text.hpp"

namespace podwright {

/// One thing to do, in words, and the edits of the setup that it is.
struct Step {
    std::string text;
    std::vector<Change> changes;
};

/// What turns `from` into `to`, in the order in which it is done on the bench: holders, axle,
/// shims, blade, gears, wheels and tyres, mesh. Edits that belong together stand in one step; with
/// all of them made `from` is `to`, as far as builds can differ.
std::vector<Step> steps_between(const Setup& from, const Setup& to, LengthUnit shown);

}  // namespace podwright
