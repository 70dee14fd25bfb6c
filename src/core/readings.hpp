#pragma once

#include <vector>

#include "core/drive.hpp"
#include "core/reading.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"

namespace podwright {

/// The readings that stack, stance and drive give, in the order of DESIGN section 5.
std::vector<Reading> readings_of(const Setup& setup, const Stack& stack, const Stance& stance,
                                 const Drive& drive);

}  // namespace podwright
