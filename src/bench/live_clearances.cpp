#include "bench/live_clearances.hpp"

#include <algorithm>
#include <chrono>

namespace podwright {

namespace {

constexpr double longest_measuring = 0.015;  // s, of a frame in which something moves
constexpr double longest_hitch = 0.15;       // s, that a drag may stop for once in a while

}  // namespace

double clock_now() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

bool must_wait(const Model& model) {
    return model.in_a_hurry && clock_now() < model.measured_again;
}
void note_measuring(Model& model, double start) {
    const double now = clock_now(), taken = now - start;
    if (taken > longest_measuring)
        model.measured_again = taken > longest_hitch ? 1e300 : now + 4 * taken;
}

void keep_clearances(Evaluation&& last, Evaluation& now) {
    const auto is_there = [&](const std::string& key) {
        return key == ground_key || now.assembly.find(key) != nullptr;
    };
    for (Clearance& c : last.clearances)
        if (is_there(c.a) && is_there(c.b)) now.clearances.push_back(std::move(c));
    for (Finding& f : last.findings) {
        if ((f.code != "contact" && f.code != "close") ||
            !std::all_of(f.parts.begin(), f.parts.end(), is_there))
            continue;
        f.changes.clear();
        now.findings.push_back(std::move(f));
    }
    std::stable_sort(now.findings.begin(), now.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.level > b.level; });
}

}  // namespace podwright
