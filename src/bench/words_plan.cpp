#include <algorithm>
#include <set>

#include "bench/part_facts.hpp"
#include "bench/room.hpp"
#include "bench/words.hpp"

namespace podwright {

namespace {

constexpr float cell = 8;       // of the cover map, units of layout
constexpr float edge_free = 8;  // along the edges of the picture

CoverMap covered(const Canvas& canvas, const std::vector<Bounds>& boxes) {
    CoverMap map(canvas.box, canvas.px(cell));
    for (const Bounds& box : boxes) {
        std::vector<ImVec2> corners;
        corners.reserve(8);
        for (int i = 0; i < 8; ++i)
            corners.push_back(
                canvas.at({i & 1 ? box.high.x : box.low.x, i & 2 ? box.high.y : box.low.y,
                           i & 4 ? box.high.z : box.low.z}));
        map.add_hull(std::move(corners));
    }
    map.finish();
    return map;
}

void add(WordsPlan& plan, LabelWish wish, std::string text, std::string shorter, Status status) {
    plan.wishes.push_back(std::move(wish));
    plan.texts.push_back(std::move(text));
    plan.short_texts.push_back(std::move(shorter));
    plan.statuses.push_back(status);
}

void add_dimensions(const Canvas& canvas, WordsPlan& plan) {
    for (const DrawnDimension& d : plan.dimensions)
        add(plan, wish_of(canvas, d), d.text, d.shorter, d.status);
}

/// The lines of the dimensions, at first of all, then of those that are shown.
void set_lines(WordsPlan& plan) {
    plan.ground.lines.clear();
    if (plan.loupe_line) plan.ground.lines.push_back(*plan.loupe_line);
    for (std::size_t i = 0; i < plan.dimensions.size(); ++i) {
        if (!plan.layout.labels.empty() && !plan.shows_dimension(i)) continue;
        const std::vector<Segment> lines = lines_of(plan.dimensions[i].figure);
        plan.ground.lines.insert(plan.ground.lines.end(), lines.begin(), lines.end());
    }
}

void add_clearances(const Canvas& canvas, const WordsInput& input, WordsPlan& plan) {
    int rank = 100;
    std::vector<const Clearance*> shown = shown_clearances(input.evaluation, input.room);
    if (input.looked_at && std::find(shown.begin(), shown.end(), input.looked_at) == shown.end())
        shown.push_back(input.looked_at);
    for (const Clearance* c : shown) {
        const ImVec2 at = canvas.at((c->now.point_a + c->now.point_b) / 2.0);
        if (!canvas.box.holds(at)) continue;
        plan.clearances.push_back(c);
        const int by_status = c->worst.status >= Status::caution ? 0 : rank++;
        const std::string text = text_of(*c, input.evaluation, input.shown);
        const std::string number = length(c->now.gap, input.shown);
        LabelWish wish = wish_of(canvas, *c, text, by_status);
        wish.sizes.push_back(label_size(canvas, number, c->worst.status));
        add(plan, std::move(wish), text, number, c->worst.status);
    }
}

/// Names of the parts that a chosen finding speaks of, or of all that are pulled apart.
void add_names(const Canvas& canvas, const WordsInput& input, WordsPlan& plan) {
    const bool all = input.look.pose.spread > 0.3;
    std::set<std::string> said;
    int rank = 200;
    for (const Part& part : input.evaluation.assembly.parts) {
        const auto& alarmed = input.look.alarmed;
        if (!all && std::find(alarmed.begin(), alarmed.end(), part.key) == alarmed.end()) continue;
        const ImVec2 at =
            canvas.at(glm::dvec3(placed(input.evaluation.assembly, part, input.look.pose)[3]));
        const std::string name = shown_title(part, input.shown);
        if (!canvas.box.holds(at) || !said.insert(name).second) continue;
        LabelWish wish;
        wish.name = part.key;
        wish.rank = rank++;
        wish.sizes = {label_size(canvas, name, Status::none)};
        wish.anchor = at;
        add(plan, std::move(wish), name, {}, Status::none);
    }
}

std::vector<ImVec2> points_of(const WordsPlan& plan) {
    constexpr int pieces = 6;
    std::vector<ImVec2> points;
    for (const DrawnDimension& d : plan.dimensions)
        for (const Segment& line : lines_of(d.figure))
            for (int i = 0; i <= pieces; ++i)
                points.push_back(line.from +
                                 (line.to - line.from) * (static_cast<float>(i) / pieces));
    return points;
}

void place_loupe(Canvas& canvas, const WordsInput& input, const CoverMap& cover, WordsPlan& plan,
                 WordsMemory& memory) {
    plan.loupe_view = input.looked_at ? loupe_on_gap(*input.looked_at, input.evaluation,
                                                     canvas.camera, input.shown)
                                      : loupe_on_float(input.setup, input.evaluation,
                                                       input.look.pose, canvas.camera, input.shown);
    std::vector<ImVec2> points = points_of(plan);
    const ImVec2 gap = canvas.at(plan.loupe_view.gap);
    points.insert(points.end(), 20, gap);  // above all not that
    const bool at_left = gap.x < canvas.at(glm::dvec3(0)).x;
    plan.loupe = take_loupe_place(canvas, cover, points, at_left, memory.loupe);
    plan.loupe_line = line_to_gap(canvas, *plan.loupe, plan.loupe_view);
}

/// Finds a place for the note that says how many labels were left out, along the foot of the
/// picture and then along its head. False if it has to stand where labels do.
bool place_note(const Canvas& canvas, WordsPlan& plan) {
    constexpr int places = 8;
    const ImVec2 size = label_size(canvas, left_out_text(plan.layout.left_out), Status::none);
    const PixelBox& frame = plan.ground.frame;
    const auto is_free = [&](const PixelBox& note) {
        const PixelBox wide = note.grown(canvas.px(3));
        return std::none_of(
            plan.layout.labels.begin(), plan.layout.labels.end(), [&](const PlacedLabel& label) {
                return label.shown && (wide.overlaps(label.box) ||
                                       (label.leader && length_inside(wide, *label.leader) > 0));
            });
    };
    std::optional<PixelBox> where;
    for (const float y : {frame.high.y - size.y, frame.low.y})
        for (int i = 0; i <= places; ++i) {
            const float t = static_cast<float>(i) / places;
            const ImVec2 low{frame.high.x - size.x + (frame.low.x - frame.high.x + size.x) * t, y};
            const PixelBox note{low, low + size};
            if (std::any_of(canvas.taken.begin(), canvas.taken.end(),
                            [&](const PixelBox& taken) { return taken.overlaps(note); }))
                continue;
            if (!where) where = note;
            if (!is_free(note)) continue;
            plan.left_out_note = note;
            return true;
        }
    plan.left_out_note = where.value_or(PixelBox{frame.high - size, frame.high});
    return false;
}

}  // namespace

std::string left_out_text(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " label left out" : " labels left out");
}

WordsPlan planned_words(Canvas& canvas, const WordsInput& input, const std::vector<Bounds>& boxes,
                        WordsMemory& memory) {
    const CoverMap cover = covered(canvas, boxes);
    WordsPlan plan;
    plan.ground.frame = canvas.box.grown(-canvas.px(edge_free));
    plan.ground.unit = canvas.type->scale;
    plan.ground.cover = &cover;
    const bool together = input.look.pose.spread == 0;  // else nothing stands where it is measured
    if (together) {
        if (input.dimensions)
            plan.dimensions = planned_dimensions(
                canvas, cover, dimensions_on(input.view, input.setup, input.evaluation), boxes,
                input.evaluation, input.shown, memory.offsets);
        if (input.loupe && (input.view.loupe || input.looked_at))
            place_loupe(canvas, input, cover, plan, memory);
        add_dimensions(canvas, plan);
        add_clearances(canvas, input, plan);
    }
    if (input.dimensions || !input.look.alarmed.empty()) add_names(canvas, input, plan);
    plan.ground.fixed = canvas.taken;
    set_lines(plan);
    plan.layout = lay_out(plan.wishes, plan.ground, memory.labels);
    if (plan.layout.left_out > 0 && !place_note(canvas, plan)) {
        plan.ground.fixed.push_back(plan.left_out_note);
        set_lines(plan);
        plan.layout = lay_out(plan.wishes, plan.ground, memory.labels);
    }
    plan.ground.cover = nullptr;
    return plan;
}

}  // namespace podwright
