#pragma once

#include <string>
#include <vector>

#include <glm/glm.hpp>

#include "shape/look.hpp"
#include "shape/solid.hpp"

namespace podwright {

/// What is to be shown on a body beside its shape: on a screw (along x, nominally of 3 mm) its
/// thread and knurl. Screws and balls stay whole in a section.
enum class Detail { none, screw, ball };

/// A solid of a part, placed in the frame of the part.
struct Body {
    Solid solid;
    glm::dmat4 place{1.0};  ///< rigid; an Imported solid may also be scaled
    Look look;
    Detail detail = Detail::none;
};

/// What a part moves with when the float is played or the gears turn.
enum class Moves {
    pod,    ///< fixed to the pod
    axle,   ///< slides and turns with the axle
    ring,   ///< turns with the axle but does not slide: inner rings, shims at rest
    motor,  ///< turns with the motor's shaft
    ground  ///< belongs to the ground
};

/// One part of the assembly, placed by the calculations.
struct Part {
    std::string key;    ///< stable name: "left.hub", "right.shim.1", "spur", "pod.floor"
    std::string title;  ///< in the trade's words, with its number: "left shim 0.30 mm"
    std::vector<Body> bodies;
    glm::dmat4 place{1.0};  ///< part frame to pod axes (mm), axle in the middle of its float
    Moves moves = Moves::pod;
    glm::dvec3 explode{0};  ///< displacement at full spread of the exploded view, mm, pod axes
};

struct Assembly {
    std::vector<Part> parts;
    glm::dvec3 axle_point{0};            ///< a point of the axle's axis, at the mid-plane
    glm::dvec3 axle_direction{0, 1, 0};  ///< unit, to the left
    glm::dvec3 motor_point{0};           ///< a point of the motor's axis, in the middle of the mesh
    glm::dvec3 ground_point{0};          ///< on the ground, below the origin
    glm::dvec3 ground_normal{0, 0, 1};   ///< unit, up
    double axial_float = 0;              ///< F, mm
    double gear_ratio = 1;               ///< motor turns per axle turn

    const Part* find(std::string_view key) const;
};

/// Where the moving parts are.
struct Pose {
    double along = 0;   ///< axle in its float: -1 = full right, 0 = middle, +1 = full left
    double turn = 0;    ///< of the axle, rad, positive = rolling forward
    double spread = 0;  ///< exploded view, 0..1
};

/// As the axle is clamped at the bench, the blade in its gap: pictures and reports show the parts
/// so.
inline constexpr Pose clamped_pose{1, 0, 0};

/// `part.place` moved by the pose.
glm::dmat4 placed(const Assembly& assembly, const Part& part, const Pose& pose);

}  // namespace podwright
