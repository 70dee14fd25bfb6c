#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/parameters.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/text.hpp"
#include "core/traded.hpp"

namespace podwright {

/// A small change of shims that puts float, overall width and shift inside their limits.
struct ShimEdit {
    std::vector<Change> changes;
    std::string text;  ///< "left: swap the 0.30 mm shim for 0.10 mm; right: add a 0.50 mm shim"
};

/// The change of at most one shim a side, from the usual thicknesses, after which nothing is out of
/// limits; of several the fewest edits, then the evenest wheels, then the float nearest the middle
/// of its window. Nothing if there is none.
std::optional<ShimEdit> find_shims(const Setup& setup, const Stack& stack, LengthUnit shown);

}  // namespace podwright
