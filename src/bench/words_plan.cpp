#include <algorithm>
#include <map>

#include "bench/loupe_float.hpp"
#include "bench/loupe_mesh.hpp"
#include "bench/part_facts.hpp"
#include "bench/room.hpp"
#include "bench/words.hpp"

namespace podwright {

namespace {

bool shows_mesh(const NamedView& view) { return view.name == "mesh"; }

constexpr float cell = 8;       // of the cover map, units of layout
constexpr float edge_free = 8;  // along the edges of the picture

/// Far enough for the parts to be told apart.
bool is_pulled_apart(const WordsInput& input) { return input.look.pose.spread > 0.3; }

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

/// The backlash at the teeth, where no loupe on them says it.
void add_backlash(const Canvas& canvas, const WordsInput& input, WordsPlan& plan) {
    if (!shows_mesh(input.view)) return;
    if (plan.loupe && plan.loupe_view.of == LoupeView::Of::mesh) return;
    const BacklashWords words = backlash_words(input.evaluation, input.shown);
    LabelWish wish;
    wish.name = "mesh.backlash";
    wish.rank = words.status >= Status::caution ? 1 : 10;
    wish.sizes = {label_size(canvas, words.text, words.status),
                  label_size(canvas, words.number, words.status)};
    wish.anchor = canvas.at(pitch_point(input.evaluation));
    if (canvas.box.holds(wish.anchor))
        add(plan, std::move(wish), words.text, words.number, words.status);
}

/// Shims of one side lie too close together for a name each.
bool is_shim(std::string_view key, std::string_view side) {
    return key.substr(0, side.size()) == side && key.substr(side.size(), 6) == ".shim.";
}

/// What stands for several shims of one side: their sum and how many they are.
std::string shims_text(const AxleSide& side, std::string_view name,
                       const std::vector<std::size_t>& numbers, LengthUnit shown) {
    double sum = 0;
    for (const std::size_t n : numbers) sum += n < side.shims.size() ? side.shims[n] : 0;
    return std::to_string(numbers.size()) + " " + std::string(name) + " shims, " +
           length(sum, shown);
}

void add_name(const Canvas& canvas, const std::string& key, const std::string& text,
              const glm::dvec3& at, WordsPlan& plan) {
    LabelWish wish;
    wish.name = key;
    wish.rank = 200 + static_cast<int>(plan.wishes.size());
    wish.sizes = {label_size(canvas, text, Status::none)};
    wish.anchor = canvas.at(at);
    add(plan, std::move(wish), text, {}, Status::none);
}

/// Names of the parts that can be seen: of those that a chosen finding speaks of, or of all that
/// are pulled apart.
void add_names(const Canvas& canvas, const WordsInput& input, const SeenPoints& seen,
               WordsPlan& plan) {
    const bool all = input.dimensions && is_pulled_apart(input);
    const auto& alarmed = input.look.alarmed;
    std::map<std::string_view, std::vector<std::size_t>> shims;  // by side, counted from 0
    std::map<std::string_view, const Part*> first_shim;
    for (const Part& part : input.evaluation.assembly.parts) {
        if (!all && std::find(alarmed.begin(), alarmed.end(), part.key) == alarmed.end()) continue;
        const auto at = seen.find(part.key);
        const bool can_be_seen = at != seen.end();
        bool is_one = false;
        for (const std::string_view side : {"left", "right"}) {
            if (!is_shim(part.key, side)) continue;
            is_one = true;
            shims[side].push_back(std::stoul(part.key.substr(side.size() + 6)) - 1);
            if (can_be_seen && !first_shim[side]) first_shim[side] = &part;
        }
        if (!is_one && can_be_seen)
            add_name(canvas, part.key, shown_title(part, input.shown), at->second, plan);
    }
    for (const auto& [side, numbers] : shims) {
        const Part* part = first_shim[side];
        if (!part) continue;
        const AxleSide& of = side == "left" ? input.setup.left : input.setup.right;
        add_name(canvas, std::string(side) + ".shims",
                 numbers.size() == 1 ? shown_title(*part, input.shown)
                                     : shims_text(of, side, numbers, input.shown),
                 seen.at(part->key), plan);
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
    if (input.looked_at)
        plan.loupe_view =
            loupe_on_gap(*input.looked_at, input.evaluation, canvas.camera, input.shown);
    else if (shows_mesh(input.view))
        plan.loupe_view = loupe_on_mesh(input.evaluation, input.shown);
    else
        plan.loupe_view = loupe_on_float(input.setup, input.evaluation, input.look.pose,
                                         canvas.camera, input.shown);
    std::vector<ImVec2> points = points_of(plan);
    const ImVec2 gap = canvas.at(plan.loupe_view.gap);
    points.insert(points.end(), 20, gap);  // above all not that
    const bool at_left = gap.x < canvas.at(glm::dvec3(0)).x;
    plan.loupe = take_loupe_place(canvas, cover, points, at_left, memory.loupe);
    plan.loupe_line = line_to_gap(canvas, *plan.loupe, plan.loupe_view);
}

/// Finds a place for the note that says how many labels were left out, clear of what is written:
/// along the foot of the picture, then higher and higher. False if it has to stand where labels do.
bool place_note(const Canvas& canvas, WordsPlan& plan) {
    constexpr int columns = 8;
    const ImVec2 size = label_size(canvas, left_out_text(plan.layout.left_out), Status::none);
    const PixelBox& frame = plan.ground.frame;
    const auto is_free_of_labels = [&](const PixelBox& wide) {
        return std::none_of(
            plan.layout.labels.begin(), plan.layout.labels.end(), [&](const PlacedLabel& label) {
                return label.shown && (wide.overlaps(label.box) ||
                                       (label.leader && length_inside(wide, *label.leader) > 0));
            });
    };
    std::optional<PixelBox> where;
    const int rows = static_cast<int>(2 * (frame.size().y / size.y - 1));
    for (int row = 0; row <= rows; ++row)
        for (int i = 0; i <= columns; ++i) {
            const float y = frame.high.y - size.y - static_cast<float>(row) * size.y / 2;
            const float share = static_cast<float>(i) / columns;
            const ImVec2 low{frame.high.x - size.x - (frame.size().x - size.x) * share, y};
            const PixelBox note{low, low + size};
            const PixelBox wide = note.grown(canvas.px(3));
            if (std::any_of(plan.ground.fixed.begin(), plan.ground.fixed.end(),
                            [&](const PixelBox& taken) { return taken.overlaps(note); }))
                continue;
            if (!where) where = note;
            if (!is_free_of_labels(wide)) continue;
            plan.left_out_note = note;
            return true;
        }
    plan.left_out_note = where.value_or(PixelBox{frame.high - size, frame.high});
    return false;
}

}  // namespace

bool names_parts(const WordsInput& input) {
    return (input.dimensions && is_pulled_apart(input)) || !input.look.alarmed.empty();
}

std::string left_out_text(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " label left out" : " labels left out");
}

WordsPlan planned_words(Canvas& canvas, const WordsInput& input, const std::vector<Bounds>& boxes,
                        WordsMemory& memory, const SeenPoints& seen) {
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
                input.look.cut, input.evaluation, input.shown, memory.offsets);
        if (input.loupe && (input.view.loupe || input.looked_at))
            place_loupe(canvas, input, cover, plan, memory);
        add_dimensions(canvas, plan);
        if (input.dimensions) add_backlash(canvas, input, plan);
        add_clearances(canvas, input, plan);
    }
    if (names_parts(input)) add_names(canvas, input, seen, plan);
    plan.ground.fixed = canvas.taken;
    if (plan.loupe)  // its caption may be wider than it is
        plan.ground.fixed.push_back(rim_words(canvas, *plan.loupe, plan.loupe_view).below);
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
