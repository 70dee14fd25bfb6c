#pragma once

#include <array>
#include <vector>

#include "bench/label_layout.hpp"

// The figure of a dimension after ISO 129-1, in the plane of the screen: geometry only.
namespace podwright {

/// A filled arrowhead.
struct ArrowHead {
    ImVec2 tip, left, right;
};

struct DimensionFigure {
    Segment line;                     ///< between the extension lines
    std::vector<Segment> tails;       ///< beyond them, where the arrowheads stand outside
    std::vector<Segment> extensions;  ///< with their gap and overrun
    std::array<ArrowHead, 2> arrows;
    bool arrows_outside = false;
};

/// Gap and overrun of extension lines and the length of arrowheads, in line widths (ISO 129-1:
/// about 8 and 8; arrowheads of 30 degrees).
inline constexpr float gap_widths = 8, overrun_widths = 8, arrow_widths = 10;
inline constexpr float arrow_degrees = 30;

/// `a` and `b` are the ends of the dimension line; the extension lines come from the outline of the
/// part at `from_a` and `from_b` (the same point: none is needed). `line_width` in pixels.
DimensionFigure figure_of(ImVec2 from_a, ImVec2 from_b, ImVec2 a, ImVec2 b, float line_width);

/// Where its text may stand, the best first: above the line in its middle, breaking it, below it;
/// the same towards its ends; past its ends where it is shorter than the text. The text is always
/// upright; beside a line that runs up and down it stands at the left.
std::vector<Seat> seats_of(const DimensionFigure& figure, ImVec2 text, float line_width);

/// Everything of the figure that a text had better not lie on.
std::vector<Segment> lines_of(const DimensionFigure& figure);

}  // namespace podwright
