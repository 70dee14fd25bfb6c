#include "core/tolerance.hpp"

#include <cmath>
#include <functional>

#include "core/drive.hpp"
#include "core/stance.hpp"

namespace podwright {

namespace {

double in_result(const Contributor& c) { return std::abs(c.sensitivity) * c.tolerance.half; }

double variance_of(const Contributor& c) {
    const double d = c.sensitivity * deviation_of(c.tolerance);
    return d * d;
}

/// A length of the setup that strays, and how to move it.
struct Stray {
    std::string name;
    Tolerance tolerance;
    std::function<void(Setup&, double)> move;
};

void add_side(std::vector<Stray>& out, const Setup& setup, Side side) {
    const Tolerances& t = setup.tolerances;
    const std::string at = side == Side::left ? "left " : "right ";
    const auto add = [&](const char* name, const Tolerance& tolerance, auto pick) {
        out.push_back(
            {at + name, tolerance, [side, pick](Setup& s, double d) { pick(s.side(side)) += d; }});
    };
    add("seat", t.seat, [](AxleSide& s) -> double& { return s.seat; });
    add("standout", t.standout, [](AxleSide& s) -> double& { return s.standout; });
    for (std::size_t i = 0; i < setup.side(side).shims.size(); ++i)
        out.push_back({at + "shim " + std::to_string(i + 1), t.shim,
                       [side, i](Setup& s, double d) { s.side(side).shims[i] += d; }});
    add("reach", t.reach, [](AxleSide& s) -> double& { return s.reach; });
    add("inset", t.inset, [](AxleSide& s) -> double& { return s.inset; });
    add("tyre width", t.tyre_width, [](AxleSide& s) -> double& { return s.tyre.width; });
    add("tyre diameter", t.tyre_diameter, [](AxleSide& s) -> double& { return s.tyre.diameter; });
    add("holder step", t.holder_step, [](AxleSide& s) -> double& { return s.holder_step; });
}

std::vector<Stray> strays_of(const Setup& setup) {
    std::vector<Stray> out;
    out.reserve(40);
    for (const Side side : both_sides) add_side(out, setup, side);
    const Tolerances& t = setup.tolerances;
    out.push_back(
        {"bore height", t.bore_height, [](Setup& s, double d) { s.pod.bore_height += d; }});
    if (setup.axial_float.set_by == FloatBy::blade)
        out.push_back({"blade", t.blade, [](Setup& s, double d) { s.axial_float.blade += d; }});
    else
        out.push_back(
            {"shoulder", t.shoulder, [](Setup& s, double d) { s.axial_float.shoulder += d; }});
    return out;
}

/// Float, width, shift, ride height.
std::vector<double> results_of(const Setup& setup) {
    const Stack stack = stack_of(setup);
    const Stance stance = stance_of(setup, stack);
    return {stack.axial_float, stack.overall_width, stack.shift, stance.ride};
}

StackUp backlash_stack_up(const Setup& setup) {
    const Stack stack = stack_of(setup);
    const Drive drive = drive_of(setup, stack, stance_of(setup, stack));
    const double step = 1e-4;
    const auto at = [&](double distance) {
        return pair_at(drive.pinion, drive.spur, distance).backlash;
    };
    const double C = drive.mesh.distance;
    const Tolerances& t = setup.tolerances;
    return {"backlash",
            drive.mesh.backlash,
            {{"centre distance", (at(C + step) - at(C - step)) / (2 * step), t.mesh},
             // A tooth on the pitch circle; on the working one it is wider by C / C0.
             {"pinion tooth", -C / drive.mesh.standard_distance, t.tooth},
             {"spur tooth", -C / drive.mesh.standard_distance, t.tooth}}};
}

}  // namespace

double deviation_of(const Tolerance& t) {
    switch (t.spread) {
        case Spread::normal: return t.half / 3;
        case Spread::uniform: return t.half / std::sqrt(3.0);
        case Spread::triangular: return t.half / std::sqrt(6.0);
    }
    return 0;
}

double worst_case(const StackUp& up) {
    double sum = 0;
    for (const Contributor& c : up.contributors) sum += in_result(c);
    return sum;
}

double root_sum_square(const StackUp& up) {
    double sum = 0;
    for (const Contributor& c : up.contributors) sum += in_result(c) * in_result(c);
    return std::sqrt(sum);
}

double deviation_of(const StackUp& up) {
    double sum = 0;
    for (const Contributor& c : up.contributors) sum += variance_of(c);
    return std::sqrt(sum);
}

std::vector<double> contributions(const StackUp& up) {
    double sum = 0;
    for (const Contributor& c : up.contributors) sum += variance_of(c);
    std::vector<double> out;
    out.reserve(up.contributors.size());
    for (const Contributor& c : up.contributors) out.push_back(sum > 0 ? variance_of(c) / sum : 0);
    return out;
}

ShareInterval wilson(double hits, double trials, double z) {
    if (!(trials > 0)) return {0, 1};
    const double p = hits / trials, z2 = z * z / trials;
    const double middle = (p + z2 / 2) / (1 + z2);
    const double half =
        z / (1 + z2) * std::sqrt(p * (1 - p) / trials + z * z / (4 * trials * trials));
    return {std::max(0.0, middle - half), std::min(1.0, middle + half)};
}

StackUp float_stack_up(const Setup& setup, const Stack& stack) {
    const Tolerances& t = setup.tolerances;
    StackUp up{"float", stack.axial_float, {}};
    if (setup.axial_float.set_by == FloatBy::blade) {
        up.contributors.push_back({"blade", 1, t.blade});
        return up;
    }
    up.contributors.reserve(5 + setup.left.shims.size() + setup.right.shims.size());
    up.contributors.push_back({"shoulder", 1, t.shoulder});
    for (const Side side : both_sides) {
        const std::string at = side == Side::left ? "left " : "right ";
        up.contributors.push_back({at + "seat", -1, t.seat});
        up.contributors.push_back({at + "standout", -1, t.standout});
        for (std::size_t i = 0; i < setup.side(side).shims.size(); ++i)
            up.contributors.push_back({at + "shim " + std::to_string(i + 1), -1, t.shim});
    }
    return up;
}

std::vector<StackUp> stack_ups(const Setup& setup) {
    constexpr double step = 1e-3;  // mm; everything but the stance is a straight line
    constexpr double nothing = 1e-9;
    const std::vector<double> nominal = results_of(setup);
    std::vector<StackUp> ups = {{"float", nominal[0], {}},
                                {"overall width", nominal[1], {}},
                                {"shift", nominal[2], {}},
                                {"ride height", nominal[3], {}}};
    for (const Stray& stray : strays_of(setup)) {
        Setup more = setup, less = setup;
        stray.move(more, step);
        stray.move(less, -step);
        const std::vector<double> above = results_of(more), below = results_of(less);
        for (std::size_t i = 0; i < ups.size(); ++i) {
            const double slope = (above[i] - below[i]) / (2 * step);
            if (std::abs(slope) > nothing)
                ups[i].contributors.push_back({stray.name, slope, stray.tolerance});
        }
    }
    ups.push_back(backlash_stack_up(setup));
    return ups;
}

}  // namespace podwright
