#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>

#include "bench/felt_axle.hpp"
#include "bench/history.hpp"
#include "bench/stage.hpp"
#include "core/parameters.hpp"
#include "draw/camera.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

/// An adjuster that is being played through its range.
struct Play {
    std::string key;  ///< of a parameter, or one of motion_names()
    double start = 0;
    double began = 0;  ///< seconds
};

/// Another setup, that stands behind the present one as a ghost.
struct Ghost {
    /// `before` follows the user: the present while something is dragged, the setup before it at
    /// rest. `kept` stays what it was.
    enum class Of { nothing, before, kept };
    Of of = Of::nothing;
    std::string title;  ///< of a kept one
    Setup setup;
    Evaluation evaluation;  ///< of `setup`, without clearances
};

/// What the panel at the right shows.
enum class Page {
    car,     ///< findings, room, readings
    feel,    ///< what the axle feels: load cases, builds, another axle
    choose,  ///< the best builds from the parts box
    day,     ///< what to change before each run
    checks,  ///< the event's rules, and what was measured
    effects  ///< what one more of each adjuster does
};
/// "Car", "Feel", ...
const char* page_name(Page);

/// A camera on its way.
struct CameraMove {
    Camera from, to;
    double began = 0;  ///< seconds
};

/// A slider of the view on its way.
struct Glide {
    double from = 0, to = 0;
    double began = 0;  ///< seconds
};

/// Everything that the window shows: the setup with its evaluation, and the state of the view. The
/// panels read and change this; nothing here draws.
struct Model {
    /// Clearances are measured with the meter, meshes of the user's own weighed with the scales, if
    /// there are any; both must outlive the model.
    explicit Model(Setup first, Meter* to_measure_with = nullptr, Scales* to_weigh_with = nullptr);

    Meter* meter;
    Scales* scales;
    bool in_a_hurry = true;     ///< a frame must not wait for a measurement
    double measured_again = 0;  ///< s; before this a drag keeps the clearances that it has

    std::filesystem::path path;  ///< empty if the setup was never saved
    bool is_demo = false;        ///< came with the program: saving asks for another name
    History history;
    Setup setup;  ///< what is shown: the present, or a value in the middle of a drag or play
    Evaluation evaluation;     ///< of `setup`
    Evaluation before;         ///< of the present
    std::size_t revision = 0;  ///< counts the setups that were shown
    bool provisional = false;  ///< a drag or play goes on
    Ghost ghost;
    std::optional<FeltAxle> felt;  ///< the load case that is shown on the axle
    double felt_share = 0;         ///< of its load that is on, 0..1
    std::optional<Glide> felt_glide;
    std::string provisional_what;

    Camera camera;
    std::string view = "axle";  ///< named view that was last gone to
    bool view_moved = false;    ///< the camera has been moved since
    std::optional<CameraMove> move;
    StageLook look;
    double envelope = 0;  ///< place in a run through all that can happen, 0..1; 0 = as it stands
    Pose measured_pose;   ///< in which the clearances of `evaluation` were measured
    double cutaway = 0;   ///< 0 = whole, 1 = all of the near half taken away
    std::optional<Glide> cutaway_glide, spread_glide;
    bool labels = true;
    bool loupe = true;
    bool room = false;  ///< clearances drawn on the model
    bool heat = false;  ///< parts coloured by their clearance
    bool dark = false;  ///< the panels' and the words' colours
    bool panels = true;
    Page page = Page::car;
    std::size_t builds_of = 0;  ///< whose builds are shown: an index into Feel::tolerances
    bool help = false;
    bool linked = true;
    LengthUnit shown = LengthUnit::mm;
    std::optional<Play> play;
    std::string chosen_finding;  ///< code
    std::string looked_at;       ///< pair whose gap the loupe shows, "a|b"; empty: the float
    std::string message;         ///< one line at the foot of the bench
    double message_until = 0;
};

/// Takes a new present (opening a file): history, evaluation and selections start anew.
void take(Model& model, Setup setup, std::filesystem::path path);

/// Shows the present with these changes, without making them the present. Refused edits say why in
/// `model.message` and leave the last good value.
void try_changes(Model& model, std::span<const Change> changes, double now);
/// Makes what is shown the present.
void commit(Model& model);
/// Goes back to the present.
void cancel(Model& model);
/// try_changes and commit in one.
void make_changes(Model& model, std::span<const Change> changes, std::string what, double now);

void undo(Model& model);
void redo(Model& model);
void set_unit(Model& model, LengthUnit shown);

/// What can be played beside the adjusters: "pose.along", "pose.turn", "pose.spread", "envelope",
/// "turntable", "load".
std::span<const std::string_view> motion_names();
void start_play(Model& model, const std::string& key, double now);
/// Moves camera and played adjuster on; true while anything still moves.
bool advance(Model& model, double now);

/// Measures the clearances anew where the parts have been moved since; what is slow to measure
/// waits until nothing is `moving`.
void follow_pose(Model& model, bool moving);

/// Shows a ghost of the setup before, or takes any ghost away.
void toggle_ghost(Model& model);
/// Keeps this setup as the ghost.
void keep_ghost(Model& model, Setup setup);
/// After `model.ghost` was changed: evaluates it and shows it.
void refresh_ghost(Model& model);

/// Shows that part alone, or everything again if it stood alone.
void isolate(Model& model, const std::string& part);
bool is_isolated(const Model& model);

void say(Model& model, std::string message, double now);
/// Eases the camera to a named view, with its cut and its see-through parts.
void go_to_view(Model& model, std::string_view name, double aspect, double now);
/// Composes the named view anew, at once, unless the camera was moved by hand.
void keep_view(Model& model, double aspect);
/// The same, eased there.
void ease_view(Model& model, double aspect, double now);
/// Eases the cutaway, or the exploded view, to 0 or 1.
void glide_cutaway(Model& model, double to, double now);
void glide_spread(Model& model, double to, double now);
/// Eases the camera there.
void go_to(Model& model, const Camera& camera, double now);
/// The clearance that `looked_at` names, or null.
const Clearance* looked_at(const Model& model);
/// The colours that the heat view asks for.
std::map<std::string, glm::vec3> paint_of(const Model& model);
/// The cut that the slider asks for.
std::optional<Cut> cut_of(const Model& model);

}  // namespace podwright
