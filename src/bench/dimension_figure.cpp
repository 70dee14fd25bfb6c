#include "bench/dimension_figure.hpp"

#include <cmath>

#include "core/units.hpp"

namespace podwright {

namespace {

constexpr float text_clear = 3;  // between the line and its text, line widths
constexpr float tail_arrows = 2.2F;

ArrowHead arrow(ImVec2 tip, ImVec2 direction, float length) {
    const ImVec2 back = tip - direction * length;
    const ImVec2 side = ImVec2{-direction.y, direction.x} *
                        (length * static_cast<float>(std::tan(radians(arrow_degrees / 2))));
    return {tip, back + side, back - side};
}

void add_extension(DimensionFigure& figure, ImVec2 outline, ImVec2 end, float line_width) {
    const ImVec2 way = end - outline;
    if (size_of(way) < 0.5F) return;
    // Where the outline is nearer than the gap, the line is its overrun only.
    const float gap = std::min(gap_widths * line_width, size_of(way));
    figure.extensions.push_back(
        {outline + unit(way) * gap, end + unit(way) * (overrun_widths * line_width)});
}

/// How far the middle of a box must be moved along `way` to lie wholly on that side of a point.
float half_along(ImVec2 box, ImVec2 way) {
    return std::abs(way.x) * box.x / 2 + std::abs(way.y) * box.y / 2;
}

}  // namespace

DimensionFigure figure_of(ImVec2 from_a, ImVec2 from_b, ImVec2 a, ImVec2 b, float line_width) {
    DimensionFigure figure;
    figure.line = {a, b};
    add_extension(figure, from_a, a, line_width);
    add_extension(figure, from_b, b, line_width);
    const ImVec2 along = unit(b - a);
    const float head = arrow_widths * line_width;
    figure.arrows_outside = size_of(b - a) < 3 * head;
    const ImVec2 out = figure.arrows_outside ? along : along * -1;
    figure.arrows = {arrow(a, out, head), arrow(b, out * -1, head)};
    if (figure.arrows_outside) {
        figure.tails = {{a - along * (tail_arrows * head), a},
                        {b, b + along * (tail_arrows * head)}};
    }
    return figure;
}

std::vector<Seat> seats_of(const DimensionFigure& figure, ImVec2 text, float line_width) {
    const auto [a, b] = figure.line;
    const ImVec2 along = unit(b - a);
    ImVec2 above{along.y, -along.x};
    if (above.y > 0.02F || (std::abs(above.y) <= 0.02F && above.x > 0)) above = above * -1;
    const float off = half_along(text, above) + text_clear * line_width;
    const float room = size_of(b - a) - 2 * half_along(text, along);
    std::vector<Seat> seats;
    if (room > 0)
        for (const ImVec2 side : {above, above * -1})
            for (float t : {0.5F, 0.3F, 0.7F, 0.1F, 0.9F})
                seats.push_back({(a + b) * 0.5F + along * ((t - 0.5F) * room) + side * off});
    // On the line, prolonged past either end.
    const float beyond = half_along(text, along) + text_clear * line_width +
                         (figure.arrows_outside ? tail_arrows : 0.8F) * arrow_widths * line_width;
    if (room <= 0) {
        seats.push_back({b + along * beyond});
        seats.push_back({a - along * beyond});
        for (const ImVec2 side : {above, above * -1})
            seats.push_back({(a + b) * 0.5F + side * (off + overrun_widths * line_width), true});
    }
    return seats;
}

std::vector<Segment> lines_of(const DimensionFigure& figure) {
    std::vector<Segment> lines = figure.extensions;
    lines.insert(lines.end(), figure.tails.begin(), figure.tails.end());
    lines.push_back(figure.line);
    return lines;
}

}  // namespace podwright
