#include "bench/words.hpp"

#include "bench/envelope_run.hpp"
#include "bench/loupe_float.hpp"
#include "bench/loupe_mesh.hpp"
#include "bench/room.hpp"
#include "bench/texture.hpp"

namespace podwright {

static constexpr float sight_cell = 1.5F;  // units of layout

WordsInput words_input(const Model& model, const StageLook& look) {
    WordsInput input{named_view(model.view), model.setup, model.evaluation, look};
    input.revision = model.revision;
    input.dimensions = model.labels && !is_isolated(model) && !model.felt;
    input.loupe = model.loupe && !is_isolated(model) && !model.felt;
    input.room = model.room && !is_isolated(model);
    input.heat = model.heat;
    input.happening = envelope_words(model);
    input.looked_at = looked_at(model);
    input.shown = model.shown;
    return input;
}

/// The parts as they stand in the picture, whatever else is made of them there.
static StageLook look_in(const LoupeView& view, const Pose& pose) {
    switch (view.of) {
        case LoupeView::Of::axial_float: return look_of_float(pose);
        case LoupeView::Of::mesh: return look_of_mesh(pose);
        case LoupeView::Of::pair: break;
    }
    StageLook plain;
    plain.pose = pose;
    return plain;
}

void Words::draw_loupe_picture(const WordsInput& input, Stage& stage, const LoupeView& view,
                               int size) {
    const StageLook look = look_in(view, input.look.pose);
    PictureKey key{input.revision, look, view.camera, size, size};
    if (drawn_ && same(*drawn_, key)) return;
    resize(loupe_, size, size);
    stage.renderer().draw_round(stage.scene(look), view.camera, {0, 0, size, size}, loupe_.id(),
                                size);
    drawn_ = std::move(key);
}

static void draw_happening(Canvas& canvas, const std::string& text) {
    const ImVec2 size = label_size(canvas, text, Status::none);
    const ImVec2 middle{(canvas.box.low.x + canvas.box.high.x) / 2,
                        canvas.box.low.y + canvas.px(16) + size.y / 2};
    const PixelBox box = box_about(middle, size);
    draw_label(canvas, box, text, Status::none);
    canvas.taken.push_back(box);
}

void Words::draw(Canvas& canvas, const WordsInput& input, Stage& stage) {
    if (input.heat) draw_heat_legend(canvas);
    if (!input.happening.empty()) draw_happening(canvas, input.happening);
    SeenPoints seen;
    if (names_parts(input))
        seen = stage.seen(input.look, canvas.camera, canvas.box, canvas.px(sight_cell),
                          canvas.taken, memory_.seen);
    const WordsPlan plan = planned_words(canvas, input, stage.boxes(input.look), memory_, seen);
    // All lines first: none runs through a number.
    for (std::size_t i = 0; i < plan.dimensions.size(); ++i)
        if (plan.shows_dimension(i)) draw_figure(canvas, plan.dimensions[i].figure);
    if (plan.loupe_line) draw_line_to_gap(canvas, *plan.loupe_line);
    for (const Clearance* c : plan.clearances)
        draw_gap_line(canvas, c->now.point_a, c->now.point_b, c->now.status);
    for (const PlacedLabel& label : plan.layout.labels)
        if (label.leader) draw_leader(canvas, *label.leader);
    for (std::size_t i = 0; i < plan.layout.labels.size(); ++i) {
        const PlacedLabel& label = plan.layout.labels[i];
        if (!label.shown) continue;
        draw_label(canvas, label.box, label.size == 0 ? plan.texts[i] : plan.short_texts[i],
                   plan.statuses[i]);
    }
    if (plan.loupe) {
        draw_loupe_picture(input, stage, plan.loupe_view,
                           static_cast<int>(2 * plan.loupe->radius * input.pixel_ratio));
        draw_loupe(canvas, *plan.loupe, plan.loupe_view, texture_id(loupe_), input.setup,
                   input.shown);
    }
    if (plan.layout.left_out > 0)
        draw_label(canvas, plan.left_out_note, left_out_text(plan.layout.left_out), Status::none);
}

}  // namespace podwright
