#include "main/command_line.hpp"

#include <CLI/CLI.hpp>
#include <exception>
#include <optional>
#include <ostream>
#include <tuple>

#include "evaluate/evaluate.hpp"
#include "file/asset.hpp"
#include "file/asset_library.hpp"
#include "file/choose_report.hpp"
#include "file/disk.hpp"
#include "file/near.hpp"
#include "file/page.hpp"
#include "file/report.hpp"
#include "file/scene.hpp"
#include "main/command_names.hpp"
#include "main/progress.hpp"
#include "main/usage.hpp"

namespace podwright {

namespace {

struct Options {
    std::string scene;
    bool tell = false;
    bool json = false;
    bool inches = false;
    bool effects = false;
    std::optional<std::string> against;
    std::string output;
    std::string size = "1280x720";
    std::string view = "axle";
    std::string explode = "0";
    bool cutaway = false;
    bool labels = false;
    bool dark = false;
    std::optional<std::string> ghost;
    std::optional<std::string> load;
    std::string motion = "turntable";
    std::string rate = "25";
    std::string seconds = "6";
};

std::string listed(std::span<const std::string_view> names) {
    std::string text;
    for (const std::string_view name : names)
        text += (text.empty() ? "" : ", ") + std::string(name);
    return text;
}

LengthUnit shown_unit(const Options& options) {
    return options.inches ? LengthUnit::inch : LengthUnit::mm;
}

/// The scene that an option names.
Setup scene_given(const char* option, const std::string& path) {
    if (path.empty())
        throw UsageError(std::string(option) + " is empty; it must be the name of a scene file");
    return read_scene(path);
}

int report(const Options& options, std::ostream& out) {
    const Setup setup = read_scene(options.scene);
    Meter meter(asset_library());
    Asked asked;
    asked.shown = shown_unit(options);
    asked.meter = &meter;
    constexpr double everything = 1e9;
    if (options.json) asked.horizon = everything;
    Scales scales(asset_library());
    asked.scales = &scales;
    asked.builds = usual_builds;
    ReportAsked more;
    more.effects = options.effects;
    std::optional<Setup> against;
    if (options.against)
        more.against = &against.emplace(scene_given("--against", *options.against));
    const Evaluation evaluation = evaluate(setup, asked);
    out << (options.json ? report_json(setup, evaluation, more)
                         : report_text(setup, evaluation, options.inches, more));
    switch (evaluation.worst()) {
        case Level::stop: return exit_stops;
        case Level::caution: return exit_cautions;
        case Level::note: break;
    }
    return exit_clean;
}

/// What `choose` and `plan` are asked for alike.
ChooseOptions choose_options(const Options& options, Meter& meter, Progress& progress) {
    ChooseOptions asked;
    asked.meter = &meter;
    asked.shown = shown_unit(options);
    asked.watch = progress.watch();
    return asked;
}

int choose_build(const Options& options, std::ostream& out) {
    const Setup setup = read_scene(options.scene);
    if (setup.choosing.box == PartsBox{})
        throw UsageError(options.scene +
                         " has no parts box; add [box], or box = \"FILE.toml\", see "
                         "scenes/README.md");
    Meter meter(asset_library());
    const auto chosen = [&] {
        Progress progress;
        return choose(setup, choose_options(options, meter, progress));
    };
    const Choice choice = chosen();
    out << (options.json ? choice_json(setup, choice) : choice_text(setup, choice, options.inches));
    if (choice.stopped) throw UsageError("stopped before the end");
    return choice.best.empty() ? exit_cautions : exit_clean;
}

int plan(const Options& options, std::ostream& out) {
    const Setup setup = read_scene(options.scene);
    if (setup.choosing.day.runs == 0)
        throw UsageError(options.scene +
                         " has no day to plan; add [day] with runs = ..., see scenes/README.md");
    Meter meter(asset_library());
    const auto planned = [&] {
        Progress progress;
        return plan_day(setup, choose_options(options, meter, progress));
    };
    const DayPlan day = planned();
    out << (options.json ? plan_json(setup, day) : plan_text(setup, day, options.inches));
    if (day.stopped) throw UsageError("stopped before the end");
    const bool kept = std::all_of(day.runs.begin(), day.runs.end(),
                                  [](const RunPlan& run) { return run.broken.empty(); });
    return kept && static_cast<int>(day.runs.size()) == day.runs_asked ? exit_clean : exit_cautions;
}

LoadCase load_case(const std::string& name, std::span<const std::string_view> loads) {
    const auto found = std::find(loads.begin(), loads.end(), name);
    if (found == loads.end()) {
        const std::vector<std::string> known(loads.begin(), loads.end());
        throw UsageError("--load is \"" + name + "\"; it must be one of " + listed(loads) +
                         did_you_mean(name, known));
    }
    return all_load_cases.at(static_cast<std::size_t>(found - loads.begin()));
}

/// What a picture and a recording are asked for alike.
PictureRequest picture_request(const Options& options, const Graphics& graphics) {
    PictureRequest request;
    std::tie(request.width, request.height) = size_given(options.size);
    const auto views = graphics.views;
    if (std::find(views.begin(), views.end(), options.view) == views.end()) {
        const std::vector<std::string> known(views.begin(), views.end());
        throw UsageError("--view is \"" + options.view + "\"; it must be one of " + listed(views) +
                         did_you_mean(options.view, known));
    }
    request.view = options.view;
    request.explode = number_given("--explode", options.explode, 0, 1, "a number, 0 to 1");
    request.cutaway = options.cutaway;
    request.labels = options.labels;
    request.dark = options.dark;
    request.shown = shown_unit(options);
    request.output = options.output;
    request.setup = read_scene(options.scene);
    if (options.load) request.load = load_case(*options.load, graphics.loads);
    if (options.ghost) request.ghost = scene_given("--ghost", *options.ghost);
    return request;
}

int picture(const Options& options, const Graphics& graphics) {
    if (std::filesystem::path(options.output).extension() != ".png")
        throw UsageError("-o is \"" + options.output + "\"; it must end in .png");
    graphics.write_picture(picture_request(options, graphics));
    return exit_clean;
}

void check_motion(const std::string& motion, std::span<const std::string_view> words) {
    std::vector<std::string> known(words.begin(), words.end());
    for (const Parameter& p : parameters())
        if (p.kind == ValueKind::number) known.push_back(p.key);
    if (std::find(known.begin(), known.end(), motion) == known.end())
        throw UsageError("--motion is \"" + motion + "\"; it must be one of " + listed(words) +
                         ", or an adjuster's key such as left.inset" + did_you_mean(motion, known));
}

int record(const Options& options, const Graphics& graphics) {
    RecordingRequest request;
    if (options.output.empty())
        throw UsageError("-o is empty; it must end in .webp, or be the name of a new folder");
    check_motion(options.motion, graphics.motions);
    const std::string ending = std::filesystem::path(options.output).extension().string();
    if (!ending.empty() && ending != ".webp")
        throw UsageError("-o is \"" + options.output +
                         "\"; it must end in .webp, or be the name of a new folder");
    constexpr int fastest = 60;
    request.rate = whole_number_given("--rate", options.rate, 1, fastest);
    constexpr double shortest = 1e-3;
    constexpr double longest = 120;
    request.seconds =
        number_given("--seconds", options.seconds, shortest, longest, "a number, 0.001 to 120");
    request.picture = picture_request(options, graphics);
    request.motion = options.motion;
    graphics.write_recording(request);
    return exit_clean;
}

int window(const Options& options, const Graphics& graphics) {
    WindowRequest request;
    request.scene = options.scene.empty() ? share_folder() / "scenes" / "first-look.toml"
                                          : std::filesystem::path(options.scene);
    request.tell = options.tell;
    const std::string command = nearest(options.scene, command_names());
    if (!command.empty() && !is_there(request.scene))
        throw UsageError("\"" + options.scene + "\" is neither a scene file nor a command" +
                         did_you_mean(options.scene, command_names()));
    graphics.run_window(request);
    return exit_clean;
}

/// An option whose empty value is a mistake and not the same as none.
CLI::Option* add_name(CLI::App& command, const char* option, std::optional<std::string>& name,
                      const std::string& help) {
    return command.add_option_function<std::string>(
        option, [&name](const std::string& given) { name = given; }, help);
}

void add_report(CLI::App& app, Options& options) {
    CLI::App* command = app.add_subcommand("report", "Prints readings and findings of a scene.");
    command->add_option("SCENE", options.scene, "scene file (TOML)")->required();
    command->add_flag("--json", options.json, "print JSON, always in mm");
    command->add_flag("--inches", options.inches, "print lengths in inches");
    command->add_flag("--effects", options.effects,
                      "add what one more of each adjuster does to each reading");
    add_name(*command, "--against", options.against,
             "another scene: add what differs from it, and what follows from that")
        ->type_name("SCENE");
    command->footer("Exit code: 0 nothing or only notes, 1 cautions, 2 stops, 3 could not run.");
}

void add_choosing(CLI::App& app, Options& options, const char* name, const char* what,
                  const char* codes) {
    CLI::App* command = app.add_subcommand(name, what);
    command->add_option("SCENE", options.scene, "scene file (TOML)")->required();
    command->add_flag("--json", options.json, "print JSON, always in mm");
    command->add_flag("--inches", options.inches, "print lengths in inches");
    command->footer(codes);
}

/// The scene and how it is looked at.
void add_what_is_shown(CLI::App& command, Options& options, const Graphics& graphics) {
    command.add_option("SCENE", options.scene, "scene file (TOML)")->required();
    command.add_option("--size", options.size, "size in pixels, each 64 to 8192")
        ->capture_default_str()
        ->type_name("WxH");
    command.add_option("--view", options.view, "one of " + listed(graphics.views))
        ->capture_default_str()
        ->type_name("NAME");
    command.add_option("--explode", options.explode, "exploded view, 0 to 1")
        ->capture_default_str()
        ->type_name("0..1");
    command.add_flag("--cutaway", options.cutaway, "cut the parts open along the axle");
    command.add_flag("--labels", options.labels, "draw dimensions, loupe and findings");
    command.add_flag("--inches", options.inches, "write lengths in inches");
    command.add_flag("--dark", options.dark, "a dark surround");
    add_name(command, "--load", options.load,
             "the axle as it is bent and wound up under a load, enlarged, one of " +
                 listed(graphics.loads))
        ->type_name("NAME");
    add_name(command, "--ghost", options.ghost, "another scene, shown as a ghost behind it")
        ->type_name("SCENE");
}

void add_picture(CLI::App& app, Options& options, const Graphics& graphics) {
    CLI::App* command = app.add_subcommand("picture", "Draws a scene to a file; needs no display.");
    command->add_option("-o,--output", options.output, "picture to write (.png)")
        ->required()
        ->type_name("FILE.png");
    add_what_is_shown(*command, options, graphics);
}

void add_record(CLI::App& app, Options& options, const Graphics& graphics) {
    CLI::App* command =
        app.add_subcommand("record", "Draws a scene in motion to a file; needs no display.");
    command
        ->add_option("-o,--output", options.output,
                     "animation to write (.webp), or a new folder for numbered .png files")
        ->required()
        ->type_name("FILE.webp|FOLDER");
    command
        ->add_option("--motion", options.motion,
                     "one of " + listed(graphics.motions) +
                         ", or the key of an adjuster that swings through its range")
        ->capture_default_str()
        ->type_name("NAME");
    command->add_option("--rate", options.rate, "pictures a second, 1 to 60")
        ->capture_default_str()
        ->type_name("N");
    command->add_option("--seconds", options.seconds, "how long it takes, 0.001 to 120")
        ->capture_default_str()
        ->type_name("S");
    add_what_is_shown(*command, options, graphics);
}

void add_all(CLI::App& app, Options& options, const Graphics& graphics) {
    app.name("podwright");
    app.option_defaults()->disable_flag_override();
    app.set_version_flag("--version", "podwright " + std::string(version()));
    app.add_option("SCENE", options.scene,
                   "scene file to open (TOML); without one, the first look");
    app.add_flag("--tell", options.tell,
                 "say on standard output, as lines of JSON, what the window shows");
    add_report(app, options);
    add_choosing(app, options, "choose", "Prints the best builds from the scene's parts box.",
                 "Exit code: 0 there is one, 1 nothing fits, 3 could not run.");
    add_choosing(app, options, "plan", "Prints holders and pinion for every run of the day.",
                 "Exit code: 0 every limit is kept, 1 not every one can be, 3 could not run.");
    add_picture(app, options, graphics);
    add_record(app, options, graphics);
    app.add_subcommand("materials",
                       "Prints the materials with their values and sources, as a Markdown table.");
    app.add_subcommand("keys", "Prints every key of a scene file, as Markdown tables.");
    app.require_subcommand(0, 1);
    app.footer("Without a command the window opens.");
}

int run(CLI::App& app, const Options& options, const Graphics& graphics, std::ostream& out) {
    if (app.got_subcommand("report")) return report(options, out);
    if (app.got_subcommand("choose")) return choose_build(options, out);
    if (app.got_subcommand("plan")) return plan(options, out);
    if (app.got_subcommand("picture")) return picture(options, graphics);
    if (app.got_subcommand("record")) return record(options, graphics);
    if (app.got_subcommand("materials")) {
        out << material_table();
        return exit_clean;
    }
    if (app.got_subcommand("keys")) {
        out << key_tables();
        return exit_clean;
    }
    if (options.scene.empty() && app.count("SCENE") > 0)
        throw UsageError("SCENE is empty; it must be the name of a scene file");
    return window(options, graphics);
}

int fail(std::ostream& errors, std::string_view what) {
    errors << harmless(what) << "\n";
    return exit_failed;
}

/// `code`, if all that was written to `out` has arrived.
int written(int code, std::ostream& out, std::ostream& errors) {
    out.flush();
    return out ? code : fail(errors, "podwright: the output could not be written");
}

int parse_and_run(std::span<const std::string> arguments, const Graphics& graphics,
                  std::ostream& out, std::ostream& errors) {
    Options options;
    CLI::App app("A 3D bench for the rear axle of a small electric pan car.");
    add_all(app, options, graphics);
    try {
        app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
    } catch (const CLI::Success& asked) {
        return written(app.exit(asked, out, errors) == 0 ? exit_clean : exit_failed, out, errors);
    } catch (const CLI::ParseError& error) {
        check_command(arguments, options.scene);
        return fail(errors, usage_mistake(app, error));
    }
    return written(run(app, options, graphics, out), out, errors);
}

}  // namespace

int run_command_line(std::span<const std::string> arguments, const Graphics& graphics,
                     std::ostream& out, std::ostream& errors) {
    try {
        return parse_and_run(arguments, graphics, out, errors);
    } catch (const UsageError& error) {
        return fail(errors, "podwright: " + std::string(error.what()));
    } catch (const std::bad_alloc&) {
        return fail(errors, "podwright: there is not enough memory");
    } catch (const std::exception& error) {
        return fail(errors, error.what());
    }
}

}  // namespace podwright
