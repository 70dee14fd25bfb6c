#include "bench/model.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "bench/edit.hpp"
#include "bench/envelope_run.hpp"
#include "bench/keys.hpp"
#include "bench/live_clearances.hpp"
#include "bench/load_case.hpp"
#include "bench/room.hpp"
#include "bench/swing.hpp"
#include "bench/views.hpp"

namespace podwright {

namespace {

constexpr double camera_seconds = 0.45;
constexpr double message_seconds = 6;

/// While something is dragged one block of builds must do, but for the float: fewer would make its
/// share outside, which is a reading, seem to change.
BuildCounts builds_for(const Model& model) {
    return model.provisional ? BuildCounts{usual_builds.of_float, builds_per_block} : usual_builds;
}

void follow_with_ghost(Model& model) {
    Ghost& ghost = model.ghost;
    model.look.ghost = ghost.of != Ghost::Of::nothing;
    if (!model.look.ghost) return;
    if (ghost.of == Ghost::Of::before)
        ghost.setup = model.provisional ? model.history.now() : model.history.before();
    Asked asked;
    asked.shown = model.shown;
    asked.scales = model.scales;
    asked.builds = builds_for(model);
    ghost.evaluation = evaluate(ghost.setup, asked);
}

void show(Model& model, Setup setup) {
    model.setup = std::move(setup);
    if (!model.provisional) model.measured_again = 0;
    const bool waits = model.provisional && must_wait(model);
    Asked asked;
    asked.shown = model.shown;
    asked.meter = waits ? nullptr : model.meter;
    asked.clearance_fixes = !model.provisional;
    asked.scales = model.scales;
    asked.builds = builds_for(model);
    model.measured_pose = {model.look.pose.along, model.look.pose.turn, 0};
    asked.pose = model.measured_pose;
    const double start = clock_now();
    Evaluation last = std::exchange(model.evaluation, evaluate(model.setup, asked));
    if (waits)
        keep_clearances(std::move(last), model.evaluation);
    else if (model.provisional)
        note_measuring(model, start);
    ++model.revision;
    follow_with_ghost(model);
    follow_load_case(model);
    if (model.envelope > 0) show_envelope(model);
    const auto still_there = [&](const std::string& key) {
        return key.empty() || model.evaluation.assembly.find(key) != nullptr;
    };
    if (!still_there(model.look.picked)) model.look.picked.clear();
    if (!still_there(model.look.hovered)) model.look.hovered.clear();
    const auto& hidden = model.look.hidden;
    const auto& parts = model.evaluation.assembly.parts;
    if (std::all_of(parts.begin(), parts.end(),
                    [&](const Part& part) { return contains(hidden, part.key); }))
        model.look.hidden.clear();
    const auto& findings = model.evaluation.findings;
    const auto chosen = std::find_if(findings.begin(), findings.end(), [&](const Finding& f) {
        return f.code == model.chosen_finding;
    });
    if (chosen == findings.end()) model.chosen_finding.clear();
    model.look.alarmed = chosen == findings.end() ? std::vector<std::string>{} : chosen->parts;
}

void show_present(Model& model) {
    model.provisional = false;
    show(model, model.history.now());
    model.before = model.evaluation;
}

/// Range through which an adjuster is played.
std::pair<double, double> play_range(const std::string& key) {
    const Parameter* p = find_parameter(key);
    return p ? std::pair{p->low, p->high} : std::pair{0.0, 0.0};
}

/// The farthest value towards `end` that a car can have, so that a swing does not stand still at a
/// conflict.
double reachable(const Model& model, const std::string& key, double start, double end) {
    const auto taken = [&](double value) {
        const Change change{key, value, {}};
        return edited(model.history.now(), model.before, {&change, 1}, model.linked)
            .refusal.empty();
    };
    if (taken(end)) return end;
    double good = start;
    double bad = end;
    for (int i = 0; i < 20; ++i) {
        const double middle = (good + bad) / 2;
        (taken(middle) ? good : bad) = middle;
    }
    return good;
}

bool advance_camera(Model& model, double now) {
    if (!model.move) return false;
    const double t = (now - model.move->began) / camera_seconds;
    model.camera = between(model.move->from, model.move->to, ease(t));
    if (t >= 1) model.move.reset();
    return true;
}

bool advance_glide(std::optional<Glide>& glide, double& value, double now) {
    if (!glide) return false;
    const double t = (now - glide->began) / camera_seconds;
    value = t >= 1 ? glide->to : glide->from + (glide->to - glide->from) * ease(t);
    if (t >= 1) glide.reset();
    return true;
}

bool advance_play(Model& model, double now) {
    if (!model.play) return false;
    const Play play = *model.play;
    const double seconds = now - play.began;
    const bool over = seconds >= swing_seconds;
    if (play.key == "pose.turn") {
        model.look.pose.turn = play.start + 2 * pi * ease(seconds / swing_seconds);
    } else if (play.key == "turntable") {
        model.camera.azimuth = play.start + 2 * pi * ease(seconds / swing_seconds);
        model.view_moved = true;
    } else if (play.key == "pose.spread") {
        model.look.pose.spread = swing(play.start, 0, 1, seconds);
    } else if (play.key == "envelope") {
        model.envelope = over ? 0 : seconds / swing_seconds;
        show_envelope(model);
    } else if (play.key == "load") {
        put_load(model, played_load(seconds));
        if (over && play.start == 0) show_load_case(model, {}, now);
    } else if (play.key == "pose.along") {
        model.look.pose.along = swing(play.start, -1, 1, seconds);
    } else {
        const auto [low, high] = play_range(play.key);
        const double value = swing(play.start, reachable(model, play.key, play.start, low),
                                   reachable(model, play.key, play.start, high), seconds);
        const Parameter* p = find_parameter(play.key);
        const Change change{play.key, over ? play.start : to_step(*p, value), {}};
        if (p->get(model.setup) != change.number) try_changes(model, {&change, 1}, now);
        if (over) cancel(model);
    }
    if (over) model.play.reset();
    return true;
}

}  // namespace

Model::Model(Setup first, Meter* to_measure_with, Scales* to_weigh_with)
    : meter(to_measure_with), scales(to_weigh_with), history(first), setup(std::move(first)) {
    look.pose = clamped_pose;
    show_present(*this);
}

void take(Model& model, Setup setup, std::filesystem::path path) {
    model.history = History(std::move(setup));
    model.path = std::move(path);
    model.is_demo = false;
    model.play.reset();
    model.chosen_finding.clear();
    model.looked_at.clear();
    model.look.picked.clear();
    show_present(model);
}

void try_changes(Model& model, std::span<const Change> changes, double now) {
    EditResult result = edited(model.history.now(), model.before, changes, model.linked);
    if (!result.refusal.empty()) {
        say(model, "Not possible: " + result.refusal, now);
        return;
    }
    model.provisional = true;
    model.provisional_what = changes.empty() ? "" : describe(changes.front(), model.shown);
    show(model, std::move(result.setup));
}

void commit(Model& model) {
    if (!model.provisional) return;
    model.history.push(model.setup, model.provisional_what);
    show_present(model);
}

void cancel(Model& model) { show_present(model); }

void make_changes(Model& model, std::span<const Change> changes, std::string what, double now) {
    model.play.reset();
    try_changes(model, changes, now);
    if (!model.provisional) return;
    model.provisional_what = std::move(what);
    commit(model);
}

void undo(Model& model) {
    model.play.reset();
    model.history.undo();
    show_present(model);
}

void redo(Model& model) {
    model.play.reset();
    model.history.redo();
    show_present(model);
}

void set_unit(Model& model, LengthUnit shown) {
    model.shown = shown;
    show_present(model);
}

/// Shows the launch, if no case is shown; says whether one was (1) or none (0).
static double start_load(Model& model, double now) {
    const bool shown = model.felt.has_value();
    if (!shown) show_load_case(model, LoadCase::launch, now);
    model.felt_glide.reset();
    return shown ? 1 : 0;
}

void start_play(Model& model, const std::string& key, double now) {
    if (model.play && model.play->key == key) {  // pressed again: stop
        model.play.reset();
        if (find_parameter(key)) cancel(model);
        if (key == "load") put_load(model, 1);
        return;
    }
    if (model.provisional) cancel(model);
    Play play{key, 0, now};
    if (key == "turntable")
        play.start = model.camera.azimuth;
    else if (key == "pose.spread")
        play.start = model.look.pose.spread;
    else if (key == "pose.turn")
        play.start = model.look.pose.turn;
    else if (key == "pose.along")
        play.start = model.look.pose.along;
    else if (key == "load")
        play.start = start_load(model, now);
    else if (const Parameter* p = find_parameter(key))
        play.start = counting_value(*p, model.setup);
    model.play = std::move(play);
}

bool advance(Model& model, double now) {
    const bool camera = advance_camera(model, now);
    const bool play = advance_play(model, now);
    const bool cutaway = advance_glide(model.cutaway_glide, model.cutaway, now);
    const bool spread = advance_glide(model.spread_glide, model.look.pose.spread, now);
    if (!model.message.empty() && now > model.message_until) model.message.clear();
    const bool felt = advance_glide(model.felt_glide, model.felt_share, now);
    if (felt) put_load(model, model.felt_share);
    return camera || play || cutaway || spread || felt;
}

std::span<const std::string_view> motion_names() {
    static constexpr std::string_view names[] = {"pose.along", "pose.turn", "pose.spread",
                                                 "envelope",   "turntable", "load"};
    return names;
}

void toggle_ghost(Model& model) {
    model.ghost = {};
    if (!model.look.ghost) model.ghost.of = Ghost::Of::before;
    follow_with_ghost(model);
    ++model.revision;
}

void keep_ghost(Model& model, Setup setup) {
    model.ghost = {Ghost::Of::kept, setup.title, std::move(setup), {}};
    follow_with_ghost(model);
    ++model.revision;
}

void refresh_ghost(Model& model) {
    follow_with_ghost(model);
    ++model.revision;
}

bool is_isolated(const Model& model) { return !model.look.hidden.empty(); }

void isolate(Model& model, const std::string& part) {
    const bool alone = is_isolated(model);
    model.look.hidden.clear();
    if (alone || part.empty()) return;
    for (const Part& other : model.evaluation.assembly.parts)
        if (other.key != part) model.look.hidden.push_back(other.key);
}

void follow_pose(Model& model, bool moving) {
    const Pose pose{model.look.pose.along, model.look.pose.turn, 0};
    const bool moved =
        pose.along != model.measured_pose.along || pose.turn != model.measured_pose.turn;
    if (!moved || !model.meter || (moving && must_wait(model))) return;
    model.measured_pose = pose;
    const double start = clock_now();
    model.evaluation.clearances =
        model.meter->clearances(model.setup, model.evaluation.assembly, pose);
    if (moving) note_measuring(model, start);
}

void say(Model& model, std::string message, double now) {
    model.message = std::move(message);
    model.message_until = now + message_seconds;
}

static Camera composed_camera(const Model& model, double aspect) {
    const NamedView& view = named_view(model.view);
    const double spread = model.look.pose.spread;
    return camera_of(model.view, model.evaluation,
                     model.felt ? composed_for_load(view, aspect, spread, model.labels)
                                : composed(view, aspect, spread, model.labels));
}

void go_to_view(Model& model, std::string_view name, double aspect, double now) {
    model.view = std::string(name);
    model.looked_at.clear();
    glide_cutaway(model, wants_cut(name) ? 1 : 0, now);
    model.look.see_through.assign(named_view(name).see_through.begin(),
                                  named_view(name).see_through.end());
    go_to(model, composed_camera(model, aspect), now);
    model.view_moved = false;
}

void keep_view(Model& model, double aspect) {
    if (model.view_moved) return;
    model.move.reset();
    model.camera = composed_camera(model, aspect);
}

void ease_view(Model& model, double aspect, double now) {
    if (model.view_moved) return;
    go_to(model, composed_camera(model, aspect), now);
    model.view_moved = false;
}

void glide_cutaway(Model& model, double to, double now) {
    if (model.cutaway != to) model.cutaway_glide = Glide{model.cutaway, to, now};
}

void glide_spread(Model& model, double to, double now) {
    if (model.look.pose.spread != to) model.spread_glide = Glide{model.look.pose.spread, to, now};
}

void go_to(Model& model, const Camera& camera, double now) {
    model.view_moved = true;
    model.move = CameraMove{model.camera, camera, now};
}

const Clearance* looked_at(const Model& model) {
    for (const Clearance& c : model.evaluation.clearances)
        if (c.a + "|" + c.b == model.looked_at) return &c;
    return nullptr;
}

std::map<std::string, glm::vec3> paint_of(const Model& model) {
    std::map<std::string, glm::vec3> paint;
    if (model.heat)
        for (const auto& [key, step] : heat_of(model.evaluation))
            paint[key] = heat_steps.at(step).colour;
    return paint;
}

std::optional<Cut> cut_of(const Model& model) {
    if (model.cutaway <= 0) return {};
    // From in front of everything back to the axle's middle.
    constexpr double front = 60;
    Cut cut;
    cut.normal = {1, 0, 0};
    cut.offset = static_cast<float>(front * (1 - model.cutaway));
    return cut;
}

}  // namespace podwright
