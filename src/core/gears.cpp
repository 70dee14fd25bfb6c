#include "core/gears.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace podwright {

namespace {

double dedendum_of(Dedendum depth, double module) {
    switch (depth) {
        case Dedendum::fine_pitch: return 1.2 * module + 0.002 * mm_per_inch;
        case Dedendum::full_depth: return 1.25 * module;
        case Dedendum::deep: return 1.4 * module;
    }
    return 1.25 * module;
}

struct FormFactor {
    int teeth;
    double value;
};

// Shigley, Mechanical Engineering Design, table 14-2.
constexpr std::array<FormFactor, 25> form_factors = {{
    {12, .245},  {13, .261},  {14, .277},  {15, .290},  {16, .296}, {17, .303}, {18, .309},
    {19, .314},  {20, .322},  {21, .328},  {22, .331},  {24, .337}, {26, .346}, {28, .353},
    {30, .359},  {34, .371},  {38, .384},  {43, .397},  {50, .409}, {60, .422}, {75, .435},
    {100, .447}, {150, .460}, {300, .472}, {400, .480},
}};

/// Half the length of the path of contact that one gear's tip cuts off.
double tip_reach(const GearDiameters& d) {
    return std::sqrt(std::max(0.0, d.outside * d.outside - d.base * d.base)) / 2;
}

}  // namespace

Gear standard_gear(int teeth, double module, double pressure_angle, Dedendum depth,
                   double thinning) {
    Gear gear;
    gear.teeth = teeth;
    gear.module = module;
    gear.pressure_angle = pressure_angle;
    gear.dedendum = dedendum_of(depth, module);
    gear.addendum = module;
    gear.thinning = thinning;
    return gear;
}

GearDiameters diameters(const Gear& gear) {
    GearDiameters d{};
    d.pitch = gear.module * gear.teeth;
    d.outside = d.pitch + 2 * (gear.addendum + gear.shift * gear.module);
    d.root = d.pitch - 2 * (gear.dedendum - gear.shift * gear.module);
    d.base = d.pitch * std::cos(gear.pressure_angle);
    return d;
}

double involute(double angle) { return std::tan(angle) - angle; }

double inverse_involute(double value) {
    if (value <= 0) return 0;
    // inv a ~ a^3 / 3 near zero; tan a ~ value + pi/2 far out. Newton on f(a) = tan a - a - value
    // has f' = tan² a, and converges from above.
    double angle = std::min(std::cbrt(3 * value), std::atan(value + pi / 2));
    for (int i = 0; i < 60; ++i) {
        const double tangent = std::tan(angle);
        const double change = (tangent - angle - value) / (tangent * tangent);
        angle -= change;
        if (std::abs(change) < 1e-16 * angle) break;
    }
    return angle;
}

double tooth_thickness(const Gear& gear, double diameter) {
    const GearDiameters d = diameters(gear);
    const double a = gear.pressure_angle;
    const double on_pitch_circle =
        gear.module * (pi / 2 + 2 * gear.shift * std::tan(a)) - gear.thinning;
    const double a_y = std::acos(std::min(1.0, d.base / diameter));
    return diameter * (on_pitch_circle / d.pitch + involute(a) - involute(a_y));
}

double undercut_limit(double pressure_angle, double shift) {
    const double s = std::sin(pressure_angle);
    return 2 * (1 - shift) / (s * s);
}

bool is_undercut(const Gear& gear) {
    return gear.teeth < undercut_limit(gear.pressure_angle, gear.shift);
}

double lewis_form_factor(int teeth) {
    if (teeth <= form_factors.front().teeth) return form_factors.front().value;
    if (teeth >= form_factors.back().teeth) return form_factors.back().value;
    std::size_t above = 1;
    while (form_factors[above].teeth <= teeth) ++above;
    const FormFactor& low = form_factors[above - 1];
    const FormFactor& high = form_factors[above];
    const double part = static_cast<double>(teeth - low.teeth) / (high.teeth - low.teeth);
    return low.value + part * (high.value - low.value);
}

double lewis_stress(double tangential_force, double face_width, double module, int teeth) {
    return tangential_force / (face_width * module * lewis_form_factor(teeth));
}

PairState pair_at(const Gear& pinion, const Gear& spur, double distance) {
    const GearDiameters p = diameters(pinion);
    const GearDiameters s = diameters(spur);
    const double a = pinion.pressure_angle;
    PairState state{};
    state.standard_distance = (p.pitch + s.pitch) / 2;
    state.distance = distance;
    state.pressure_angle =
        std::acos(std::min(1.0, state.standard_distance * std::cos(a) / distance));

    // On the working pitch circles the pitch is shared by one tooth of each gear and the backlash.
    const double total_teeth = pinion.teeth + spur.teeth;
    const double pinion_circle = 2 * distance * pinion.teeth / total_teeth;
    const double spur_circle = 2 * distance * spur.teeth / total_teeth;
    const double pitch = pi * pinion_circle / pinion.teeth;
    state.backlash =
        pitch - tooth_thickness(pinion, pinion_circle) - tooth_thickness(spur, spur_circle);

    const double path = tip_reach(p) + tip_reach(s) - distance * std::sin(state.pressure_angle);
    const bool jams = state.backlash < -1e-9 * distance;
    state.contact_ratio = jams ? 0 : std::max(0.0, path) / (pi * pinion.module * std::cos(a));
    return state;
}

double distance_for_backlash(const Gear& pinion, const Gear& spur, double backlash) {
    // With C = C0 cos a / cos a_w every tooth thickness scales with C, so that
    //   backlash = 2 C (inv a_w - inv a - 2 x tan a / z + thinning / (2 C0))
    // (sums of x, z and thinning over the pair). Newton from the approximation
    //   backlash ~ 2 (C - C0) tan a.
    const double a = pinion.pressure_angle;
    const double standard = pinion.module * (pinion.teeth + spur.teeth) / 2;
    const double base = standard * std::cos(a);
    double distance =
        standard + (backlash - pair_at(pinion, spur, standard).backlash) / (2 * std::tan(a));
    for (int i = 0; i < 50; ++i) {
        distance = std::max(distance, base * (1 + 1e-9));
        const PairState state = pair_at(pinion, spur, distance);
        // d(backlash)/dC = backlash / C + 2 C tan² a_w · d(a_w)/dC, and d(a_w)/dC = 1 / (C tan
        // a_w).
        const double slope = state.backlash / distance + 2 * std::tan(state.pressure_angle);
        const double change = (state.backlash - backlash) / slope;
        distance -= change;
        if (std::abs(change) < 1e-14 * distance) break;
    }
    return distance;
}

}  // namespace podwright
