#pragma once

#include "shape/mesh.hpp"
#include "shape/solid.hpp"

namespace podwright {

/// Mesh of a solid of revolution. Half of the chord error goes to the profile if it has arcs, the
/// rest to the way round.
Mesh revolve(const Revolved& solid, double chord_error);

}  // namespace podwright
