#include "bench/canvas.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

float sign_size(const Canvas& canvas) { return canvas.type->small->FontSize * 0.8F; }

}  // namespace

ImVec2 Canvas::at(const glm::dvec3& world) const {
    const glm::dvec3 p = to_screen(camera, world, {box.high.x - box.low.x, box.high.y - box.low.y});
    return {box.low.x + static_cast<float>(p.x), box.low.y + static_cast<float>(p.y)};
}

double Canvas::scale_at(const glm::dvec3& world) const {
    const ImVec2 a = at(world);
    const ImVec2 b = at(world + camera.up());
    return std::hypot(b.x - a.x, b.y - a.y);
}

bool Canvas::is_free(const PixelBox& label) const {
    return box.holds(label) && std::none_of(taken.begin(), taken.end(),
                                            [&](const PixelBox& t) { return t.overlaps(label); });
}

PixelBox label_box(const Canvas& canvas, ImVec2 at, const std::string& text, Status status) {
    const ImFont* font = canvas.type->small;
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, 0, text.c_str());
    const float sign = status == Status::none ? 0 : sign_size(canvas) + canvas.px(5);
    const float half_width = (size.x + sign) / 2 + canvas.px(5);
    const float half_height = size.y / 2 + canvas.px(2);
    return {{std::round(at.x - half_width), std::round(at.y - half_height)},
            {std::round(at.x + half_width), std::round(at.y + half_height)}};
}

void draw_label(Canvas& canvas, const PixelBox& box, const std::string& text, Status status) {
    ImDrawList& list = *canvas.list;
    const bool alarmed = status >= Status::caution;
    list.AddRectFilled(box.low, box.high, IM_COL32(255, 255, 255, alarmed ? 250 : 225),
                       canvas.px(4));
    if (alarmed)
        list.AddRect(box.low, box.high, theme::ink, canvas.px(4), 0, std::max(1.0F, canvas.px(1)));
    float x = box.low.x + canvas.px(5);
    if (status != Status::none) {
        const float size = sign_size(canvas);
        draw_status_sign(list, status, {x + size / 2, (box.low.y + box.high.y) / 2}, size);
        x += size + canvas.px(5);
    }
    const ImFont* font = canvas.type->small;
    list.AddText(font, font->FontSize, {x, box.low.y + canvas.px(2)}, theme::ink, text.c_str());
    canvas.taken.push_back(box);
}

}  // namespace podwright
