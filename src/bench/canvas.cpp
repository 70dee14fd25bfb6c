#include "bench/canvas.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

constexpr float pad_x = 6, pad_y = 2, before_text = 5;

float sign_size(const Canvas& canvas) { return canvas.type->small->FontSize * 0.8F; }

}  // namespace

ImVec2 Canvas::at(const glm::dvec3& world) const {
    const ImVec2 size = box.size();
    const glm::dvec3 p = to_screen(camera, world, {size.x, size.y});
    return {box.low.x + static_cast<float>(p.x), box.low.y + static_cast<float>(p.y)};
}

double Canvas::scale_at(const glm::dvec3& world) const {
    return size_of(at(world + camera.up()) - at(world));
}

ImVec2 label_size(const Canvas& canvas, const std::string& text, Status status) {
    const ImFont* font = canvas.type->small;
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, 0, text.c_str());
    const float sign = status == Status::none ? 0 : sign_size(canvas) + canvas.px(before_text);
    return {std::ceil(size.x + sign + canvas.px(2 * pad_x)),
            std::ceil(size.y + canvas.px(2 * pad_y))};
}

void draw_label(const Canvas& canvas, const PixelBox& box, const std::string& text, Status status) {
    ImDrawList& list = *canvas.list;
    const ImVec2 low{std::round(box.low.x), std::round(box.low.y)};
    const ImVec2 high = low + box.size();
    const Palette& colours = canvas.colours();
    const bool alarmed = status >= Status::caution;
    list.AddRectFilled(low, high, alarmed ? colours.card : colours.plate, canvas.px(4));
    if (alarmed) list.AddRect(low, high, colours.ink, canvas.px(4), 0, canvas.line_width());
    float x = low.x + canvas.px(pad_x);
    if (status != Status::none) {
        const float size = sign_size(canvas);
        draw_status_sign(list, colours, status, {x + size / 2, (low.y + high.y) / 2}, size);
        x += size + canvas.px(before_text);
    }
    const ImFont* font = canvas.type->small;
    list.AddText(font, font->FontSize, {std::round(x), low.y + std::round(canvas.px(pad_y))},
                 colours.ink, text.c_str());
}

void draw_thin_line(const Canvas& canvas, const Segment& line, ImU32 colour) {
    const float width = canvas.line_width();
    canvas.list->AddLine(line.from, line.to, canvas.colours().halo, width + canvas.px(2));
    canvas.list->AddLine(line.from, line.to, colour, width);
}

void draw_leader(const Canvas& canvas, const Segment& leader) {
    draw_thin_line(canvas, leader, canvas.colours().ink);
    canvas.list->AddCircleFilled(leader.from, canvas.px(2), canvas.colours().ink);
}

}  // namespace podwright
