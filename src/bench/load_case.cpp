#include "bench/load_case.hpp"

#include <cmath>

#include "bench/ribbons.hpp"
#include "bench/swing.hpp"

namespace podwright {

void follow_load_case(Model& model) {
    if (!model.felt) return;
    const Evaluation& e = model.evaluation;
    model.felt = felt_axle(model.setup, e.stack, e.drive, e.feel.shaft, model.felt->which);
    put_load(model, model.felt_share);
}

void show_load_case(Model& model, std::optional<LoadCase> which, double now) {
    if (model.play && model.play->key == "load") model.play.reset();
    model.felt_share = 0;
    model.felt_glide.reset();
    if (!which) {
        model.felt.reset();
        model.look.bend.clear();
        return;
    }
    model.felt = FeltAxle{};
    model.felt->which = *which;
    follow_load_case(model);
    model.felt_glide = Glide{0, 1, now};
}

void next_load_case(Model& model, double now) {
    const std::size_t next = model.felt ? static_cast<std::size_t>(model.felt->which) + 1 : 0;
    if (next < all_load_cases.size())
        show_load_case(model, all_load_cases.at(next), now);
    else
        show_load_case(model, {}, now);
}

void put_load(Model& model, double share) {
    model.felt_share = share;
    if (model.felt) model.look.bend = bent_shape(*model.felt, share);
}

void draw_load(Canvas& canvas, const Model& model) {
    if (!model.felt) return;
    draw_ribbons(canvas, model.evaluation.assembly, *model.felt, model.felt_share);
    const bool whole = model.look.pose.spread == 0 && !is_isolated(model);
    if (whole) draw_windup(canvas, model.evaluation, *model.felt, model.felt_share);
}

double played_load(double seconds) {
    const double t = seconds / swing_seconds;
    return t <= 0 || t >= 1 ? 1 : (1 + std::cos(4 * pi * t)) / 2;
}

std::string_view key(LoadCase which) {
    switch (which) {
        case LoadCase::rest: return "rest";
        case LoadCase::corner_left: return "corner-left";
        case LoadCase::corner_right: return "corner-right";
        case LoadCase::launch: return "launch";
        case LoadCase::kerb_left: return "kerb-left";
        case LoadCase::kerb_right: return "kerb-right";
    }
    return "";
}

}  // namespace podwright
