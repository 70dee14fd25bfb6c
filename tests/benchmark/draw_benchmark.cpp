#include <epoxy/gl.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <list>
#include <string>
#include <vector>

#include "bench/easel.hpp"
#include "bench/stage.hpp"
#include "bench/views.hpp"
#include "draw/framebuffer.hpp"
#include "draw/gpu_mesh.hpp"
#include "draw/headless.hpp"
#include "draw/program.hpp"
#include "file/asset_library.hpp"
#include "file/scene.hpp"
#include "main/large_pages.hpp"
#include "shape/mesher.hpp"

// What a picture costs on this machine: GPU time by timer queries where there is a GPU, frame times
// of the software renderer where there is none, and the whole process beside Debian's f3d, which
// renders the same triangles. Medians; compare only figures of one run. Needs EGL and OpenGL alone;
// f3d is asked only if it is installed, and has the display that stands there already.
//
//     xvfb-run -a podwright_draw_benchmark [SCENE.toml]
namespace {

using namespace podwright;
using Clock = std::chrono::steady_clock;

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

double since(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

void print(const char* what, double ms) { std::printf("%-62s %9.3f ms\n", what, ms); }

/// A setup on the stage, seen as a person would turn it.
struct Turntable {
    Stage stage;
    Setup setup;
    Evaluation evaluation;
    StageLook look;
    Camera camera;
    Framebuffer target;

    Turntable(const Setup& shown, int width, int height)
        : stage(asset_library()), setup(shown), evaluation(evaluate(shown)), target(width, height) {
        stage.set(evaluation.assembly);
        camera = camera_of("axle", evaluation, {static_cast<double>(width) / height});
    }

    void draw(Quality quality) {
        stage.renderer().draw(stage.scene(look), camera, {0, 0, target.width(), target.height()},
                              quality, target.id(), target.height());
    }

    /// Another setup: other places of the parts, so that every shadow is drawn again.
    void drag(int step) {
        Setup s = setup;
        s.left.inset += 0.05 * (step % 7);
        evaluation = evaluate(s);
        stage.set(evaluation.assembly);
    }
};

bool has_timer() {
    if (!epoxy_is_desktop_gl() && !epoxy_has_gl_extension("GL_EXT_disjoint_timer_query"))
        return false;
    GLint bits = 0;
    glGetQueryiv(GL_TIME_ELAPSED, GL_QUERY_COUNTER_BITS, &bits);
    return bits > 0;
}

/// What no picture of this size can do without: a buffer of four samples emptied and written.
class Bare {
public:
    Bare(const Turntable& table, int width, int height)
        : buffer_(width, height, Framebuffer::Depth::with_stencil, 4), camera_(table.camera) {
        const MeshLibrary library = asset_library();
        for (const Part& part : table.evaluation.assembly.parts)
            for (const Body& body : part.bodies)
                bodies_.emplace_back(GpuMesh(mesh_of(body.solid, default_chord_error, library)),
                                     placed(table.evaluation.assembly, part, {}) * body.place);
    }

    void empty() const {
        glBindFramebuffer(GL_FRAMEBUFFER, buffer_.id());
        glViewport(0, 0, buffer_.width(), buffer_.height());
        glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT | GL_STENCIL_BUFFER_BIT);
    }

    /// The parts in one flat colour.
    void draw() const {
        empty();
        glEnable(GL_DEPTH_TEST);
        glEnable(GL_CULL_FACE);
        const double aspect = static_cast<double>(buffer_.width()) / buffer_.height();
        const glm::dmat4 to_clip = camera_.projection(aspect, 200) * camera_.view();
        flat_.use();
        for (const auto& [mesh, place] : bodies_) {
            flat_.set("u_place_to_clip", glm::mat4(to_clip * place));
            mesh.draw_triangles();
        }
        glDisable(GL_CULL_FACE);
        glDisable(GL_DEPTH_TEST);
    }

private:
    Framebuffer buffer_;
    Camera camera_;
    Program flat_{{"shadow_vertex"}, {"shadow_fragment"}};
    std::vector<std::pair<GpuMesh, glm::dmat4>> bodies_;
};

/// Median GPU milliseconds of `draw()` in 50 frames, each after `before(i)`.
template <class Before, class Draw>
double gpu_time(Before before, Draw draw) {
    constexpr int frames = 50;
    GLuint query = 0;
    glGenQueries(1, &query);
    std::vector<double> times;
    for (int i = -10; i < frames; ++i) {  // the first ten wake the card up
        before(i + 10);
        glBeginQuery(GL_TIME_ELAPSED, query);
        draw();
        glEndQuery(GL_TIME_ELAPSED);
        GLuint64 nanoseconds = 0;
        glGetQueryObjectui64v(query, GL_QUERY_RESULT, &nanoseconds);
        if (i >= 0) times.push_back(static_cast<double>(nanoseconds) * 1e-6);
    }
    glDeleteQueries(1, &query);
    return median(std::move(times));
}

void gpu_frames(const Setup& setup) {
    std::printf("3840x2160, everything on (4 samples, shadows, occlusion, lines), timer queries\n");
    if (!has_timer()) {
        std::printf("  no timer queries here: not measured\n");
        return;
    }
    Turntable table(setup, 3840, 2160);
    const Bare bare(table, 3840, 2160);
    const auto nothing = [](int) {};
    const auto turn = [&](int) { table.camera.azimuth += 0.01; };
    const auto everything = [&] { table.draw(Quality::settled); };
    const double emptied = gpu_time(nothing, [&] { bare.empty(); });
    const double flat = gpu_time(nothing, [&] { bare.draw(); });
    const double full = gpu_time(turn, everything);
    print("  GPU, camera turned, median of 50", full);
    print("  beside it, a buffer of four samples emptied, no more", emptied);
    print("  beside it, emptied and the parts in one flat colour", flat);
    std::printf("  everything on takes %.2f of the time of the flat colour\n", full / flat);
    table.look.cut = Cut{{1, 0, 0}, 0};
    print("  GPU, camera turned, cut open", gpu_time(turn, everything));
    table.look.cut.reset();
    print("  GPU, inset dragged: all shadows drawn again",
          gpu_time([&](int step) { table.drag(step); }, everything));
}

template <class Before>
double frame_time(Turntable& table, Quality quality, int frames, Before before) {
    table.draw(quality);
    table.target.read();
    std::vector<double> times;
    for (int i = 0; i < frames; ++i) {
        before(i);
        const auto start = Clock::now();
        table.draw(quality);
        table.target.read();  // waits until it is drawn
        times.push_back(since(start));
    }
    return median(std::move(times));
}

void software_frames(const Setup& setup) {
    std::printf("1280x720, wall time a frame\n");
    Turntable table(setup, 1280, 720);
    const auto turn = [&](int) { table.camera.azimuth += 0.01; };
    print("  settled, camera turned", frame_time(table, Quality::settled, 7, turn));
    print("  settled, inset dragged",
          frame_time(table, Quality::settled, 7, [&](int i) { table.drag(i); }));
    print("  moving, camera turned", frame_time(table, Quality::moving, 15, turn));
    // The window draws at 0.6 of the size while things move.
    Turntable window(setup, 768, 432);
    print("  moving as the window does (768x432), camera turned",
          frame_time(window, Quality::moving, 15, [&](int) { window.camera.azimuth += 0.01; }));
    print("  moving as the window does (768x432), inset dragged",
          frame_time(window, Quality::moving, 15, [&](int i) { window.drag(i); }));
}

/// The assembly's triangles as a binary STL file; gives their number.
std::size_t write_stl(const Setup& setup, const std::string& path) {
    const MeshLibrary library = asset_library();
    const Evaluation evaluation = evaluate(setup);
    const std::list<Meshed> meshes = meshed(evaluation.assembly, library, chord_error_for(720));
    Mesh all;
    for (const Part& part : evaluation.assembly.parts)
        for (const Body& body : part.bodies) {
            const auto own = std::find_if(meshes.begin(), meshes.end(),
                                          [&](const Meshed& m) { return m.solid == body.solid; });
            append(all, own->mesh, placed(evaluation.assembly, part, {}) * body.place);
        }
    std::ofstream file(path, std::ios::binary);
    const std::string header(80, ' ');
    file.write(header.data(), 80);
    const auto count = static_cast<std::uint32_t>(all.triangles.size() / 3);
    file.write(reinterpret_cast<const char*>(&count), 4);
    for (std::size_t i = 0; i < all.triangles.size(); i += 3) {
        glm::vec3 record[4] = {glm::vec3(0)};
        for (std::size_t k = 0; k < 3; ++k)
            record[k + 1] = all.vertices[all.triangles[i + k]].position;
        file.write(reinterpret_cast<const char*>(record), sizeof record);
        file.write("\0", 2);
    }
    return count;
}

struct Cost {
    double wall = 0;  ///< ms
    double work = 0;  ///< ms of processor time
    bool done = false;
};

double children_work() {
    rusage usage{};
    getrusage(RUSAGE_CHILDREN, &usage);
    const auto ms = [](const timeval& t) {
        return 1e3 * static_cast<double>(t.tv_sec) + 1e-3 * static_cast<double>(t.tv_usec);
    };
    return ms(usage.ru_utime) + ms(usage.ru_stime);
}

Cost run(const std::string& line) {
    const double before = children_work();
    const auto start = Clock::now();
    const int status = std::system((line + " >/dev/null 2>&1").c_str());
    return {since(start), children_work() - before, status == 0};
}

/// Both processes in turn, so that the machine's moods meet both.
void beside_f3d(const std::string& scene, const Setup& setup) {
    std::printf("whole process, 1280x720\n");
    const std::string model = "podwright-draw-benchmark.stl";
    const std::string picture = "podwright-draw-benchmark.png";
    const std::size_t triangles = write_stl(setup, model);
    const std::string ours = std::string(PODWRIGHT_PROGRAM) + " picture " + scene +
                             " --size 1280x720 --labels -o " + picture;
    const std::string theirs = "f3d " + model + " --output " + picture + " --resolution 1280,720";
    if (!run(theirs).done) {
        std::printf(
            "  f3d does not run here (it needs a display; xvfb-run gives one): not compared\n");
    } else if (!run(ours).done) {
        std::printf("  podwright does not run here: not compared\n");
    } else {
        constexpr int runs = 7;
        std::vector<double> wall[2];
        std::vector<double> work[2];
        for (int i = 0; i < runs; ++i)
            for (int k = 0; k < 2; ++k) {
                const Cost cost = run(k == 0 ? ours : theirs);
                wall[k].push_back(cost.wall);
                work[k].push_back(cost.work);
            }
        print("  podwright picture --labels, wall", median(wall[0]));
        print("  podwright picture --labels, processor time", median(work[0]));
        print("  f3d, the same triangles, wall", median(wall[1]));
        print("  f3d, the same triangles, processor time", median(work[1]));
        std::printf("  %s, %zu triangles: ours takes %.2f of its wall time, %.2f of its work\n",
                    theirs.c_str(), triangles, median(wall[0]) / median(wall[1]),
                    median(work[0]) / median(work[1]));
    }
    std::remove(model.c_str());
    std::remove(picture.c_str());
}

}  // namespace

int main(int count, char** arguments) {
    ask_for_large_pages();  // as the program does
    const std::string scene =
        count > 1 ? arguments[1] : std::string(PODWRIGHT_SOURCE_DIR) + "/scenes/first-look.toml";
    const Setup setup = read_scene(scene);
    {
        const HeadlessContext context;
        const std::string renderer = Renderer().description();
        std::printf("%s\n", renderer.c_str());
        const bool software = renderer.find("llvmpipe") != std::string::npos ||
                              renderer.find("softpipe") != std::string::npos;
        if (software) {
            software_frames(setup);
            std::printf("3840x2160: a software renderer, GPU time not measured\n");
        } else {
            gpu_frames(setup);
        }
    }
    beside_f3d(scene, setup);
    return 0;
}
