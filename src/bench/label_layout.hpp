#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "bench/cover_map.hpp"

// Where labels stand on a picture: geometry only, no drawing.
namespace podwright {

/// A place where a label would like to stand, by the middle of its box. The first is liked best.
struct Seat {
    ImVec2 centre;
    bool leader = false;  ///< so far from its anchor that a leader must join them
};

/// A label that wants a place.
struct LabelWish {
    std::string name;           ///< the same from picture to picture
    std::vector<ImVec2> sizes;  ///< of its box, the full text first, shorter ones after it
    ImVec2 anchor;              ///< what it speaks of; its leader starts here
    std::vector<Seat> seats;
    int rank = 0;            ///< the lower the more important; equal ranks by their order
    bool roams = true;       ///< may stand anywhere near its anchor, on a leader
    float anchor_clear = 0;  ///< a leader starts this far from the anchor (a ring round it)
    /// The dimension line whose value it says, if it says one's, with arrowheads that stand
    /// outside. It stands nearer to that line than to what any other that is shown measures, or not
    /// at all.
    std::optional<Segment> line = std::nullopt;
    Segment measured{};  ///< the part of that line between the arrows' tips
};

/// What the labels must, or had better, keep off.
struct LabelGround {
    PixelBox frame;
    std::vector<PixelBox> fixed;      ///< never covered, nor crossed by a leader
    const CoverMap* cover = nullptr;  ///< what of the picture is better not covered, if any
    std::vector<Segment> lines;       ///< better not covered
    float unit = 1;                   ///< pixels per unit of layout: gaps follow the screen's scale
};

struct PlacedLabel {
    bool shown = false;
    std::size_t size = 0;  ///< which of the wish's sizes
    PixelBox box{};
    std::optional<Segment> leader;  ///< from near the anchor to the box
};

/// Where labels stood last, relative to their anchors: they stay unless that has become bad.
using LabelMemory = std::map<std::string, ImVec2>;

struct LabelLayout {
    std::vector<PlacedLabel> labels;  ///< one for each wish, in the same order
    std::size_t left_out = 0;
};

/// Finds a place for every label: inside the frame, not touching another or a fixed box, leaders
/// crossing neither one another nor a label. A label that fits nowhere takes its next shorter
/// size, and is left out if that fits nowhere either; the most important ones choose first. A
/// dimension's label is left out as well where another label that stands already would be taken for
/// its own. The same input gives the same layout. `memory` is read and brought up to date.
LabelLayout lay_out(std::span<const LabelWish> wishes, const LabelGround& ground,
                    LabelMemory& memory);

}  // namespace podwright
