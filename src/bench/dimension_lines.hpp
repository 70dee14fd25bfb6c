#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "bench/canvas.hpp"
#include "bench/dimension_figure.hpp"
#include "bench/views.hpp"
#include "core/text.hpp"
#include "draw/renderer.hpp"
#include "evaluate/evaluate.hpp"
#include "shape/dimension.hpp"
#include "shape/mesh.hpp"

namespace podwright {

/// The dimensions of the assembly that belong on a named view.
std::vector<Dimension> dimensions_on(const NamedView& view, const Setup& setup,
                                     const Evaluation& evaluation);

/// A dimension as it will stand on the canvas; its words have yet to find their place.
struct DrawnDimension {
    std::string name;
    std::string text;     ///< name, value and, if it is judged, the word for it
    std::string shorter;  ///< name and value; empty if that is all there is
    int importance = 0;   ///< the lower the sooner it gets a place
    Status status = Status::none;
    DimensionFigure figure;
};

/// Which of a dimension's places was taken last, by its name.
using OffsetMemory = std::map<std::string, std::size_t>;

/// The dimensions that can be read at this size. Each stands at the one of its places that is seen
/// best: inside the canvas, clear of what is written and of the model (`cover`), with extension
/// lines square to it; it stays where it was unless another is clearly better. Extension lines
/// start where they leave the `outlines` (boxes of parts in pod axes), so that none runs across the
/// model. What is measured in the half space that the `cut` takes away is not there to be seen, and
/// has no dimension; nor does a dimension line stand there.
std::vector<DrawnDimension> planned_dimensions(const Canvas& canvas, const CoverMap& cover,
                                               std::span<const Dimension> dimensions,
                                               std::span<const Bounds> outlines,
                                               const std::optional<Cut>& cut,
                                               const Evaluation& evaluation, LengthUnit shown,
                                               OffsetMemory& memory);

/// What its label asks for: a place at its own line, or none.
LabelWish wish_of(const Canvas& canvas, const DrawnDimension& dimension);

void draw_figure(const Canvas& canvas, const DimensionFigure& figure);

}  // namespace podwright
