#pragma once

#include <string>
#include <vector>

#include "core/setup.hpp"
#include "core/text.hpp"

// How one setup follows from another: each thing that was changed, and what it moves in turn.
namespace podwright {

/// One link: what moves, and by how much.
struct CauseLink {
    std::string reading;  ///< name of the reading, or "pod.axle": the axle's height in the pod
    double change = 0;    ///< in the reading's unit
    std::string text;     ///< "car 0.50 mm higher"
};

/// One change and what follows from it, in the order in which one thing moves the next.
struct Cause {
    std::string text;  ///< "left: holder 0.50 mm down instead of 0.50 mm up"
    std::vector<CauseLink> links;
};

/// What was changed from one setup to the other, one after the other in the order of the bench:
/// holders, tyres, shims, blade, wheels, gears, all else; last the mesh where it is set again. The
/// changes of a reading over all causes add up to its change from `from` to `to`. The motor stays
/// clamped where it is until its gears are changed or the mesh is set again.
std::vector<Cause> causes_between(const Setup& from, const Setup& to, LengthUnit shown);

/// "both: holder ... -> axle 0.50 mm lower in the pod -> car 0.50 mm higher -> ..."
std::string sentence(const Cause& cause);

}  // namespace podwright
