#pragma once

#include <string>
#include <vector>

#include "core/drive.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"
#include "shape/part.hpp"

namespace podwright {

/// Every part as solids made from `setup` and placed by the calculations, axle in the middle of its
/// float. `setup` must be free of conflicts (find_conflict). The u of the stack is measured along
/// the axle's axis, which passes through (0, seat_L, z_L) and (0, -seat_R, z_R).
/// The names that Imported solids use: "cap_screw", "end_bell", "set_screw" of assets-generic, and
/// the absolute paths of the user's own meshes (OwnPart::found).
Assembly assemble(const Setup& setup, const Stack& stack, const Stance& stance, const Drive& drive);

/// The keys of all parts that an assembly can have, each once, whatever the setup.
const std::vector<std::string>& part_keys();

}  // namespace podwright
