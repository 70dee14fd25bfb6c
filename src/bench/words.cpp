#include "bench/words.hpp"

#include "bench/dimension_lines.hpp"
#include "bench/loupe.hpp"
#include "bench/room.hpp"
#include "bench/texture.hpp"

namespace podwright {

WordsInput words_input(const Model& model) {
    WordsInput input{named_view(model.view), model.setup, model.evaluation, model.look};
    input.revision = model.revision;
    input.dimensions = model.labels && !is_isolated(model);
    input.loupe = model.loupe && !is_isolated(model);
    input.room = model.room && !is_isolated(model);
    input.heat = model.heat;
    input.looked_at = looked_at(model);
    input.shown = model.shown;
    return input;
}

void Words::draw_loupe_picture(const WordsInput& input, Stage& stage, const Camera& camera,
                               int size) {
    StageLook plain;
    plain.pose = input.look.pose;
    if (!input.looked_at) plain.hidden = {"left.tyre", "left.wheel", "left.screws"};
    PictureKey key{input.revision, plain, camera, size, size};
    if (drawn_ && same(*drawn_, key)) return;
    if (loupe_.width() != size) loupe_ = Framebuffer(size, size);
    stage.renderer().draw_round(stage.scene(plain), camera, {0, 0, size, size}, loupe_.id(), size);
    drawn_ = std::move(key);
}

void Words::draw(Canvas& canvas, const WordsInput& input, Stage& stage) {
    if (input.look.pose.spread > 0) return;  // nothing stands where it is measured
    if (input.heat) draw_heat_legend(canvas);
    for (const Clearance* c : shown_clearances(input.evaluation, input.room))
        draw_clearance(canvas, *c, input.evaluation, input.shown);
    std::vector<Dimension> dimensions;
    if (input.dimensions) dimensions = dimensions_on(input.view, input.setup, input.evaluation);
    std::optional<LoupePlace> place;
    if (input.loupe && (input.view.loupe || input.looked_at))
        place = take_loupe_place(canvas, dimension_points(canvas, dimensions));
    draw_dimensions(canvas, dimensions, input.evaluation, input.shown);
    if (!place) return;
    const LoupeView view =
        input.looked_at
            ? loupe_on_gap(*input.looked_at, input.evaluation, canvas.camera, input.shown)
            : loupe_on_float(input.setup, input.evaluation, input.look.pose, input.shown);
    draw_loupe_picture(input, stage, view.camera,
                       static_cast<int>(2 * place->radius * input.pixel_ratio));
    draw_loupe(canvas, *place, view, texture_id(loupe_), input.setup, input.shown);
}

}  // namespace podwright
