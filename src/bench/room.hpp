#pragma once

#include <array>
#include <map>
#include <optional>
#include <span>
#include <string>

#include "bench/canvas.hpp"
#include "bench/label_layout.hpp"
#include "bench/stage.hpp"
#include "core/text.hpp"
#include "evaluate/evaluate.hpp"

// Clearances on the model: lines between the nearest points, colours by margin, and cameras that
// can see a gap.
namespace podwright {

/// Steps of the colour scale by margin, the tightest first.
struct HeatStep {
    const char* words;
    glm::vec3 colour;  ///< sRGB
};
/// Contact, less than needed, less than twice that, plenty, nothing near: told apart without hue.
extern const std::array<HeatStep, 5> heat_steps;

/// The step of each part by the tightest of its pairs that need clearance.
std::map<std::string, std::size_t> heat_of(const Evaluation& evaluation);

/// The pairs that are shown: those in trouble, and if `all` the tightest others up to `most`.
std::vector<const Clearance*> shown_clearances(const Evaluation& evaluation, bool all,
                                               std::size_t most = 6);

/// The line between a pair's nearest points; interference is marked by a cross in a ring.
void draw_gap_line(const Canvas& canvas, const glm::dvec3& a, const glm::dvec3& b, Status status);
/// What the label of a pair asks for, and what it says: names and value.
LabelWish wish_of(const Canvas& canvas, const Clearance& clearance, const std::string& text,
                  int rank);
std::string text_of(const Clearance& clearance, const Evaluation& evaluation, LengthUnit shown);

/// The colour scale, at the lower left of the canvas.
void draw_heat_legend(Canvas& canvas);

/// A camera from which the gap of the pair is seen from the side with nothing in front of it, as
/// near to `from` as that allows; the one looking at it from where `from` is if it is hidden from
/// everywhere.
Camera camera_on_gap(const Clearance& clearance, const Camera& from, const Stage& stage,
                     const StageLook& look, double aspect);

}  // namespace podwright
