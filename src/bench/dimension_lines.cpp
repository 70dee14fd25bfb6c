#include "bench/dimension_lines.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace podwright {

namespace {

ImVec2 operator+(ImVec2 a, ImVec2 b) { return {a.x + b.x, a.y + b.y}; }
ImVec2 operator-(ImVec2 a, ImVec2 b) { return {a.x - b.x, a.y - b.y}; }
ImVec2 operator*(ImVec2 a, float s) { return {a.x * s, a.y * s}; }
float length(ImVec2 a) { return std::hypot(a.x, a.y); }
ImVec2 unit(ImVec2 a) {
    const float l = length(a);
    return l > 1e-6F ? a * (1 / l) : ImVec2{1, 0};
}

constexpr float line_width = 1.2F;
// ISO 129-1 (from memory): gap and overrun of about eight line widths; here at screen size.
constexpr float gap = 5;
constexpr float overrun = 6;
constexpr float arrow_length = 10;

void draw_line(Canvas& canvas, ImVec2 a, ImVec2 b) {
    canvas.list->AddLine(a, b, IM_COL32(255, 255, 255, 150), canvas.px(line_width) + 2);
    canvas.list->AddLine(a, b, theme::ink, canvas.px(line_width));
}

/// Filled arrowhead with its tip at `tip`, pointing along `direction`, 30 degrees included.
void draw_arrow(Canvas& canvas, ImVec2 tip, ImVec2 direction) {
    const ImVec2 back = tip - direction * canvas.px(arrow_length);
    const ImVec2 side = ImVec2{-direction.y, direction.x} *
                        (canvas.px(arrow_length) * static_cast<float>(std::tan(radians(15))));
    canvas.list->AddTriangleFilled(tip, back + side, back - side, theme::ink);
}

void draw_extension(Canvas& canvas, ImVec2 feature, ImVec2 end) {
    const ImVec2 along = unit(end - feature);
    if (length(end - feature) < canvas.px(gap) + 2) return;
    draw_line(canvas, feature + along * canvas.px(gap), end + along * canvas.px(overrun));
}

/// The first free place for the label: on the line, then beside it.
bool find_place(const Canvas& canvas, ImVec2 a, ImVec2 b, const std::string& text, Status status,
                PixelBox& place) {
    constexpr std::array<float, 7> along = {0.5F, 0.38F, 0.62F, 0.25F, 0.75F, 0.12F, 0.88F};
    ImVec2 aside = {-(b - a).y, (b - a).x};
    aside = unit(aside);
    if (aside.y > 0) aside = aside * -1;
    const bool fits_on_line = length(b - a) > canvas.px(2 * arrow_length + 60);
    for (float off : {0.0F, 16.0F, -16.0F, 30.0F, -30.0F, 46.0F, -46.0F}) {
        if (off == 0 && !fits_on_line) continue;
        for (float t : along) {
            const ImVec2 at = a + (b - a) * t + aside * canvas.px(off);
            place = label_box(canvas, at, text, status);
            if (canvas.is_free(place)) return true;
        }
    }
    if (fits_on_line) return false;
    // A short line: past either end.
    const ImVec2 outward = unit(b - a);
    for (float beyond : {40.0F, 60.0F, 85.0F})
        for (const ImVec2 at : {b + outward * canvas.px(beyond), a - outward * canvas.px(beyond)}) {
            place = label_box(canvas, at, text, status);
            if (canvas.is_free(place)) return true;
        }
    return false;
}

Status status_of_dimension(const Dimension& dimension, const Evaluation& evaluation) {
    // A side's ride height carries no limit of its own; the mean does.
    const Reading* reading = evaluation.reading(dimension.name);
    return reading ? reading->status : Status::none;
}

/// One dimension as it will stand on the canvas.
struct Placed {
    ImVec2 from, to;  ///< of the features
    ImVec2 a, b;      ///< ends of the dimension line
    std::string text;
    Status status = Status::none;
    PixelBox label;
};

/// The place for the dimension line that is seen best: where the extension lines run square to it
/// on the canvas, and on the near side rather than the far one.
glm::dvec3 best_offset(const Canvas& canvas, const Dimension& d) {
    const ImVec2 from = canvas.at(d.from);
    const ImVec2 along = unit(canvas.at(d.to) - from);
    const glm::dvec3 to_eye = glm::normalize(canvas.camera.eye() - canvas.camera.target);
    glm::dvec3 best = d.offsets.front();
    double most = -1;
    for (const glm::dvec3& offset : d.offsets) {
        const ImVec2 across = canvas.at(d.from + offset) - from;
        const double square = std::abs(across.x * along.y - across.y * along.x);
        const double facing = glm::dot(glm::normalize(offset), to_eye);
        const double score = square * (facing > -0.2 ? 1 : 0.3);
        if (score > most * 1.2) {  // the preferred one unless another is clearly better
            most = score;
            best = offset;
        }
    }
    return best;
}

bool place(Canvas& canvas, const Dimension& d, Placed& p) {
    const glm::dvec3 offset = best_offset(canvas, d);
    p.from = canvas.at(d.from);
    p.to = canvas.at(d.to);
    p.a = canvas.at(d.from + offset);
    p.b = canvas.at(d.to + offset);
    if (!std::isfinite(p.a.x + p.a.y + p.b.x + p.b.y)) return false;
    if (!find_place(canvas, p.a, p.b, p.text, p.status, p.label)) return false;
    canvas.taken.push_back(p.label);
    return true;
}

void draw_lines(Canvas& canvas, const Placed& p) {
    draw_extension(canvas, p.from, p.a);
    draw_extension(canvas, p.to, p.b);
    const ImVec2 along = unit(p.b - p.a);
    if (length(p.b - p.a) > canvas.px(3 * arrow_length)) {
        draw_line(canvas, p.a, p.b);
        draw_arrow(canvas, p.a, along * -1);
        draw_arrow(canvas, p.b, along);
    } else {
        const float tail = canvas.px(2.2F * arrow_length);
        draw_line(canvas, p.a - along * tail, p.b + along * tail);
        draw_arrow(canvas, p.a, along);
        draw_arrow(canvas, p.b, along * -1);
    }
}

}  // namespace

std::vector<Dimension> dimensions_on(const NamedView& view, const Setup& setup,
                                     const Evaluation& e) {
    std::vector<Dimension> all = dimensions(setup, e.stack, e.stance, e.drive);
    all.erase(std::remove_if(all.begin(), all.end(),
                             [&](const Dimension& d) { return !shows_dimension(view, d.name); }),
              all.end());
    return all;
}

std::vector<ImVec2> dimension_points(const Canvas& canvas, std::span<const Dimension> dimensions) {
    constexpr int pieces = 6;
    std::vector<ImVec2> points;
    for (const Dimension& d : dimensions) {
        const glm::dvec3 offset = best_offset(canvas, d);
        for (int i = 0; i <= pieces; ++i)
            points.push_back(
                canvas.at(d.from + offset + (d.to - d.from) * (static_cast<double>(i) / pieces)));
        points.push_back(canvas.at(d.from));
        points.push_back(canvas.at(d.to));
    }
    return points;
}

void draw_dimensions(Canvas& canvas, std::span<const Dimension> dimensions,
                     const Evaluation& evaluation, LengthUnit shown) {
    constexpr float shortest_readable = 7;  // between the arrowheads, pixels
    std::vector<Placed> placed;
    for (const Dimension& d : dimensions) {
        if (length(canvas.at(d.to) - canvas.at(d.from)) < canvas.px(shortest_readable)) continue;
        Placed p;
        p.text = d.label + " " + podwright::length(d.value, shown);
        p.status = status_of_dimension(d, evaluation);
        if (place(canvas, d, p)) placed.push_back(std::move(p));
    }
    // All lines first: none runs through a number.
    for (const Placed& p : placed) draw_lines(canvas, p);
    for (const Placed& p : placed) draw_label(canvas, p.label, p.text, p.status);
}

}  // namespace podwright
