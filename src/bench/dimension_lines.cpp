#include "bench/dimension_lines.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "bench/status_word.hpp"

namespace podwright {

namespace {

/// A place for a dimension line: what it is moved by, and where its extension lines leave the
/// model, as shares of that way.
struct Place {
    glm::dvec3 offset{0};
    std::array<double, 2> leaves{0, 0};
};

std::vector<glm::dvec3> places_of(const Dimension& d) {
    std::vector<glm::dvec3> places = d.offsets;
    for (double nearer : {0.75, 0.5})
        for (const glm::dvec3& offset : d.offsets) places.push_back(offset * nearer);
    return places;
}

/// Where the way from `from` by `offset` last leaves a box, as a share of it. Of a length measured
/// along `measured`, whose faces may stand off by `play`.
double last_exit(const glm::dvec3& from, const glm::dvec3& offset, const glm::dvec3& measured,
                 double play, std::span<const Bounds> outlines) {
    // What runs as close as this along a part lies on it (mm), but for what lies beside in the
    // direction that is measured: there each face is another.
    constexpr double beside = 4;
    const double on_face = play + 0.01;
    double last = 0;
    for (const Bounds& box : outlines) {
        double enters = 0;
        double leaves = 1;
        bool meets = true;
        for (int i = 0; i < 3 && meets; ++i) {
            if (std::abs(offset[i]) < 1e-9) {
                const double near = std::abs(measured[i]) > 0.7 ? on_face : beside;
                meets = from[i] >= box.low[i] - near && from[i] <= box.high[i] + near;
                continue;
            }
            double a = (box.low[i] - from[i]) / offset[i];
            double b = (box.high[i] - from[i]) / offset[i];
            if (a > b) std::swap(a, b);
            enters = std::max(enters, a);
            leaves = std::min(leaves, b);
            meets = enters <= leaves;
        }
        if (meets && leaves < 1) last = std::max(last, leaves);
    }
    return last;
}

/// The same for both ends of a dimension.
std::array<double, 2> exits(const Dimension& d, const glm::dvec3& offset, double play,
                            std::span<const Bounds> outlines) {
    const glm::dvec3 measured = glm::normalize(d.to - d.from);
    std::array<double, 2> leaves = {last_exit(d.from, offset, measured, play, outlines),
                                    last_exit(d.to, offset, measured, play, outlines)};
    if (std::abs(measured.z) < 0.7) return leaves;
    // A height over the ground is measured beside the floor's corners, which are cut off: its lines
    // start together, where the floor's straight edge ends.
    constexpr double cut_off = 6;  // mm
    const double both = std::max(leaves[0], leaves[1]) - cut_off / glm::length(offset);
    leaves.fill(std::max(0.0, both));
    return leaves;
}

double covered_share(const CoverMap& cover, const Segment& line) {
    constexpr int pieces = 8;
    double covered = 0;
    for (int i = 0; i <= pieces; ++i)
        covered += cover.share(box_about(
            line.from + (line.to - line.from) * (static_cast<float>(i) / pieces), {1, 1}));
    return covered / (pieces + 1);
}

/// The lower the better.
double badness(const Canvas& canvas, const CoverMap& cover, const Dimension& d,
               const Place& place) {
    const ImVec2 from = canvas.at(d.from);
    const Segment line{canvas.at(d.from + place.offset), canvas.at(d.to + place.offset)};
    if (!std::isfinite(line.from.x + line.from.y + line.to.x + line.to.y)) return 1e9;
    const double scale = canvas.type->scale;
    const ImVec2 along = unit(canvas.at(d.to) - from);
    const ImVec2 across = line.from - from;
    const double square = std::abs(cross(across, along)) / std::max(1.0F, size_of(across));
    const double visible = 1 - (place.leaves[0] + place.leaves[1]) / 2;
    double bad = 0;
    const PixelBox air = canvas.box.grown(-canvas.px(8));
    const float out =
        size_of(air.nearest(line.from) - line.from) + size_of(air.nearest(line.to) - line.to);
    if (out > 0) bad += 300 + out / scale;
    bad += 70 * covered_share(cover, line);
    for (const auto& [end, leaves] : {std::pair{d.from, place.leaves[0]}, {d.to, place.leaves[1]}})
        bad += 30 * covered_share(cover, {canvas.at(end + place.offset * leaves),
                                          canvas.at(end + place.offset)});
    for (const PixelBox& taken : canvas.taken)
        if (length_inside(taken.grown(canvas.px(8)), line) > 0) bad += 400;
    bad += 160 * (1 - square);
    bad += 0.25 * size_of(across) * visible / scale;
    const glm::dvec3 to_eye = glm::normalize(canvas.camera.eye() - canvas.camera.target);
    if (glm::dot(glm::normalize(place.offset), to_eye) < -0.2) bad += 120;  // behind the model
    return bad;
}

/// Whether a point lies in what the cut takes away; its plane itself stays.
bool is_removed(const std::optional<Cut>& cut, const glm::dvec3& point) {
    constexpr double on_it = 0.01;  // mm
    return cut && glm::dot(glm::dvec3(cut->normal), point) > double{cut->offset} + on_it;
}

std::optional<Place> best_place(const Canvas& canvas, const CoverMap& cover, const Dimension& d,
                                std::span<const Bounds> outlines, const std::optional<Cut>& cut,
                                double play, OffsetMemory& memory) {
    constexpr double staying = 40;
    const std::vector<glm::dvec3> offsets = places_of(d);
    const auto last = memory.find(d.name);
    std::optional<Place> best;
    double least = 230;  // worse than that and it is better left out
    std::size_t chosen = 0;
    for (std::size_t i = 0; i < offsets.size(); ++i) {
        Place place;
        place.offset = offsets[i];
        if (is_removed(cut, d.from + place.offset) || is_removed(cut, d.to + place.offset))
            continue;
        place.leaves = exits(d, place.offset, play, outlines);
        double bad = badness(canvas, cover, d, place) + 12.0 * static_cast<double>(i);
        if (last != memory.end() && last->second == i) bad -= staying;
        if (bad >= least) continue;
        least = bad;
        best = place;
        chosen = i;
    }
    if (best) memory[d.name] = chosen;
    return best;
}

/// The reading whose limits the dimension is held against. Some carry none of their own and say
/// what is wrong with what they are part of: both ride heights of their mean, both half widths of
/// the shift, the centre distance of the backlash and of the slot.
const Reading* judged(const Evaluation& evaluation, const std::string& name) {
    std::vector<std::string_view> judges;
    if (name == "ride.left" || name == "ride.right") judges = {"ride.rear", "ride.roll"};
    if (name == "width.left" || name == "width.right") judges = {"width.shift"};
    if (name == "mesh.working_distance" || name == "mesh.distance_unset")
        judges = {"mesh.slot_position", "mesh.backlash_unset"};
    for (const std::string_view judge : judges) {
        const Reading* reading = evaluation.reading(judge);
        if (reading && reading->status >= Status::caution) return reading;
    }
    return evaluation.reading(name);
}

/// What a car is judged by comes before what it is made of, and of either what is out of its
/// limits.
int importance_of(std::string_view name, Status status) {
    constexpr std::array<std::string_view, 9> first_to_last = {
        "width.overall", "float.", "ride.left", "ride.right", "mesh.",
        "width.track",   "width.", "left.",     "right."};
    constexpr int main_ones = 4;
    const auto* found =
        std::find_if(first_to_last.begin(), first_to_last.end(),
                     [&](std::string_view start) { return name.substr(0, start.size()) == start; });
    const int place = static_cast<int>(found - first_to_last.begin());
    const int group = place < main_ones ? 0 : 2;
    return 10 * (group + (status >= Status::caution ? 0 : 1)) + place;
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

std::vector<DrawnDimension> planned_dimensions(const Canvas& canvas, const CoverMap& cover,
                                               std::span<const Dimension> dimensions,
                                               std::span<const Bounds> outlines,
                                               const std::optional<Cut>& cut,
                                               const Evaluation& evaluation, LengthUnit shown,
                                               OffsetMemory& memory) {
    // Between the arrowheads, units of layout. What is out of its limits is the last to go.
    constexpr float shortest_readable = 7, shortest_alarmed = 1.5F;
    std::vector<DrawnDimension> drawn;
    // Dimensions are those of the axle in the middle of its float, where it hardly ever stands.
    const double play = evaluation.stack.axial_float / 2;
    for (const Dimension& d : dimensions) {
        if (is_removed(cut, d.from) || is_removed(cut, d.to)) continue;
        const Reading* reading = judged(evaluation, d.name);
        const bool alarmed = reading && reading->status >= Status::caution;
        if (size_of(canvas.at(d.to) - canvas.at(d.from)) <
            canvas.px(alarmed ? shortest_alarmed : shortest_readable))
            continue;
        const auto best = best_place(canvas, cover, d, outlines, cut, play, memory);
        if (!best) continue;
        const Place& place = *best;
        const ImVec2 a = canvas.at(d.from + place.offset);
        const ImVec2 b = canvas.at(d.to + place.offset);
        if (!std::isfinite(a.x + a.y + b.x + b.y)) continue;
        if (!canvas.box.holds((a + b) * 0.5F)) continue;
        DrawnDimension out;
        out.name = d.name;
        out.status = reading ? reading->status : Status::none;
        out.importance = importance_of(d.name, out.status);
        out.text = d.label + " " + length(d.value, shown);
        if (reading && out.status != Status::none) {
            out.shorter = out.text;  // the sign before it still says how it is judged
            out.text += ", " + std::string(status_word(*reading));
        }
        out.figure =
            figure_of(canvas.at(d.from + place.offset * place.leaves[0]),
                      canvas.at(d.to + place.offset * place.leaves[1]), a, b, canvas.line_width());
        drawn.push_back(std::move(out));
    }
    return drawn;
}

LabelWish wish_of(const Canvas& canvas, const DrawnDimension& d) {
    LabelWish wish;
    wish.name = d.name;
    wish.rank = d.importance;
    wish.sizes = {label_size(canvas, d.text, d.status)};
    if (!d.shorter.empty()) wish.sizes.push_back(label_size(canvas, d.shorter, d.status));
    wish.measured = d.figure.line;
    wish.line = d.figure.line;
    for (const Segment& tail : d.figure.tails) {
        // The arrowheads that stand outside are part of it.
        if (size_of(tail.to - d.figure.line.from) < 0.5F) wish.line->from = tail.from;
        if (size_of(tail.from - d.figure.line.to) < 0.5F) wish.line->to = tail.to;
    }
    wish.anchor = (d.figure.line.from + d.figure.line.to) * 0.5F;
    wish.seats = seats_of(d.figure, wish.sizes.front(), canvas.line_width());
    wish.roams = false;
    return wish;
}

void draw_figure(const Canvas& canvas, const DimensionFigure& figure) {
    for (const Segment& line : lines_of(figure)) draw_thin_line(canvas, line, canvas.colours().ink);
    for (const ArrowHead& arrow : figure.arrows)
        canvas.list->AddTriangleFilled(arrow.tip, arrow.left, arrow.right, canvas.colours().ink);
}

}  // namespace podwright
