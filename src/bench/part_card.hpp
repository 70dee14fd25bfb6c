#pragma once

#include <string>
#include <vector>

#include "bench/canvas.hpp"
#include "bench/part_facts.hpp"

namespace podwright {

/// A part with its numbers, as it stands on the canvas.
struct PartCard {
    std::string title;
    std::vector<Fact> facts;
    PixelBox box;
};

/// Lays the card out at the upper left and keeps its room free of other words.
PartCard place_part_card(Canvas& canvas, const Part& part, const Setup& setup,
                         const Evaluation& evaluation, LengthUnit shown);
/// To be called after lines that may run under it.
void draw_part_card(const Canvas& canvas, const PartCard& card);

}  // namespace podwright
