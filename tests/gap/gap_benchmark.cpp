#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "core/units.hpp"
#include "gap/clearance.hpp"
#include "gap_support.hpp"
#include "shape/assembly.hpp"

// All pairs of parts of the demo assembly: the true shapes against FCL on meshes, in one run.
namespace podwright {

namespace {

using Clock = std::chrono::steady_clock;

double milliseconds(Clock::time_point since) {
    return std::chrono::duration<double, std::milli>(Clock::now() - since).count();
}

/// Best of some runs of `work`.
template <class Work>
double best_of(int runs, Work work) {
    double best = 1e300;
    for (int i = 0; i < runs; ++i) {
        const auto start = Clock::now();
        work();
        best = std::min(best, milliseconds(start));
    }
    return best;
}

struct Row {
    std::string name;
    Gap gap;
    double time;
};

Assembly assembly_of(const Setup& setup) {
    const Stack stack = stack_of(setup);
    const Stance stance = stance_of(setup, stack);
    return assemble(setup, stack, stance, drive_of(setup, stack, stance));
}

void measure(const char* title, const Setup& setup, bool verbose) {
    const Assembly assembly = assembly_of(setup);
    const std::vector<Part>& parts = assembly.parts;
    std::vector<MeasuredPart> ready;
    const double preparing = best_of(3, [&] {
        ready.clear();
        for (const Part& part : parts) ready.push_back(measured(part, asset_mesh));
    });
    std::size_t bodies = 0;
    for (const MeasuredPart& part : ready) bodies += part.forms.size();

    std::vector<Row> rows;
    double apart = 0, overlapping = 0, near = 0;
    int count_apart = 0, count_overlapping = 0;
    for (std::size_t i = 0; i < parts.size(); ++i)
        for (std::size_t j = i + 1; j < parts.size(); ++j) {
            Gap gap;
            const double time = best_of(
                5, [&] { gap = gap_between(ready[i], parts[i].place, ready[j], parts[j].place); });
            const double limited = best_of(
                5, [&] { gap_between(ready[i], parts[i].place, ready[j], parts[j].place, 5); });
            rows.push_back({parts[i].key + " - " + parts[j].key, gap, time});
            if (gap.gap > 1e-9)
                apart += time, near += limited, ++count_apart;
            else
                overlapping += time, ++count_overlapping;
        }
    std::printf("%s: %zu parts, %zu bodies, made ready in %.2f ms\n", title, parts.size(), bodies,
                preparing);
    std::printf("  %d pairs apart: %.3f ms; only gaps below 5 mm: %.3f ms\n", count_apart, apart,
                near);
    std::printf("  %d pairs that touch or overlap: %.3f ms\n", count_overlapping, overlapping);
    if (!verbose) return;
    std::sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.time > b.time; });
    for (std::size_t i = 0; i < rows.size() && i < 25; ++i)
        std::printf("  %9.4f ms  gap %9.4f  within %.1e  %s\n", rows[i].time, rows[i].gap.gap,
                    rows[i].gap.within, rows[i].name.c_str());
}

void against_meshes(const char* title, const Setup& setup) {
    const Assembly assembly = assembly_of(setup);
    std::vector<MeasuredPart> ready;
    std::vector<MeshOracle> meshes;
    for (const Part& part : assembly.parts) {
        ready.push_back(measured(part, asset_mesh));
        Mesh whole;
        for (const Body& body : part.bodies) {
            const double radius = form_of(body, asset_mesh).radius;
            append(whole, mesh_of(body.solid, radius * (1 - std::cos(pi / 128)), asset_mesh),
                   body.place);
        }
        meshes.emplace_back(whole);
    }
    double ours = 0, theirs = 0;
    int pairs = 0;
    for (std::size_t i = 0; i < ready.size(); ++i)
        for (std::size_t j = i + 1; j < ready.size(); ++j) {
            const glm::dmat4 &a = assembly.parts[i].place, &b = assembly.parts[j].place;
            Gap gap;
            const double time = best_of(3, [&] { gap = gap_between(ready[i], a, ready[j], b); });
            if (gap.gap <= 1e-9) continue;
            ++pairs;
            ours += time;
            theirs += best_of(1, [&] { meshes[i].distance(a, meshes[j], b); });
        }
    std::printf(
        "%s, %d pairs apart: true shapes %.2f ms, FCL on meshes of 128 segments %.2f ms, "
        "ratio %.1f\n",
        title, pairs, ours, theirs, theirs / ours);
}

/// Clearances and envelope, as they stand after everything was made ready, by the number of parts.
void growth() {
    for (const std::size_t shims : {2U, 4U, 8U, 12U}) {
        Setup setup;
        setup.left.shims.assign(shims, 0.05);
        setup.right.shims = setup.left.shims;
        const Assembly assembly = assembly_of(setup);
        Setup other = setup;
        other.left.inset += 0.5;
        const Assembly moved = assembly_of(other);
        const double nothing = best_of(3, [&] { Meter(asset_mesh).clearances(setup, assembly); });
        Meter meter(asset_mesh);
        const double again = best_of(9,
                                     [&] {
                                         meter.clearances(setup, assembly);
                                         meter.clearances(other, moved);
                                     }) /
                             2;
        std::printf("%zu parts: from nothing %.2f ms, %.3f ms a part; a wheel moved %.3f ms\n",
                    assembly.parts.size(), nothing,
                    nothing / static_cast<double>(assembly.parts.size()), again);
    }
}

}  // namespace

}  // namespace podwright

int main(int count, char** arguments) {
    using namespace podwright;
    const bool verbose = count > 1 && std::string(arguments[1]) == "--pairs";
    Setup setup;
    measure("default setup", setup, verbose);
    setup.left.shims = {0.1, 0.1, 0.1, 0.1};
    setup.right.shims = setup.left.shims;
    measure("eight shims", setup, false);
    Setup tilted;
    tilted.left.holder_step += 0.5;
    measure("unlike holders", tilted, verbose);
    against_meshes("level", Setup{});
    against_meshes("unlike holders", tilted);
    growth();
}
