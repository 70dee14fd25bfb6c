#include "bench/loupe.hpp"

#include <algorithm>
#include <cmath>

#include "bench/loupe_float.hpp"
#include "bench/room.hpp"
#include "bench/views.hpp"
#include "gap/clearance_findings.hpp"

namespace podwright {

namespace {

constexpr float ring_units = 7;  // radius of the ring round what the loupe looks at

}  // namespace

void aim(LoupeView& view, const glm::dvec3& target, double distance) {
    view.camera.target = target;
    view.camera.distance = distance;
    view.camera.field_of_view = 2 * std::atan(view.across / 2 / distance);
}

Canvas inside(const Canvas& canvas, const LoupePlace& place, const LoupeView& view) {
    Canvas in = canvas;
    in.box = place.box();
    in.camera = view.camera;
    in.taken.clear();
    return in;
}

LoupeView loupe_on_gap(const Clearance& c, const Evaluation& evaluation, const Camera& from,
                       LengthUnit shown) {
    LoupeView view;
    view.of = LoupeView::Of::pair;
    view.point_a = c.now.point_a;
    view.point_b = c.now.point_b;
    view.gap = (view.point_a + view.point_b) / 2.0;
    view.across = std::max(1.5, 3.2 * std::abs(c.now.gap));
    view.camera.azimuth = from.azimuth;
    view.camera.elevation = from.elevation;
    constexpr double near = 60;  // what is farther off is not in the way
    aim(view, view.gap, near);
    view.status = c.worst.status;
    view.caption = spoken(evaluation.assembly, c.a) + " / " + spoken(evaluation.assembly, c.b) +
                   " " + length(c.now.gap, shown);
    return view;
}

LoupePlace take_loupe_place(Canvas& canvas, const CoverMap& cover, std::span<const ImVec2> points,
                            bool at_left, std::optional<LoupePlace>& last) {
    const ImVec2 size = canvas.box.size();
    // Above the model it takes from the model's height: a little smaller there.
    const float part = stands_beside(double{size.x} / size.y) ? 0.19F : 0.155F;
    const float largest =
        std::floor(std::clamp(part * std::min(size.x, size.y), canvas.px(64), canvas.px(150)));
    const float above = canvas.px(16);  // its magnification and its caption stand on the rim
    const auto room_of = [&](const LoupePlace& place) {
        const PixelBox box = place.box().grown(canvas.px(4));
        return PixelBox{{box.low.x, box.low.y - above}, {box.high.x, box.high.y + above}};
    };
    const auto badness = [&](const LoupePlace& place) {
        const PixelBox room = room_of(place);
        float bad = 40 * cover.share(room) + 12 * (1 - place.radius / largest);
        for (const PixelBox& taken : canvas.taken) bad += taken.overlaps(room) ? 1000.0F : 0.0F;
        for (const ImVec2 p : points) bad += room.holds(p) ? 2.0F : 0.0F;
        return bad;
    };
    LoupePlace best;
    float least = 1e9F;
    const auto consider = [&](const LoupePlace& place, float extra) {
        const float bad = badness(place) + extra;
        if (bad >= least) return;
        least = bad;
        best = place;
    };
    constexpr float staying = 4;
    const bool on_its_side =
        last && (last->centre.x < (canvas.box.low.x + canvas.box.high.x) / 2) == at_left;
    if (on_its_side && last->radius <= largest && canvas.box.holds(room_of(*last)))
        consider(*last, -staying);
    constexpr int steps = 8;
    for (float share : {1.0F, 0.8F, 0.65F}) {
        const float radius = largest * share;
        const ImVec2 off{radius + canvas.px(20), radius + canvas.px(10) + above};
        const PixelBox air{canvas.box.low + off, canvas.box.high - off};
        for (int i = 0; i <= steps; ++i)
            for (int j = 0; j <= steps; ++j) {
                if (i != 0 && i != steps && j != 0 && j != steps) continue;  // along the edges
                const float t = static_cast<float>(i) / steps;
                const float v = static_cast<float>(j) / steps;
                consider({{air.high.x + (air.low.x - air.high.x) * t,
                           air.low.y + (air.high.y - air.low.y) * v},
                          radius},
                         (at_left ? 1 - t : t) + v);
            }
    }
    best = {{std::round(best.centre.x), std::round(best.centre.y)}, std::floor(best.radius + 0.5F)};
    last = best;
    canvas.taken.push_back(room_of(best));
    return best;
}

RimWords rim_words(const Canvas& canvas, const LoupePlace& place, const LoupeView& view) {
    const double loupe_scale = 2 * place.radius / view.across;
    const double magnification = loupe_scale / canvas.scale_at(view.gap);
    // Centred on the rim, moved as far as it would leave the canvas.
    const auto box = [&](float y, const std::string& text, Status status) {
        PixelBox label = box_about({place.centre.x, y}, label_size(canvas, text, status));
        const float over = std::max(0.0F, label.high.x + canvas.px(4) - canvas.box.high.x) -
                           std::max(0.0F, canvas.box.low.x - label.low.x + canvas.px(4));
        label.low.x -= over;
        label.high.x -= over;
        return label;
    };
    const float off = place.radius + canvas.px(2);
    RimWords words;
    words.magnification = "\xC3\x97" + fixed(magnification, magnification < 10 ? 1 : 0);
    words.above = box(place.centre.y - off, words.magnification, Status::none);
    words.below = box(place.centre.y + off, view.caption, view.status);
    return words;
}

std::optional<Segment> line_to_gap(const Canvas& canvas, const LoupePlace& place,
                                   const LoupeView& view) {
    const ImVec2 target = canvas.at(view.gap);
    const ImVec2 way = target - place.centre;
    const float clear = place.radius + canvas.px(2);
    if (size_of(way) < clear + canvas.px(ring_units)) return {};
    return Segment{target - unit(way) * canvas.px(ring_units), place.centre + unit(way) * clear};
}

void draw_line_to_gap(const Canvas& canvas, const Segment& line) {
    const float width = canvas.px(1.5F);
    const ImU32 colour = canvas.colours().accent;
    canvas.list->AddLine(line.from, line.to, canvas.colours().halo, width + canvas.px(2));
    canvas.list->AddLine(line.from, line.to, colour, width);
    canvas.list->AddCircle(line.from + unit(line.from - line.to) * canvas.px(ring_units),
                           canvas.px(ring_units), colour, 0, width);
}

void draw_loupe(const Canvas& canvas, const LoupePlace& place, const LoupeView& view,
                ImTextureID picture, const Setup& setup, LengthUnit shown) {
    ImDrawList& list = *canvas.list;
    const PixelBox box = place.box();
    list.AddCircleFilled(place.centre, place.radius, canvas.colours().field, 96);
    list.AddImageRounded(picture, box.low, box.high, {0, 1}, {1, 0}, IM_COL32_WHITE, place.radius);
    const Canvas in = inside(canvas, place, view);
    switch (view.of) {
        case LoupeView::Of::axial_float: draw_float_words(in, place, view, setup, shown); break;
        case LoupeView::Of::pair: draw_gap_line(in, view.point_a, view.point_b, view.status); break;
        case LoupeView::Of::mesh: break;  // the teeth speak for themselves
    }
    list.AddCircle(place.centre, place.radius, canvas.colours().card, 96, canvas.px(5));
    list.AddCircle(place.centre, place.radius + canvas.px(2), canvas.colours().ink, 96,
                   canvas.px(1.5F));

    const RimWords words = rim_words(canvas, place, view);
    draw_label(canvas, words.below, view.caption, view.status);
    draw_label(canvas, words.above, words.magnification, Status::none);
}

}  // namespace podwright
