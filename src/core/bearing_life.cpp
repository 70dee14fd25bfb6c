#include "core/bearing_life.hpp"

#include <algorithm>
#include <cmath>

#include "core/units.hpp"

namespace podwright {

namespace {

struct ClearanceRow {
    double over, up_to;
    std::array<Interval, 5> micrometres;  // C2, CN, C3, C4, C5
};

// ISO 5753-1, deep-groove bearings (en.shjfbearing.com/news/eventsPage/2525 and a second table; the
// former's row 18 to 24 prints CN the wrong way round).
constexpr std::array<ClearanceRow, 4> clearance_table = {{
    {2.5, 10, {{{0, 7}, {2, 13}, {8, 23}, {14, 29}, {20, 37}}}},
    {10, 18, {{{0, 9}, {3, 18}, {11, 25}, {18, 33}, {25, 45}}}},
    {18, 24, {{{0, 10}, {5, 20}, {13, 28}, {20, 36}, {28, 48}}}},
    {24, 30, {{{1, 11}, {5, 20}, {13, 28}, {23, 41}, {30, 53}}}},
}};

struct AxialRow {
    double relative, e, y;
};
// ISO 281, table 3, radial contact ball bearings, f0 Fa/C0 (from memory).
constexpr std::array<AxialRow, 9> axial_table = {{{0.172, 0.19, 2.30},
                                                  {0.345, 0.22, 1.99},
                                                  {0.689, 0.26, 1.71},
                                                  {1.03, 0.28, 1.55},
                                                  {1.38, 0.30, 1.45},
                                                  {2.07, 0.34, 1.31},
                                                  {3.45, 0.38, 1.15},
                                                  {5.17, 0.42, 1.04},
                                                  {6.89, 0.44, 1.00}}};

AxialRow axial_factors(double relative) {
    if (relative <= axial_table.front().relative) return axial_table.front();
    for (std::size_t i = 1; i < axial_table.size(); ++i) {
        const AxialRow &a = axial_table[i - 1], &b = axial_table[i];
        if (relative > b.relative) continue;
        const double part = (relative - a.relative) / (b.relative - a.relative);
        return {relative, a.e + part * (b.e - a.e), a.y + part * (b.y - a.y)};
    }
    return axial_table.back();
}

/// Hertz constant of a ball on one ring: Q = K d^1.5. `curvature` of the ring's raceway across the
/// groove's way, > 0 for the inner, < 0 for the outer ring; `groove` radius.
double contact_stiffness(double ball_radius, double curvature, double groove) {
    const double elastic = 208000.0 / (1 - 0.3 * 0.3);  // of bearing steel, effective E'
    const double rolling = 1 / (1 / ball_radius + curvature);
    const double across = 1 / (1 / ball_radius - 1 / groove);
    const double together = rolling * across / (rolling + across);
    const double ratio = across / rolling;
    const double ellipticity = 1.0339 * std::pow(ratio, 0.6360);
    const double second = 1.0003 + 0.5968 / ratio;
    const double first = 1.5277 + 0.6023 * std::log(ratio);
    return pi * ellipticity * elastic *
           std::sqrt(2 * second * together / (9 * first * first * first));
}

double plain_contact_angle(double clearance, double grooves_apart) {
    return std::acos(std::clamp(1 - clearance / (2 * grooves_apart), -1.0, 1.0));
}

void add_case(BearingCase& out, const SolvedCase& solved, double preload) {
    out.radial_left = std::hypot(solved.state.reaction_left[0], solved.state.reaction_left[1]);
    out.radial_right = std::hypot(solved.state.reaction_right[0], solved.state.reaction_right[1]);
    // A push to the left seats the right thrust face on the right bearing.
    out.axial_left = preload + std::max(0.0, -solved.loads.thrust);
    out.axial_right = preload + std::max(0.0, solved.loads.thrust);
}

}  // namespace

double rating_life(double rating, double load, double exponent) {
    return load > 0 ? std::pow(rating / load, exponent) : 1e12;
}

double life_hours(double life, double speed) {
    return speed > 0 ? std::min(1e9, 1e6 / (60 * speed) * life) : 1e9;
}

double static_load(double radial, double axial) {
    return std::max(0.6 * radial + 0.5 * axial, radial);
}

Interval radial_clearance(double bore, RadialClearance group) {
    constexpr double mm_per_micrometre = 1e-3;
    const auto* const row = std::find_if(clearance_table.begin(), clearance_table.end() - 1,
                                         [&](const ClearanceRow& r) { return bore <= r.up_to; });
    const Interval um = row->micrometres[static_cast<std::size_t>(group)];
    return {um.low * mm_per_micrometre, um.high * mm_per_micrometre};
}

double axial_play(double clearance, double ball_diameter, double conformity) {
    const double apart = (2 * conformity - 1) * ball_diameter;
    return std::sqrt(std::max(0.0, 4 * apart * clearance - clearance * clearance));
}

double dynamic_load(double radial, double axial, const Bearing& b) {
    if (axial <= 0) return radial;
    // f0 / C0 = 1 / (Z Dw²).
    const AxialRow f = axial_factors(axial / (b.balls * b.ball_diameter * b.ball_diameter));
    if (axial <= f.e * radial) return radial;
    return std::max(radial, 0.56 * radial + f.y * axial);
}

double ball_stiffness(const Bearing& b) {
    const double ball = b.ball_diameter / 2, groove = b.conformity * b.ball_diameter;
    const double circle = (b.bore + b.outside) / 4;  // radius of the balls' centres
    const double inner = contact_stiffness(ball, 1 / (circle - ball), groove);
    const double outer = contact_stiffness(ball, -1 / (circle + ball), groove);
    return std::pow(std::pow(inner, -2.0 / 3) + std::pow(outer, -2.0 / 3), -1.5);
}

double axial_give(const Bearing& b, double clearance, double axial_load) {
    const double apart = (2 * b.conformity - 1) * b.ball_diameter;
    const double rest = plain_contact_angle(clearance, apart);
    const double start = apart * std::sin(rest);
    if (axial_load <= 0) return start;
    // Fa = Z K A^1.5 sin a (cos a0/cos a - 1)^1.5 grows with a: halve the interval.
    const double scale = b.balls * ball_stiffness(b) * std::pow(apart, 1.5);
    double low = rest, high = pi / 2 - 1e-6;
    for (int i = 0; i < 50; ++i) {
        const double a = (low + high) / 2;
        const double force = scale * std::sin(a) * std::pow(std::cos(rest) / std::cos(a) - 1, 1.5);
        (force < axial_load ? low : high) = a;
    }
    return apart * std::cos(rest) * std::tan(low);
}

double axial_stiffness(const Setup& setup, const Stack& stack) {
    const Shaft shaft = axle_shaft(setup, stack);
    const double left = stack.left.thrust + setup.left.reach / 2;
    const double right = -stack.right.thrust - setup.right.reach / 2;
    double give = 0;
    for (const ShaftSection& s : shaft.sections) {
        const double length = std::min(s.to, left) - std::max(s.from, right);
        if (length > 0) give += length / (shaft.material.elastic_modulus * s.area());
    }
    return 1 / give;
}

Preload preload_of(const Setup& setup, double axial_float, double axle_stiffness) {
    Preload out;
    if (axial_float >= 0) return out;
    out.overlap = -axial_float;
    const Bearing& b = setup.bearing;
    const Interval group = radial_clearance(b.bore, b.clearance);
    const double clearance = (group.low + group.high) / 2;
    const double play = axial_give(b, clearance, 0);  // half of Ga, in each of two bearings
    out.play = std::min(out.overlap, 2 * play);
    if (out.overlap <= 2 * play) return out;
    const double springs = 1 / axle_stiffness + 1 / setup.pod.axial_stiffness;
    double low = 0, high = out.overlap / springs;
    for (int i = 0; i < 40; ++i) {
        const double force = (low + high) / 2;
        const double taken = 2 * axial_give(b, clearance, force) + force * springs;
        (taken < out.overlap ? low : high) = force;
    }
    out.force = low;
    return out;
}

double bearing_drag(double equivalent_load, double bore) {
    return 0.5 * 0.0015 * equivalent_load * bore;
}

BearingStudy study_bearings(const Setup& setup, const Stack& stack, const ShaftStudy& shaft,
                            double axial_float) {
    const Bearing& b = setup.bearing;
    BearingStudy out;
    out.preload = preload_of(setup, axial_float, axial_stiffness(setup, stack));
    out.static_safety = 1e9;
    for (std::size_t i = 0; i < shaft.cases.size(); ++i) {
        const SolvedCase& solved = shaft.cases[i];
        const LoadCase which = solved.loads.which;
        BearingCase& c = out.cases[i];
        add_case(c, solved, out.preload.force);
        if (c.radial_left > out.load_left) {
            out.load_left = c.radial_left;
            out.load_case_left = which;
        }
        if (c.radial_right > out.load_right) {
            out.load_right = c.radial_right;
            out.load_case_right = which;
        }
        const double worst = std::max(static_load(c.radial_left, c.axial_left),
                                      static_load(c.radial_right, c.axial_right));
        if (worst > 0 && b.static_rating / worst < out.static_safety) {
            out.static_safety = b.static_rating / worst;
            out.static_case = which;
        }
        if (which == LoadCase::rest) {  // where nothing but the preload pushes along the axle
            const auto drag = [&](double left, double right) {
                return bearing_drag(dynamic_load(c.radial_left, left, b), b.bore) +
                       bearing_drag(dynamic_load(c.radial_right, right, b), b.bore);
            };
            out.drag = drag(c.axial_left, c.axial_right);
            out.drag_preload = out.drag - drag(0, 0);
        }
    }
    // Half the time in turns to either side: the mean load of a ball bearing is that of its cubes.
    const auto cubes = [&](double BearingCase::*radial, double BearingCase::*axial) {
        double sum = 0;
        for (const LoadCase which : {LoadCase::corner_left, LoadCase::corner_right}) {
            const BearingCase& c = out.cases[static_cast<std::size_t>(which)];
            const double p = dynamic_load(c.*radial, c.*axial, b);
            sum += p * p * p / 2;
        }
        return std::cbrt(sum);
    };
    const double load = std::max(cubes(&BearingCase::radial_left, &BearingCase::axial_left),
                                 cubes(&BearingCase::radial_right, &BearingCase::axial_right));
    out.life = life_hours(rating_life(b.rating, load), shaft.top_speed);

    out.misaligned =
        shaft.bearing_left.slope >= shaft.bearing_right.slope ? Side::left : Side::right;
    out.misalignment = std::max(shaft.bearing_left.slope, shaft.bearing_right.slope);
    const Interval clearance = radial_clearance(b.bore, b.clearance);
    out.play_low = axial_play(clearance.low, b.ball_diameter, b.conformity);
    out.play_high = axial_play(clearance.high, b.ball_diameter, b.conformity);
    return out;
}

}  // namespace podwright
