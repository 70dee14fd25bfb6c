#include "shape/gear_outline.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "shape/shape_support.hpp"

using namespace podwright;

namespace {

const Gear gears[] = {
    standard_gear(76, 25.4 / 64, radians(20), Dedendum::fine_pitch),
    standard_gear(34, 25.4 / 64, radians(20), Dedendum::fine_pitch, 0.02),
    standard_gear(20, 0.5, radians(20), Dedendum::full_depth),
    standard_gear(12, 0.5, radians(20), Dedendum::deep),
    standard_gear(120, 0.3, radians(14.5), Dedendum::deep),
    standard_gear(30, 0.8, radians(25), Dedendum::full_depth),
};

/// Where the involute of this flank starts on the base circle, measured from the middle of the
/// tooth: half the tooth's angle on the base circle. From the definition: s / d + inv a, with
/// s = pi m / 2 - thinning and inv a = tan a - a.
double base_half_angle(const Gear& g) {
    const double s = pi * g.module / 2 - g.thinning;
    return s / (g.module * g.teeth) + std::tan(g.pressure_angle) - g.pressure_angle;
}

/// Distance from `p` to the nearest of the gear's flanks along the common normal: two involutes of
/// one base circle are everywhere rb times their angle apart.
double distance_to_flank(const Gear& g, const glm::dvec2& p) {
    const double rb = g.module * g.teeth * std::cos(g.pressure_angle) / 2;
    const double radius = glm::length(p), pressure = std::acos(std::min(1.0, rb / radius));
    const double pitch = 2 * pi / g.teeth;
    const double off = std::abs(std::remainder(std::atan2(p.y, p.x) - pi / 2, pitch));
    return rb * std::abs(off + std::tan(pressure) - pressure - base_half_angle(g));
}

}  // namespace

TEST_CASE("points of the flanks lie on involutes of the base circle") {
    for (const Gear& g : gears) {
        const GearDiameters d = diameters(g);
        const double foot = std::max(d.base, d.root) / 2;
        int on_flank = 0;
        for (const glm::dvec2& p : tooth_outline(g, 0.002)) {
            const double r = glm::length(p);
            CHECK(r >= d.root / 2 - 1e-9);
            CHECK(r <= d.outside / 2 + 1e-9);
            if (r < foot + 1e-9 || r > d.outside / 2 - 1e-9) continue;
            ++on_flank;
            CHECK(distance_to_flank(g, p) < 1e-9);
        }
        CHECK(on_flank >= 2 * g.teeth);
    }
}

TEST_CASE("chords of the flanks stray by no more than the chord error") {
    for (const Gear& g : gears) {
        for (const double e : {0.01, 0.001}) {
            const Outline points = gear_outline(g, e);
            const GearDiameters d = diameters(g);
            double worst = 0;
            for (std::size_t i = 0; i < points.size(); ++i) {
                const glm::dvec2 a = points[i].at, b = points[(i + 1) % points.size()].at;
                const double ra = glm::length(a), rb = glm::length(b);
                const double foot = std::max(d.base, d.root) / 2 - 1e-9;
                for (int k = 1; k < 10; ++k) {
                    const glm::dvec2 p = a + (b - a) * (k / 10.0);
                    if (std::abs(ra - rb) < 1e-9)
                        worst = std::max(worst, ra - glm::length(p));  // root or tip arc
                    else if (ra >= foot && rb >= foot && glm::length(p) >= foot)
                        worst = std::max(worst, distance_to_flank(g, p));
                }
            }
            INFO(g.teeth << " teeth, error " << e << ", measured " << worst);
            CHECK(worst <= gear_chord_error(g, e) * 1.001 + 1e-12);
            CHECK(gear_chord_error(g, e) <= e * (1 + 1e-9));
        }
    }
}

TEST_CASE("a tooth is as thick on the pitch circle as the gear says, one on +z") {
    for (const Gear& g : gears) {
        const std::vector<glm::dvec2> points = tooth_outline(g, 1e-5);
        const double r = g.module * g.teeth / 2;
        // Crossings of the pitch circle next to +z, found on the chords.
        double before = -1e9, after = 1e9;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const glm::dvec2 a = points[i], b = points[(i + 1) % points.size()];
            const double ra = glm::length(a) - r, rb = glm::length(b) - r;
            if ((ra < 0) == (rb < 0)) continue;
            const glm::dvec2 p = a + (b - a) * (ra / (ra - rb));
            const double angle = std::atan2(p.y, p.x) - pi / 2;
            if (std::abs(angle) > pi / g.teeth) continue;
            (angle < 0 ? before : after) = angle;
        }
        // Common definition: s = pi m / 2 less the thinning.
        CHECK((after - before) * r == Approx(pi * g.module / 2 - g.thinning).margin(1e-4));
        CHECK(after == Approx(-before).margin(1e-6));
    }
}

TEST_CASE("the outline's area is that of teeth of the stated thickness") {
    for (const Gear& g : gears) {
        const GearDiameters d = diameters(g);
        const double root = d.root / 2, tip = d.outside / 2, base = d.base / 2;
        // A = pi rf² + integral of z x (tooth's angle) r dr, the angle constant below the base
        // circle (Simpson's rule).
        const auto band = [&](double r) {
            const double pressure = std::acos(std::min(1.0, base / r));
            return g.teeth * 2 * r * (base_half_angle(g) - std::tan(pressure) + pressure);
        };
        const auto simpson = [&](double from, double to) {
            const int n = 2000;
            double sum = band(from) + band(to);
            for (int i = 1; i < n; ++i) sum += band(from + (to - from) * i / n) * (i % 2 ? 4 : 2);
            return sum * (to - from) / n / 3;
        };
        const double split = std::max(root, base);
        const double expected =
            pi * root * root + (split > root ? simpson(root, split) : 0) + simpson(split, tip);
        CHECK(area(tooth_outline(g, 1e-6)) == Approx(expected).epsilon(2e-5));

        const Mesh mesh = mesh_of(ToothedRing{g, 4, 3}, 1e-4, asset_mesh);
        CHECK(open_edges(mesh) == 0);
        CHECK(worst_normal(mesh) > 0.5);
        CHECK(volume(mesh) == Approx(4 * (expected - pi * 2.25)).epsilon(1e-3));
        CHECK(bounds(mesh).low.x == Approx(-2));
        CHECK(bounds(mesh).high.x == Approx(2));
    }
}

TEST_CASE("teeth that would come to a point are cut off, and gaps that would close") {
    for (const Gear& g : {standard_gear(8, 1.0, radians(30), Dedendum::full_depth),
                          standard_gear(160, 0.5, radians(30), Dedendum::deep)}) {
        const std::vector<glm::dvec2> points = tooth_outline(g, 0.001);
        const Mesh mesh = mesh_of(ToothedRing{g, 2, 1}, 0.005, asset_mesh);
        CHECK(open_edges(mesh) == 0);
        CHECK(area(points) > 0);
        // No point of one tooth stands in the place of the next: angles only go forward, but for
        // the fall of the second flank.
        const double half_pitch = pi / g.teeth;
        for (std::size_t i = 0; i + 1 < points.size() / static_cast<std::size_t>(g.teeth); ++i)
            CHECK(std::abs(std::atan2(points[i].y, points[i].x) - pi / 2) < 2 * half_pitch);
    }
}
