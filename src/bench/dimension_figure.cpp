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

/// How far along `way` a line from the middle of a box runs inside it.
float inside_along(ImVec2 box, ImVec2 way) {
    constexpr float least = 1e-4F;
    return std::min(box.x / 2 / std::max(least, std::abs(way.x)),
                    box.y / 2 / std::max(least, std::abs(way.y)));
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
    // On the line itself, which it breaks, enough of the line must remain on either side.
    const bool breaks = room > 2.4F * arrow_widths * line_width && !figure.arrows_outside;
    if (room > 0)
        for (const auto& shares : {std::vector{0.5F}, {0.3F, 0.7F}, {0.1F, 0.9F}})
            for (const ImVec2 side : {above, ImVec2{0, 0}, above * -1}) {
                if (!breaks && side.x == 0 && side.y == 0) continue;
                for (const float t : shares)
                    seats.push_back({(a + b) * 0.5F + along * ((t - 0.5F) * room) + side * off});
            }
    // On the line, prolonged past either end.
    const float beyond = inside_along(text, along) + text_clear * line_width +
                         (figure.arrows_outside ? tail_arrows : 0.8F) * arrow_widths * line_width;
    const ImVec2 middle = (a + b) * 0.5F;
    if (room <= 0) {
        const bool steep = std::abs(along.y) > std::abs(along.x);
        const ImVec2 aside = steep ? ImVec2{text.x * 0.6F, 0} : ImVec2{0, text.y};
        const float farther = 2 * overrun_widths * line_width;
        seats.push_back({b + along * beyond});
        seats.push_back({a - along * beyond});
        // Beside a line that runs up and down, a leader is short.
        if (steep)
            for (const ImVec2 side : {above * -1, above})
                seats.push_back({middle + side * (off + overrun_widths * line_width), true});
        for (float off_line : {0.0F, 0.4F, -0.4F, 0.85F, -0.85F})
            for (float more : {0.0F, farther})
                for (const ImVec2 end : {b + along * (beyond + more), a - along * (beyond + more)})
                    seats.push_back({end + aside * off_line});
    }
    const float whole = 2 * half_along(text, along);
    // Beside a line that it covers most of, or overhangs by little.
    constexpr float most_overhang = 1.6F;
    if (room < whole && whole < most_overhang * size_of(b - a))
        for (const ImVec2 side : {above, above * -1})
            for (float shift : {0.0F, 0.12F, -0.12F, 0.3F, -0.3F, 0.42F, -0.42F})
                seats.push_back({middle + side * off + along * (shift * whole)});
    if (room > 0.3F * whole) return seats;
    // Near by on a leader.
    for (float rows : {0.0F, 1.5F})
        for (const ImVec2 side : {above, above * -1})
            for (float shift : {0.0F, 0.6F, -0.6F})
                seats.push_back({middle +
                                     side * (off + overrun_widths * line_width + rows * text.y) +
                                     along * (shift * whole),
                                 true});
    return seats;
}

std::vector<Segment> lines_of(const DimensionFigure& figure) {
    std::vector<Segment> lines = figure.extensions;
    lines.insert(lines.end(), figure.tails.begin(), figure.tails.end());
    lines.push_back(figure.line);
    return lines;
}

}  // namespace podwright
