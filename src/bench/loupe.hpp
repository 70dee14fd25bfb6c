#pragma once

#include <optional>
#include <span>

#include "bench/canvas.hpp"
#include "bench/cover_map.hpp"
#include "core/text.hpp"
#include "evaluate/evaluate.hpp"
#include "shape/part.hpp"

namespace podwright {

/// What the loupe shows: the left gap with float, shims and blade, the gap of a pair of parts, or
/// the teeth where pinion and spur mesh.
struct LoupeView {
    enum class Of { axial_float, pair, mesh };
    Of of = Of::axial_float;
    Camera camera;
    double across = 3;  ///< mm seen from edge to edge
    glm::dvec3 gap{0};  ///< what it looks at, pod axes
    std::string caption;
    Status status = Status::none;
    double shim_face = 0;               ///< of the float: u of the outermost shim's face
    double thrust_face = 0;             ///< of the float: u of the hub's thrust face as it stands
    double blade = 0;                   ///< of the float: thickness of the blade in it; 0: none
    glm::dvec3 point_a{0}, point_b{0};  ///< of a pair: its nearest points
};

/// Looks at `target` from `distance` (mm) through an opening of `view.across`.
void aim(LoupeView& view, const glm::dvec3& target, double distance);

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
/// A canvas whose points are those of the loupe's camera.
Canvas inside(const Canvas& canvas, const LoupePlace& place, const LoupeView& view);

/// Picks the place along the canvas's edges where it hides the least of the model and none of
/// `points` (pixels) if it can, the upper corner on the right or, if the gap is `at_left`, on the
/// left if in doubt, and keeps it free of other words. It stays at `last` unless another place is
/// clearly better. It covers whole pixels: its picture is laid on them one by one.
LoupePlace take_loupe_place(Canvas& canvas, const CoverMap& cover, std::span<const ImVec2> points,
                            bool at_left, std::optional<LoupePlace>& last);

/// What is written on its rim, caption and magnification: where it stands.
struct RimWords {
    std::string magnification;
    PixelBox above{}, below{};
};
RimWords rim_words(const Canvas& canvas, const LoupePlace& place, const LoupeView& view);

/// The line from it to where it looks; nothing if it looks at what lies under it.
std::optional<Segment> line_to_gap(const Canvas& canvas, const LoupePlace& place,
                                   const LoupeView& view);
void draw_line_to_gap(const Canvas& canvas, const Segment& line);

/// The picture inside it (a texture with its first row at the bottom), its rim, its magnification
/// and the words in it.
void draw_loupe(const Canvas& canvas, const LoupePlace& place, const LoupeView& view,
                ImTextureID picture, const Setup& setup, LengthUnit shown);

}  // namespace podwright
