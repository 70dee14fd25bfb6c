#pragma once

#include <span>
#include <vector>

#include "bench/plane.hpp"

namespace podwright {

/// Which of a picture's cells the model covers, by summed areas: how much of a box is covered is
/// answered at once, whatever its size.
class CoverMap {
public:
    /// `cell` is the size of a cell, pixels.
    CoverMap(const PixelBox& frame, float cell);

    /// The convex hull of these points is covered.
    void add_hull(std::vector<ImVec2> points);
    /// To be called after the last hull and before the first question.
    void finish();
    /// Share of the box that is covered, 0..1, to the size of a cell.
    float share(const PixelBox& box) const;

private:
    int sum_at(int column, int row) const {
        return sums_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_ + 1) +
                     static_cast<std::size_t>(column)];
    }

    PixelBox frame_;
    float cell_;
    int columns_, rows_;
    std::vector<int> sums_;  ///< first covered or not; after finish() the sum above and left of it
};

}  // namespace podwright
