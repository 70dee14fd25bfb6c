#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include <glm/glm.hpp>

#include "core/gears.hpp"

// What a part is, exactly. Display meshes are made from these to a stated chord error; distances
// are to be measured on these and not on the meshes.
namespace podwright {

/// One corner of a closed outline and the way to the next: a straight line, or an arc of angle
/// 4·atan(bulge), counter-clockwise if positive.
struct Corner {
    glm::dvec2 at;
    double bulge = 0;
    bool operator==(const Corner&) const = default;
};
using Loop = std::vector<Corner>;

/// Profile revolved about the x axis. Corners are (x, radius >= 0), counter-clockwise.
struct Revolved {
    Loop profile;
    bool operator==(const Revolved&) const = default;
};

/// Outline in the (y, z) plane, counter-clockwise seen from +x, with holes (clockwise), extruded
/// from x = 0 to x = thickness.
struct Extruded {
    Loop outline;
    std::vector<Loop> holes;
    double thickness = 1;
    bool operator==(const Extruded&) const = default;
};

/// Toothed ring about the x axis from x = -face/2 to +face/2 with a round bore; one tooth centred
/// on +z. Flanks are true involutes.
struct ToothedRing {
    Gear gear;
    double face = 1;
    double bore = 0;  ///< diameter
    bool operator==(const ToothedRing&) const = default;
};

/// Axis-aligned box.
struct Box {
    glm::dvec3 low, high;
    bool operator==(const Box&) const = default;
};

/// A mesh from a file: one of assets-generic by its name, or the user's own by its absolute path.
struct Imported {
    std::string name;
    std::uint64_t stamp = 0;  ///< of the user's file: another one where the file has changed
    bool operator==(const Imported&) const = default;
};

using Solid = std::variant<Revolved, Extruded, ToothedRing, Box, Imported>;

}  // namespace podwright
