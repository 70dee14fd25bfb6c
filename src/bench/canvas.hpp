#pragma once

#include <string>
#include <vector>

#include <imgui.h>
#include <glm/glm.hpp>

#include "bench/theme.hpp"
#include "draw/camera.hpp"

namespace podwright {

/// A rectangle in pixels.
struct PixelBox {
    ImVec2 low, high;
    bool overlaps(const PixelBox& other) const {
        return low.x < other.high.x && other.low.x < high.x && low.y < other.high.y &&
               other.low.y < high.y;
    }
    bool holds(const PixelBox& other) const {
        return other.low.x >= low.x && other.low.y >= low.y && other.high.x <= high.x &&
               other.high.y <= high.y;
    }
};

/// What words and lines are drawn on over the model: a rectangle of the window or of a picture,
/// seen by a camera.
struct Canvas {
    ImDrawList* list = nullptr;
    PixelBox box;
    Camera camera;
    const Type* type = nullptr;
    std::vector<PixelBox> taken;  ///< where something is written already

    float px(float units) const { return units * type->scale; }
    ImVec2 at(const glm::dvec3& world) const;
    /// Pixels per mm at a point.
    double scale_at(const glm::dvec3& world) const;
    /// Whether a label fits there without touching another or leaving the canvas.
    bool is_free(const PixelBox& label) const;
};

/// Text on a plate, with a status sign before it if there is a status. Centred on `at`; returns its
/// box.
PixelBox label_box(const Canvas& canvas, ImVec2 at, const std::string& text, Status status);
void draw_label(Canvas& canvas, const PixelBox& box, const std::string& text, Status status);

}  // namespace podwright
