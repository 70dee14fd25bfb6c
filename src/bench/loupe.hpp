#pragma once

#include <span>

#include "bench/canvas.hpp"
#include "core/text.hpp"
#include "evaluate/evaluate.hpp"
#include "shape/part.hpp"

namespace podwright {

/// What the loupe shows: the left gap with float, shims and blade, or the gap of a pair of parts.
struct LoupeView {
    Camera camera;
    double across = 3;  ///< mm seen from edge to edge
    glm::dvec3 gap{0};  ///< what it looks at, pod axes
    std::string caption;
    Status status = Status::none;
    bool of_float = true;
    double shim_face = 0;               ///< of the float: u of the outermost shim's face
    double thrust_face = 0;             ///< of the float: u of the hub's thrust face as it stands
    glm::dvec3 point_a{0}, point_b{0};  ///< of a pair: its nearest points
};

LoupeView loupe_on_float(const Setup& setup, const Evaluation& evaluation, const Pose& pose,
                         LengthUnit shown);

/// Seen from the same direction as `from`.
LoupeView loupe_on_gap(const Clearance& clearance, const Evaluation& evaluation, const Camera& from,
                       LengthUnit shown);

/// Where the loupe stands in a canvas: a circle.
struct LoupePlace {
    ImVec2 centre{0, 0};
    float radius = 0;
    PixelBox box() const {
        return {{centre.x - radius, centre.y - radius}, {centre.x + radius, centre.y + radius}};
    }
};
/// Picks the corner where it hides the fewest of `points` (pixels), the upper right one if in
/// doubt, and keeps it free of other words. Lines may be drawn under it: draw it after them.
LoupePlace take_loupe_place(Canvas& canvas, std::span<const ImVec2> points);

/// The picture inside it (a texture with its first row at the bottom), its rim, its magnification,
/// the gap's dimension, the shims' thicknesses and the line to where it looks. Takes its room on
/// the canvas.
void draw_loupe(Canvas& canvas, const LoupePlace& place, const LoupeView& view, ImTextureID picture,
                const Setup& setup, LengthUnit shown);

}  // namespace podwright
