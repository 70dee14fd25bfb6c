#pragma once

#include <optional>

#include "core/setup.hpp"

// The axle that the car's own is held against.
namespace podwright {

/// The other axle with everything that it leaves out taken from the setup's axle, and from its
/// material's table where it names another material.
Axle completed_other_axle(const Setup& setup);

/// The same if the setup says anything of another axle, else nothing.
std::optional<Axle> other_axle_of(const Setup& setup);

/// The car on its other axle, and the axle that it had as the other one; as it was without one.
Setup with_axles_swapped(Setup setup);

}  // namespace podwright
