#include "bench/loupe_float.hpp"

#include <algorithm>
#include <cmath>

#include "bench/dimension_lines.hpp"
#include "bench/label_layout.hpp"
#include "core/limits.hpp"

namespace podwright {

namespace {

// Blued spring steel: none of the greys of shims and bearing, nor a colour that says a status.
constexpr glm::vec3 blade_paint{0.36F, 0.31F, 0.56F};  // sRGB
constexpr float dimension_height = 0.5F;               // below the middle, shares of the radius
constexpr float half_label = 9;                        // units of layout

std::string_view float_word(const Setup& setup, double F) {
    switch (float_status(setup, F)) {
        case Status::stop: return "binds";
        case Status::caution: return F < setup.axial_float.low ? "tight" : "loose";
        default: return "ok";
    }
}

double gap_of(const LoupeView& view) { return view.thrust_face - view.shim_face; }

bool overlaps(const LoupeView& view) { return below(gap_of(view), 0); }

/// Across the picture, pixels.
float x_at(const Canvas& in, const LoupeView& view, double u) {
    return in.at({view.gap.x, u, view.gap.z}).x;
}

/// How far from the middle the centre of a box may stand at that height (shares of the radius) so
/// that the circle holds it; < 0: it holds none so wide.
float way_in_circle(const LoupePlace& place, float height, ImVec2 size) {
    const float farthest = std::abs(height) * place.radius + size.y / 2;
    const float inner = place.radius - 3;  // the rim
    return std::sqrt(std::max(0.0F, inner * inner - farthest * farthest)) - size.x / 2;
}

bool fits(const LoupePlace& place, float height, ImVec2 size) {
    return way_in_circle(place, height, size) >= 0;
}

/// The centre of a box as near to `x` as the circle allows at that height.
ImVec2 in_circle(const LoupePlace& place, float x, float height, ImVec2 size) {
    const float way = std::max(0.0F, way_in_circle(place, height, size));
    return {std::clamp(x, place.centre.x - way, place.centre.x + way),
            place.centre.y + height * place.radius};
}

/// Heights at which labels clear one another, the best first.
std::vector<float> rows(const Canvas& in, const LoupePlace& place, float first) {
    const float step = (in.px(2 * half_label) + in.px(4)) / place.radius;
    std::vector<float> heights;
    for (const float k : {0.0F, 1.0F, -1.0F, 2.0F})
        if (first + k * step > -0.7F && first + k * step < dimension_height - 0.75F * step)
            heights.push_back(first + k * step);
    return heights;
}

struct Wanted {
    std::vector<LabelWish> wishes;
    std::vector<std::string> texts;
    std::vector<Status> statuses;
};

void add(const Canvas& in, Wanted& wanted, LabelWish wish, std::string text, Status status) {
    wish.name = std::to_string(wanted.wishes.size());
    wish.roams = false;
    wish.sizes = {label_size(in, text, status)};
    wanted.wishes.push_back(std::move(wish));
    wanted.texts.push_back(std::move(text));
    wanted.statuses.push_back(status);
}

/// Each on its shim.
void want_shims(const Canvas& in, const LoupePlace& place, const LoupeView& view,
                const Setup& setup, LengthUnit shown, Wanted& wanted) {
    double u = view.shim_face;
    for (auto t = setup.left.shims.rbegin(); t != setup.left.shims.rend(); ++t) {
        LabelWish wish;
        wish.anchor = {x_at(in, view, u - *t / 2), place.centre.y - place.radius * 0.1F};
        const std::string text = number_as(written_as("mm", shown), *t);
        const ImVec2 size = label_size(in, text, Status::none);
        for (float height : rows(in, place, -0.36F)) {
            const ImVec2 seat = in_circle(place, wish.anchor.x, height, size);
            if (std::abs(seat.x - wish.anchor.x) < size.x / 3) wish.seats.push_back({seat});
        }
        add(in, wanted, std::move(wish), text, Status::none);
        u -= *t;
    }
}

void want_sum(const Canvas& in, const LoupePlace& place, const LoupeView& view, const Setup& setup,
              LengthUnit shown, Wanted& wanted) {
    const std::size_t count = setup.left.shims.size();
    if (count == 0) return;
    double sum = 0;
    for (const double t : setup.left.shims) sum += t;
    const std::string many = count == 1 ? "shim" : std::to_string(count) + " shims";
    // On two lines where the circle is too narrow for one.
    constexpr float height = -0.36F;
    std::string text = many + " " + length(sum, shown);
    if (!fits(place, height, label_size(in, text, Status::none)))
        text = many + "\n" + length(sum, shown);
    LabelWish wish;
    wish.anchor = {x_at(in, view, view.shim_face - sum / 2), place.centre.y - place.radius * 0.1F};
    wish.seats.push_back(
        {in_circle(place, wish.anchor.x, height, label_size(in, text, Status::none))});
    add(in, wanted, std::move(wish), std::move(text), Status::none);
}

/// Beside the gap, joined to it by a leader; or on it where neither side has room.
void want_gap(const Canvas& in, const LoupePlace& place, const LoupeView& view, LengthUnit shown,
              Wanted& wanted) {
    if (!overlaps(view) && view.blade <= 0) return;
    const std::string text = (overlaps(view) ? "overlap " : "blade ") +
                             number_as(written_as("mm", shown), std::abs(gap_of(view)));
    const Status status = overlaps(view) ? Status::stop : Status::none;
    const ImVec2 size = label_size(in, text, status);
    const float a = x_at(in, view, view.shim_face);
    const float b = x_at(in, view, view.thrust_face);
    const float off = std::abs(b - a) / 2 + in.px(10) + size.x / 2;
    const float outward = x_at(in, view, view.shim_face + 1) > a ? 1.0F : -1.0F;
    LabelWish wish;
    wish.rank = 1;  // after the shims
    wish.anchor = {(a + b) / 2, place.centre.y + place.radius * 0.14F};
    for (const float side : {outward, -outward})
        for (const float height : rows(in, place, 0.14F)) {
            const float x = wish.anchor.x + side * off;
            const ImVec2 seat = in_circle(place, x, height, size);
            if (seat.x == x) wish.seats.push_back({seat, true});
        }
    for (const float height : rows(in, place, 0.14F))
        if (fits(place, height, size))
            wish.seats.push_back({in_circle(place, wish.anchor.x, height, size)});
    add(in, wanted, std::move(wish), text, status);
}

/// Inside the circle, clear of the dimension and of what is written on the rim.
LabelGround ground_of(const Canvas& in, const LoupePlace& place, const LoupeView& view) {
    LabelGround ground;
    ground.frame = place.box();
    ground.unit = in.type->scale;
    const float half = in.px(half_label);
    const DimensionFigure figure = float_figure(in, place, view);
    const PixelBox line = box_about((figure.line.from + figure.line.to) * 0.5F,
                                    {size_of(figure.line.to - figure.line.from) + 2 * half, half});
    const float wide = place.box().size().x;
    ground.fixed = {line, box_about({place.centre.x, place.box().low.y}, {wide, 2 * half}),
                    box_about({place.centre.x, place.box().high.y}, {wide, 2 * half})};
    return ground;
}

std::vector<LoupeWord> laid_out(const Wanted& wanted, const LabelGround& ground, bool& complete) {
    LabelMemory none;
    const LabelLayout layout = lay_out(wanted.wishes, ground, none);
    complete = layout.left_out == 0;
    std::vector<LoupeWord> words;
    for (std::size_t i = 0; i < layout.labels.size(); ++i) {
        const PlacedLabel& label = layout.labels[i];
        if (label.shown)
            words.push_back({wanted.texts[i], wanted.statuses[i], label.box, label.leader});
    }
    return words;
}

/// ImGui draws lines half a pixel lower and farther right than their points say; here it shows.
DimensionFigure for_imgui(DimensionFigure figure) {
    const auto move = [](Segment& line) {
        line.from = line.from - ImVec2{0.5F, 0.5F};
        line.to = line.to - ImVec2{0.5F, 0.5F};
    };
    move(figure.line);
    for (Segment& line : figure.tails) move(line);
    for (Segment& line : figure.extensions) move(line);
    return figure;
}

void draw_band(const Canvas& in, const PixelBox& band) {
    ImDrawList& list = *in.list;
    list.AddRectFilled(band.low, band.high, in.colours().stop);
    // Stripes, so that it is not the colour alone that says so.
    const float wide = band.size().x;
    list.PushClipRect(band.low, band.high, true);
    const float step = in.px(7);
    const int stripes = static_cast<int>((band.size().y + wide) / step) + 1;
    for (int i = 0; i < stripes; ++i) {
        const float y = band.low.y - wide + static_cast<float>(i) * step;
        list.AddLine({band.low.x, y + wide}, {band.high.x, y}, in.colours().on_status, in.px(1.5F));
    }
    list.PopClipRect();
}

/// mm from edge to edge, so that all shims are in sight and both faces of the gap. A narrow overlap
/// wants more magnification than a gap.
double across_for(double shims, double F) {
    const double usual = F < 0 ? std::max(1.6, 2 * shims + 0.6) : std::max(2.6, 2.2 * shims + 1.2);
    return std::max(usual, 2.4 * std::abs(F));
}

}  // namespace

LoupeView loupe_on_float(const Setup& setup, const Evaluation& evaluation, const Pose& pose,
                         const Camera& from, LengthUnit shown) {
    // From so far away that shim, hub and the blade's edge before them stand on the same lines.
    constexpr double far = 800;
    LoupeView view;
    const SideStack& left = evaluation.stack.left;
    const double F = evaluation.stack.axial_float;
    view.shim_face = left.bearing + left.shims;
    // An axle that binds stays in the middle, as placed() has it.
    view.thrust_face = left.thrust + pose.along * std::max(0.0, F) / 2;
    view.blade = F > 0 && pose.along > 0.999 ? F : 0;
    const double middle = (view.shim_face + view.thrust_face) / 2;
    const double shim_radius = setup.axle.diameter / 2 + 1.5;
    view.across = across_for(left.shims, F);
    const bool behind = from.right().y < 0;
    view.gap = {behind ? -shim_radius : shim_radius, middle, evaluation.stance.axle_z(middle)};
    view.camera.azimuth = behind ? pi : 0;
    view.camera.elevation = radians(12);
    aim(view, view.gap - glm::dvec3(0, 0.18 * view.across, 0), far);
    view.status = float_status(setup, F);
    view.caption = "float " + length(F, shown) + ", " + std::string(float_word(setup, F));
    // Away from its left end the axle leaves less of it here; one that binds overlaps at both ends.
    const double here = gap_of(view);
    if (std::abs(here - F) > 0.005) view.caption += "; here " + length(here, shown);
    return view;
}

StageLook look_of_float(const Pose& pose) {
    StageLook look;
    look.pose = pose;
    look.hidden = {"left.tyre", "left.wheel", "left.screws", "pod.left", "pod.posts"};
    look.paint = {{"blade", blade_paint}};
    return look;
}

DimensionFigure float_figure(const Canvas& in, const LoupePlace& place, const LoupeView& view) {
    const float a = x_at(in, view, view.shim_face);
    const float b = x_at(in, view, view.thrust_face);
    const float y = place.centre.y + place.radius * dimension_height;
    const float top = place.centre.y + place.radius * 0.3F;
    return figure_of({std::min(a, b), top}, {std::max(a, b), top}, {std::min(a, b), y},
                     {std::max(a, b), y}, in.line_width());
}

std::optional<PixelBox> overlap_band(const Canvas& in, const LoupePlace& place,
                                     const LoupeView& view) {
    if (!overlaps(view)) return {};
    const float a = x_at(in, view, view.shim_face);
    const float b = x_at(in, view, view.thrust_face);
    const float off = std::max(std::abs(a - place.centre.x), std::abs(b - place.centre.x));
    const float r = place.radius;
    const float half = std::sqrt(std::max(0.0F, r * r - off * off));
    return PixelBox{{std::min(a, b), place.centre.y - half},
                    {std::max(a, b), place.centre.y + half}};
}

std::vector<LoupeWord> float_words(const Canvas& in, const LoupePlace& place, const LoupeView& view,
                                   const Setup& setup, LengthUnit shown) {
    const LabelGround ground = ground_of(in, place, view);
    std::vector<LoupeWord> words;
    // All shims with the gap's word, without it; then their sum.
    for (const bool each : {true, false})
        for (const bool gap : {true, false}) {
            Wanted wanted;
            if (each)
                want_shims(in, place, view, setup, shown, wanted);
            else
                want_sum(in, place, view, setup, shown, wanted);
            if (gap) want_gap(in, place, view, shown, wanted);
            bool complete = false;
            words = laid_out(wanted, ground, complete);
            if (complete) return words;
        }
    return words;
}

void draw_float_words(const Canvas& in, const LoupePlace& place, const LoupeView& view,
                      const Setup& setup, LengthUnit shown) {
    if (const auto band = overlap_band(in, place, view)) draw_band(in, *band);
    draw_figure(in, for_imgui(float_figure(in, place, view)));
    const std::vector<LoupeWord> words = float_words(in, place, view, setup, shown);
    for (const LoupeWord& word : words)
        if (word.leader) draw_leader(in, *word.leader);
    for (const LoupeWord& word : words) draw_label(in, word.box, word.text, word.status);
}

}  // namespace podwright
