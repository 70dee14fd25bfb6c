#pragma once

#include <string>
#include <vector>

#include <imgui.h>
#include <glm/glm.hpp>

#include "bench/plane.hpp"
#include "bench/theme.hpp"
#include "draw/camera.hpp"

namespace podwright {

/// What words and lines are drawn on over the model: a rectangle of the window or of a picture,
/// seen by a camera.
struct Canvas {
    ImDrawList* list = nullptr;
    PixelBox box;
    Camera camera;
    const Type* type = nullptr;
    std::vector<PixelBox> taken;  ///< where something is written already

    float px(float units) const { return units * type->scale; }
    const Palette& colours() const { return *type->colours; }
    ImVec2 at(const glm::dvec3& world) const;
    /// Pixels per mm at a point.
    double scale_at(const glm::dvec3& world) const;
    /// Thin lines of the drawing; their weight follows the screen's scale.
    float line_width() const { return std::max(1.0F, px(1)); }
};

/// Size of the plate of a text, with a status sign before it if there is a status.
ImVec2 label_size(const Canvas& canvas, const std::string& text, Status status);
/// Text on its plate.
void draw_label(const Canvas& canvas, const PixelBox& box, const std::string& text, Status status);
/// A thin line with a halo that sets it off from what lies behind.
void draw_thin_line(const Canvas& canvas, const Segment& line, ImU32 colour);
/// From what a label speaks of to the label: a thin line that starts with a dot.
void draw_leader(const Canvas& canvas, const Segment& leader);

}  // namespace podwright
