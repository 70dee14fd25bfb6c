#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bench/dimension_figure.hpp"
#include "bench/loupe.hpp"
#include "bench/stage.hpp"

// The loupe on the float: shims, blade and thrust face at the left hub, and the words on them.
namespace podwright {

/// Seen from before or behind the axle, as in a picture `from` there: left and right are alike.
LoupeView loupe_on_float(const Setup& setup, const Evaluation& evaluation, const Pose& pose,
                         const Camera& from, LengthUnit shown);

/// Without what hides the gap from there, the blade painted so that it is told from shims and hub.
StageLook look_of_float(const Pose& pose);

/// The dimension of the float, below the middle: from the outermost shim to the thrust face. Pixels
/// of `in`, the canvas inside the loupe.
DimensionFigure float_figure(const Canvas& in, const LoupePlace& place, const LoupeView& view);

/// Where shim and hub would stand in one another, if the axle binds.
std::optional<PixelBox> overlap_band(const Canvas& in, const LoupePlace& place,
                                     const LoupeView& view);

struct LoupeWord {
    std::string text;
    Status status = Status::none;
    PixelBox box{};
    std::optional<Segment> leader;  ///< from what it speaks of
};
/// Each shim's thickness or, if not all have room, their count and sum; the blade's thickness or
/// how much shim and hub overlap, if there is room.
std::vector<LoupeWord> float_words(const Canvas& in, const LoupePlace& place, const LoupeView& view,
                                   const Setup& setup, LengthUnit shown);

void draw_float_words(const Canvas& in, const LoupePlace& place, const LoupeView& view,
                      const Setup& setup, LengthUnit shown);

}  // namespace podwright
