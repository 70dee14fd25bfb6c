#pragma once

#include <span>

#include "bench/canvas.hpp"
#include "core/text.hpp"
#include "evaluate/evaluate.hpp"
#include "shape/part.hpp"

namespace podwright {

/// What the loupe shows: the left gap, where float, shims and blade are.
struct LoupeView {
    Camera camera;
    double across = 3;       ///< mm seen from edge to edge
    double shim_face = 0;    ///< u of the outermost shim's face
    double thrust_face = 0;  ///< u of the hub's thrust face, as it stands in its float
    glm::dvec3 gap{0};       ///< middle of the gap on the near side, pod axes
};

LoupeView loupe_view(const Setup& setup, const Evaluation& evaluation, const Pose& pose);

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
                const Setup& setup, const Evaluation& evaluation, LengthUnit shown);

}  // namespace podwright
