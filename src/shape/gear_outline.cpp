#include "shape/gear_outline.hpp"

#include <algorithm>
#include <cmath>

#include "core/units.hpp"
#include "shape/mesher.hpp"

namespace podwright {

namespace {

/// The radii between which the flank runs, and how finely it is cut up.
struct Flank {
    double root, base, foot, tip;     ///< radii; foot: where the involute begins
    double roll_foot, roll_tip;       ///< roll angles t: r = rb sqrt(1 + t²)
    int segments;                     ///< of the involute
    int tip_segments, root_segments;  ///< of the arcs

    double radius(int k) const {
        if (k == segments) return tip;
        const double t = roll_foot + (roll_tip - roll_foot) * k / segments;
        return base * std::sqrt(1 + t * t);
    }
    /// Sagitta of the coarsest chord: radius of curvature rb t, length of arc rb t dt.
    double involute_error() const {
        const double step = (roll_tip - roll_foot) / segments;
        return base * roll_tip * step * step / 8;
    }
};

/// Half the angle that a tooth takes up at `radius` >= the base radius.
double half_angle(const Gear& gear, double radius) {
    return tooth_thickness(gear, 2 * radius) / (2 * radius);
}

/// The radius between `good` and `bad` where `holds` (true at `good`, false at `bad`) changes.
template <class Holds>
double last_radius(double good, double bad, Holds holds) {
    for (int i = 0; i < 60; ++i) {
        const double middle = (good + bad) / 2;
        (holds(middle) ? good : bad) = middle;
    }
    return good;
}

double roll_angle(double radius, double base) {
    return std::sqrt(std::max(0.0, radius * radius / (base * base) - 1));
}

Flank flank_of(const Gear& gear, double chord_error) {
    const GearDiameters d = diameters(gear);
    const double pitch_radius = d.pitch / 2;
    const double least = 0.05 * gear.module;
    const double pitch_angle = 2 * pi / gear.teeth;
    Flank f{};
    f.base = d.base / 2;
    f.tip = d.outside / 2;
    f.root = d.root / 2;
    const auto thick = [&](double r) { return 2 * r * half_angle(gear, r) >= least; };
    const auto open = [&](double r) {
        return r * (pitch_angle - 2 * half_angle(gear, r)) >= least;
    };
    if (!thick(f.tip)) f.tip = last_radius(std::max(pitch_radius, f.base), f.tip, thick);
    f.foot = std::max(f.base, f.root);
    if (!open(f.foot)) {
        f.foot = last_radius(pitch_radius, f.foot, open);
        f.root = std::min(f.root, f.foot);
        if (f.root >= f.base) f.root = f.foot;
    }
    f.roll_foot = roll_angle(f.foot, f.base);
    f.roll_tip = roll_angle(f.tip, f.base);
    const double step = std::sqrt(8 * chord_error / (f.base * f.roll_tip));
    f.segments = std::max(1, static_cast<int>(std::ceil((f.roll_tip - f.roll_foot) / step)));
    const auto arc_segments = [&](double radius, double angle) {
        const int circle = segments_of_circle(radius, chord_error);
        return std::max(1, static_cast<int>(std::ceil(circle * angle / (2 * pi))));
    };
    f.tip_segments = arc_segments(f.tip, 2 * half_angle(gear, f.tip));
    f.root_segments = arc_segments(f.root, pitch_angle - 2 * half_angle(gear, f.foot));
    return f;
}

glm::dvec2 polar(double radius, double angle) {
    return {radius * std::cos(angle), radius * std::sin(angle)};
}

/// Normal of the flank at `radius`, where it stands at `angle`; `side` is -1 on the flank that
/// comes first counter-clockwise, +1 on the other. It is tangent to the base circle.
glm::dvec2 flank_normal(const Flank& f, double radius, double angle, double side) {
    const double pressure = std::acos(std::min(1.0, f.base / radius));
    const glm::dvec2 outward = polar(1, angle), along(-outward.y, outward.x);
    return outward * std::sin(pressure) + along * (side * std::cos(pressure));
}

/// Adds an arc from `from` to `to`, less its last point; `before` is the normal on the way in.
void add_arc(Outline& out, double radius, double from, double to, int segments,
             const glm::dvec2& before) {
    for (int k = 0; k < segments; ++k) {
        const double angle = from + (to - from) * k / segments;
        const glm::dvec2 normal = polar(1, angle);
        out.push_back({polar(radius, angle), k == 0 ? before : normal, normal});
    }
}

/// One tooth, from its first root corner to just before that of the next.
void add_tooth(Outline& out, const Gear& gear, const Flank& f, double centre) {
    const double foot = half_angle(gear, f.foot), tip = half_angle(gear, f.tip);
    const bool radial = f.root < f.foot;
    const double first = centre - foot, second = centre + foot;
    const glm::dvec2 first_side(std::sin(first), -std::cos(first));
    const glm::dvec2 second_side(-std::sin(second), std::cos(second));

    const glm::dvec2 foot_normal = flank_normal(f, f.foot, first, -1);
    if (radial) out.push_back({polar(f.root, first), polar(1, first), first_side});
    out.push_back({polar(f.foot, first), radial ? first_side : polar(1, first), foot_normal});
    for (int k = 1; k < f.segments; ++k) {
        const double r = f.radius(k), angle = centre - half_angle(gear, r);
        const glm::dvec2 normal = flank_normal(f, r, angle, -1);
        out.push_back({polar(r, angle), normal, normal});
    }
    add_arc(out, f.tip, centre - tip, centre + tip, f.tip_segments,
            flank_normal(f, f.tip, centre - tip, -1));
    out.push_back({polar(f.tip, centre + tip), polar(1, centre + tip),
                   flank_normal(f, f.tip, centre + tip, 1)});
    for (int k = f.segments - 1; k >= 1; --k) {
        const double r = f.radius(k), angle = centre + half_angle(gear, r);
        const glm::dvec2 normal = flank_normal(f, r, angle, 1);
        out.push_back({polar(r, angle), normal, normal});
    }
    const glm::dvec2 last_normal = flank_normal(f, f.foot, second, 1);
    if (radial) out.push_back({polar(f.foot, second), last_normal, second_side});
    const double next = centre + 2 * pi / gear.teeth - foot;
    add_arc(out, f.root, second, next, f.root_segments, radial ? second_side : last_normal);
}

}  // namespace

GearRadii gear_radii(const Gear& gear) {
    const Flank f = flank_of(gear, 1.0);
    return {f.root, f.base, f.foot, f.tip};
}

Outline gear_outline(const Gear& gear, double chord_error) {
    const Flank f = flank_of(gear, chord_error);
    Outline out;
    out.reserve(static_cast<std::size_t>(gear.teeth) *
                (2 * f.segments + f.tip_segments + f.root_segments + 4));
    for (int tooth = 0; tooth < gear.teeth; ++tooth)
        add_tooth(out, gear, f, pi / 2 + 2 * pi * tooth / gear.teeth);
    return out;
}

double gear_chord_error(const Gear& gear, double chord_error) {
    const Flank f = flank_of(gear, chord_error);
    const double tip_angle = 2 * half_angle(gear, f.tip);
    const double root_angle = 2 * pi / gear.teeth - 2 * half_angle(gear, f.foot);
    return std::max({f.involute_error(), sagitta(f.tip, f.tip_segments * 2 * pi / tip_angle),
                     sagitta(f.root, f.root_segments * 2 * pi / root_angle)});
}

std::vector<glm::dvec2> tooth_outline(const Gear& gear, double chord_error) {
    std::vector<glm::dvec2> points;
    const Outline outline = gear_outline(gear, chord_error);
    points.reserve(outline.size());
    for (const OutlinePoint& point : outline) points.push_back(point.at);
    return points;
}

}  // namespace podwright
