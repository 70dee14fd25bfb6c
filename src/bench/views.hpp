#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "draw/camera.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

/// One of the places from which the bench is looked at.
struct NamedView {
    std::string_view name;
    std::string_view help;
    int key;           ///< the digit that selects it
    double azimuth;    ///< from where it is seen, deg
    double elevation;  ///<
    /// The dimensions that belong on it, by the start of their names.
    std::vector<std::string_view> dimensions;
    /// Parts that would hide what it shows and are made see-through, by key.
    std::vector<std::string_view> see_through;
    bool loupe = true;  ///< the gap that the loupe enlarges is part of what it shows
    /// Like a drawing, next to a parallel projection: lines of dimensions meet the outlines.
    bool flat = false;
};

std::span<const NamedView> named_views();

/// Throws std::out_of_range for an unknown name.
const NamedView& named_view(std::string_view name);

/// Whether the dimension of that name belongs on the view.
bool shows_dimension(const NamedView& view, std::string_view dimension);

/// What a picture is composed for. The margins are shares of width and height that are kept free
/// for what is written there.
struct Composition {
    double aspect = 1;  ///< width over height
    double spread = 0;  ///< of the exploded view
    double left_margin = 0, right_margin = 0, top_margin = 0, bottom_margin = 0;
};

/// Whether there is room for the loupe beside the model; otherwise it stands above.
bool stands_beside(double aspect);

/// With room for a title, findings, and the view's loupe beside the model, where the left hub is
/// (in the view of the mesh: at the right), or, in an upright picture, above it.
Composition composed(const NamedView& view, double aspect, double spread, bool words);

/// The same for a model under load: ribbons below the axle, and no loupe.
Composition composed_for_load(const NamedView& view, double aspect, double spread, bool words);

/// The camera of that view, composed for this setup and picture. Throws std::out_of_range for an
/// unknown name.
Camera camera_of(std::string_view name, const Evaluation& evaluation,
                 const Composition& composition);

/// Whether the view wants the near half taken away.
bool wants_cut(std::string_view name);

/// The camera turned and moved so that a sphere fills a good part of the picture.
Camera looking_at(const Camera& from, const glm::dvec3& centre, double radius, double aspect);

/// Between two cameras, t = 0..1; the azimuth goes the short way round.
Camera between(const Camera& a, const Camera& b, double t);

}  // namespace podwright
