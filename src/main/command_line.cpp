#include "main/command_line.hpp"

#include <CLI/CLI.hpp>
#include <exception>
#include <optional>
#include <ostream>

#include "evaluate/evaluate.hpp"
#include "file/asset.hpp"
#include "file/asset_library.hpp"
#include "file/choose_report.hpp"
#include "file/near.hpp"
#include "file/page.hpp"
#include "file/report.hpp"
#include "file/scene.hpp"
#include "main/command_names.hpp"
#include "main/progress.hpp"

namespace podwright {

namespace {

struct Options {
    std::string scene;
    bool tell = false;
    bool json = false;
    bool inches = false;
    bool effects = false;
    std::string against;
    std::string output;
    std::string size = "1280x720";
    std::string view = "axle";
    double explode = 0;
    bool cutaway = false;
    bool labels = false;
    bool dark = false;
    std::string ghost;
    std::string load;
    std::string motion = "turntable";
    int rate = 25;
    double seconds = 6;
};

std::string listed(std::span<const std::string_view> names) {
    std::string text;
    for (const std::string_view name : names)
        text += (text.empty() ? "" : ", ") + std::string(name);
    return text;
}

/// A whole number of at most four digits.
std::optional<int> small_number(std::string_view digits) {
    if (digits.empty() || digits.size() > 4) return std::nullopt;
    int value = 0;
    for (const char c : digits) {
        if (c < '0' || c > '9') return std::nullopt;
        value = 10 * value + (c - '0');
    }
    return value;
}

void read_size(const std::string& text, PictureRequest& request) {
    const std::size_t cross = text.find_first_of("xX");
    const auto width = small_number(std::string_view(text).substr(0, cross));
    const auto height = cross == std::string::npos
                            ? std::nullopt
                            : small_number(std::string_view(text).substr(cross + 1));
    constexpr int least = 64;
    constexpr int most = 8192;
    if (!width || !height || *width < least || *width > most || *height < least || *height > most)
        throw UsageError("--size is \"" + text +
                         "\"; it must be WIDTHxHEIGHT, each 64 to 8192, such as 1280x720");
    request.width = *width;
    request.height = *height;
}

int report(const Options& options, std::ostream& out) {
    const Setup setup = read_scene(options.scene);
    Meter meter(asset_library());
    Asked asked;
    asked.shown = options.inches ? LengthUnit::inch : LengthUnit::mm;
    asked.meter = &meter;
    constexpr double everything = 1e9;
    if (options.json) asked.horizon = everything;
    Scales scales(asset_library());
    asked.scales = &scales;
    asked.builds = usual_builds;
    ReportAsked more;
    more.effects = options.effects;
    std::optional<Setup> against;
    if (!options.against.empty()) more.against = &against.emplace(read_scene(options.against));
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
    asked.shown = options.inches ? LengthUnit::inch : LengthUnit::mm;
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
    read_size(options.size, request);
    const auto views = graphics.views;
    if (std::find(views.begin(), views.end(), options.view) == views.end()) {
        const std::vector<std::string> known(views.begin(), views.end());
        throw UsageError("--view is \"" + options.view + "\"; it must be one of " + listed(views) +
                         did_you_mean(options.view, known));
    }
    if (!(options.explode >= 0 && options.explode <= 1))
        throw UsageError("--explode is out of range; it must be 0 to 1");
    request.view = options.view;
    request.explode = options.explode;
    request.cutaway = options.cutaway;
    request.labels = options.labels;
    request.dark = options.dark;
    request.output = options.output;
    request.setup = read_scene(options.scene);
    if (!options.load.empty()) request.load = load_case(options.load, graphics.loads);
    if (!options.ghost.empty()) request.ghost = read_scene(options.ghost);
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
    check_motion(options.motion, graphics.motions);
    const std::string ending = std::filesystem::path(options.output).extension().string();
    if (!ending.empty() && ending != ".webp")
        throw UsageError("-o is \"" + options.output +
                         "\"; it must end in .webp, or be the name of a new folder");
    constexpr int fastest = 60;
    if (options.rate < 1 || options.rate > fastest)
        throw UsageError("--rate is out of range; it must be 1 to 60");
    constexpr double longest = 120;
    if (!(options.seconds > 0 && options.seconds <= longest))
        throw UsageError("--seconds is out of range; it must be more than 0, at most 120");
    request.picture = picture_request(options, graphics);
    request.motion = options.motion;
    request.rate = options.rate;
    request.seconds = options.seconds;
    graphics.write_recording(request);
    return exit_clean;
}

int window(const Options& options, const Graphics& graphics) {
    WindowRequest request;
    request.scene = options.scene.empty() ? share_folder() / "scenes" / "first-look.toml"
                                          : std::filesystem::path(options.scene);
    request.tell = options.tell;
    std::error_code error;
    const std::string command = nearest(options.scene, command_names());
    if (!command.empty() && !std::filesystem::exists(request.scene, error))
        throw UsageError("\"" + options.scene + "\" is neither a scene file nor a command" +
                         did_you_mean(options.scene, command_names()));
    graphics.run_window(request);
    return exit_clean;
}

void add_report(CLI::App& app, Options& options) {
    CLI::App* command = app.add_subcommand("report", "Prints readings and findings of a scene.");
    command->add_option("SCENE", options.scene, "scene file (TOML)")->required();
    command->add_flag("--json", options.json, "print JSON, always in mm");
    command->add_flag("--inches", options.inches, "print lengths in inches");
    command->add_flag("--effects", options.effects,
                      "add what one more of each adjuster does to each reading");
    command
        ->add_option("--against", options.against,
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
    command.add_flag("--dark", options.dark, "a dark surround");
    command
        .add_option("--load", options.load,
                    "the axle as it is bent and wound up under a load, enlarged, one of " +
                        listed(graphics.loads))
        ->type_name("NAME");
    command.add_option("--ghost", options.ghost, "another scene, shown as a ghost behind it")
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
    command->add_option("--seconds", options.seconds, "how long it takes, at most 120")
        ->capture_default_str()
        ->type_name("S");
    add_what_is_shown(*command, options, graphics);
}

void add_all(CLI::App& app, Options& options, const Graphics& graphics) {
    app.name("podwright");
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
    return window(options, graphics);
}

int fail(std::ostream& errors, std::string_view what) {
    errors << harmless(what) << "\n";
    return exit_failed;
}

int parse_and_run(std::span<const std::string> arguments, const Graphics& graphics,
                  std::ostream& out, std::ostream& errors) {
    Options options;
    CLI::App app("A 3D bench for the rear axle of a small electric pan car.");
    add_all(app, options, graphics);
    try {
        app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
    } catch (const CLI::Success& asked) {
        return app.exit(asked, out, errors) == 0 ? exit_clean : exit_failed;
    } catch (const CLI::ParseError& error) {
        check_command(arguments, options.scene);
        return fail(errors, "podwright: " + std::string(error.what()) + "; see podwright --help");
    }
    const int code = run(app, options, graphics, out);
    out.flush();
    if (!out) return fail(errors, "podwright: the output could not be written");
    return code;
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
