#include <sys/resource.h>
#include <sys/wait.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

#include "bench/stage.hpp"
#include "bench/views.hpp"
#include "bench/words.hpp"
#include "draw/framebuffer.hpp"
#include "draw/headless.hpp"
#include "file/asset_library.hpp"
#include "file/scene.hpp"

// What the program costs on this machine. Every figure is the median of several runs; machines and
// runs differ, so compare only figures of one run.
namespace {

using namespace podwright;
using Clock = std::chrono::steady_clock;

double since(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

/// Median seconds of `runs` calls.
template <class Work>
double timed(int runs, Work work) {
    std::vector<double> seconds;
    for (int i = 0; i < runs; ++i) {
        const auto start = Clock::now();
        work(i);
        seconds.push_back(since(start));
    }
    return median(std::move(seconds));
}

void print(const char* what, double value, const char* unit) {
    std::printf("%-52s %10.2f %s\n", what, value, unit);
}

std::string processor() {
    std::ifstream file("/proc/cpuinfo");
    for (std::string line; std::getline(file, line);)
        if (line.rfind("model name", 0) == 0) return line.substr(line.find(':') + 2);
    return "unknown processor";
}

void calculations(const Setup& setup) {
    constexpr int batch = 1000;
    volatile double sink = 0;
    const double each = timed(9,
                              [&](int) {
                                  for (int i = 0; i < batch; ++i) {
                                      Setup s = setup;
                                      s.left.inset += 1e-3 * i;
                                      sink = sink + evaluate(s).stack.overall_width;
                                  }
                              }) /
                        batch;
    print("evaluate, one setup", each * 1e6, "us");
    const Evaluation e = evaluate(setup);
    const auto repeated = [&](const char* what, auto work) {
        const double seconds = timed(9,
                                     [&](int) {
                                         for (int i = 0; i < batch; ++i) sink = sink + work();
                                     }) /
                               batch;
        print(what, seconds * 1e6, "us");
    };
    repeated("shaft, all load cases and frequencies", [&] {
        return study_shaft(setup, e.stack, e.stance, e.drive, e.feel.turning).worst.safety;
    });
    repeated("turning mass from the solids",
             [&] { return turning_mass_of(setup, e.stance, e.drive, e.assembly).inertia; });
    repeated("bearings", [&] {
        return study_bearings(setup, e.stack, e.feel.shaft, e.stack.axial_float).life;
    });
}

/// A stack of ten normal lengths on one core, beside NumPy's in the same run: the best of its chunk
/// sizes, in double and in single precision.
void monte_carlo() {
    constexpr double million = 1e6;
    SamplePlan plan;
    plan.builds = 8'000'000;
    plan.low = 0.1;
    plan.high = 0.2;
    const StackUp up{"", 0.15, std::vector<Contributor>(10, {"", 1, {0.02, Spread::normal}})};
    volatile double sink = 0;
    const double seconds = timed(5, [&](int) { sink = sink + sample(up, plan).mean; });
    print("Monte Carlo, ten normal lengths, one core",
          static_cast<double>(plan.builds) / seconds / million, "M stacks/s");
    std::fflush(stdout);
    const std::string script =
        std::string(PODWRIGHT_SOURCE_DIR) + "/tests/benchmark/numpy_stack.py";
    if (std::system(("python3 " + script + " 2>/dev/null").c_str()) != 0)
        std::printf("NumPy is not installed (Debian: python3-numpy): no comparison\n");
    const double again = timed(5, [&](int) { sink = sink + sample(up, plan).mean; });
    print("Monte Carlo, the same once more", static_cast<double>(plan.builds) / again / million,
          "M stacks/s");
}

/// Clearances with their whole envelope; the solids are made ready and the pairs remembered as in
/// the window.
void clearances(const Setup& setup) {
    const auto measure = [](Meter& meter, const Setup& s) {
        return meter.clearances(s, evaluate(s).assembly).size();
    };
    print("clearances and envelope, from nothing",
          timed(9,
                [&](int) {
                    Meter meter(asset_library());
                    measure(meter, setup);
                }) *
              1e3,
          "ms");
    Meter meter(asset_library());
    print("clearances and envelope, inset dragged",
          timed(25,
                [&](int i) {
                    Setup s = setup;
                    s.left.inset += 0.25 * i;
                    measure(meter, s);
                }) *
              1e3,
          "ms");
    print("clearances and envelope, spur dragged",
          timed(25,
                [&](int i) {
                    Setup s = setup;
                    s.gears.spur += i % 9;
                    measure(meter, s);
                }) *
              1e3,
          "ms");
    print("clearances and envelope, holder turned, axle tilted",
          timed(3,
                [&](int i) {
                    Setup s = setup;
                    s.left.holder_step += 0.5 * (i + 1);
                    measure(meter, s);
                }) *
              1e3,
          "ms");
}

void command(const char* what, const std::string& arguments, int runs) {
    const std::string line = std::string(PODWRIGHT_PROGRAM) + " " + arguments + " >/dev/null 2>&1";
    const double seconds = timed(runs, [&](int) {
        const int status = std::system(line.c_str());
        if (status == -1 || WEXITSTATUS(status) > 2) std::printf("%s failed\n", what);
    });
    print(what, seconds * 1e3, "ms");
}

void frames(const Setup& setup) {
    constexpr int width = 1280;
    constexpr int height = 720;
    const auto start = Clock::now();
    const HeadlessContext context;
    Stage stage(asset_library());
    Evaluation evaluation = evaluate(setup);
    stage.set(evaluation.assembly);
    const Framebuffer target(width, height);
    StageLook look;
    Camera camera = camera_of("axle", evaluation, {static_cast<double>(width) / height});
    const auto draw = [&](Quality quality) {
        stage.renderer().draw(stage.scene(look), camera, {0, 0, width, height}, quality,
                              target.id(), height);
        target.read();  // waits until it is drawn
    };
    draw(Quality::settled);
    print("first frame, from no context", since(start) * 1e3, "ms");
    std::printf("%-52s %10zu\n", "triangles", stage.triangle_count());
    print("frame 1280x720, settled",
          timed(7,
                [&](int i) {
                    camera.azimuth += 0.01 * i;
                    draw(Quality::settled);
                }) *
              1e3,
          "ms");
    print("frame 1280x720, moving, camera turned",
          timed(15,
                [&](int) {
                    camera.azimuth += 0.01;
                    draw(Quality::moving);
                }) *
              1e3,
          "ms");
    const auto drag = [&](const char* what, auto edit) {
        const double seconds = timed(15, [&](int i) {
            Setup s = setup;
            edit(s, i);
            evaluation = evaluate(s);
            stage.set(evaluation.assembly);
            draw(Quality::moving);
        });
        print(what, seconds * 1e3, "ms");
    };
    drag("frame 1280x720, moving, inset dragged",
         [](Setup& s, int i) { s.left.inset += 0.25 * i; });
    drag("frame 1280x720, moving, tyre dragged",
         [](Setup& s, int i) { s.left.tyre.diameter += 0.1 * i; });
    drag("frame 1280x720, moving, spur dragged", [](Setup& s, int i) { s.gears.spur += i; });
    std::printf("drawn with %s\n", stage.renderer().description().c_str());
}

/// The places of the words, every frame anew while something moves.
void words(const Setup& setup) {
    const MeshLibrary library = asset_library();
    const HeadlessContext context;
    Stage stage(library);
    Meter meter(library);
    Asked asked;
    asked.meter = &meter;
    const Evaluation evaluation = evaluate(setup, asked);
    stage.set(evaluation.assembly);
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    const Type type = set_type_and_style(1);
    ImGui::GetIO().Fonts->Build();
    const NamedView& view = named_view("rear");
    StageLook look;
    WordsInput input{view, setup, evaluation, look};
    input.room = true;
    WordsMemory memory;
    std::size_t count = 0;
    std::vector<LabelWish> wishes;
    LabelGround ground;
    const double all = timed(101, [&](int i) {
        Canvas canvas;
        canvas.box = {{0, 0}, {1280, 720}};
        canvas.type = &type;
        canvas.camera = camera_of("rear", evaluation, composed(view, 1280.0 / 720, 0, true));
        canvas.camera.azimuth += 0.002 * i;
        const WordsPlan plan = planned_words(canvas, input, stage.boxes(look), memory);
        count = plan.wishes.size();
        wishes = plan.wishes;
        ground = plan.ground;
    });
    const double layout = timed(101, [&](int) {
        LabelMemory none;
        lay_out(wishes, ground, none);
    });
    ImGui::DestroyContext();
    print("labels on the model", static_cast<double>(count), "");
    print("places of all words, camera turning", all * 1e3, "ms");
    print("layout of the labels, from nothing", layout * 1e3, "ms");
}

}  // namespace

int main() {
    const Setup setup = read_scene(std::string(PODWRIGHT_SOURCE_DIR) + "/scenes/first-look.toml");
    const std::string scene = std::string(PODWRIGHT_SOURCE_DIR) + "/scenes/first-look.toml";
    std::printf("%s, %u threads\n", processor().c_str(), std::thread::hardware_concurrency());
    calculations(setup);
    monte_carlo();
    clearances(setup);
    command("podwright report", "report " + scene, 15);
    command("podwright picture, 1280x720 with labels",
            "picture " + scene + " --labels -o podwright-benchmark.png", 5);
    std::remove("podwright-benchmark.png");
    words(setup);
    frames(setup);
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    print("greatest memory of this process", static_cast<double>(usage.ru_maxrss) / 1024, "MiB");
    return 0;
}
