#include "shape/mass_properties.hpp"

#include <array>
#include <cmath>

#include "core/units.hpp"
#include "shape/gear_outline.hpp"

namespace podwright {

namespace {

constexpr double kg_per_mm3 = 1e-6;  // per g/cm³

/// Nodes and weights of Gauss and Legendre on -1..1, the positive half (Abramowitz and Stegun,
/// table 25.4).
struct GaussPoint {
    double at, weight;
};
constexpr std::array<GaussPoint, 4> gauss_8 = {{{0.1834346424956498, 0.3626837833783620},
                                                {0.5255324099163290, 0.3137066458778873},
                                                {0.7966664774136267, 0.2223810344533745},
                                                {0.9602898564975363, 0.1012285362903763}}};

template <class Integrand>
double integral(double from, double to, Integrand f) {
    const double middle = (from + to) / 2, half = (to - from) / 2;
    double sum = 0;
    for (const GaussPoint& g : gauss_8)
        sum += g.weight * (f(middle + half * g.at) + f(middle - half * g.at));
    return sum * half;
}

/// Integrals of a^p b^q over the inside of a loop with coordinates (a, b).
struct AreaMoments {
    double area = 0, a = 0, b = 0, aa = 0, ab = 0, bb = 0;  // p + q <= 2
    double aab = 0, bbb = 0;                                // what a solid of revolution needs
};

/// Adds the part of the boundary integral (Green) at a point that moves by (., db).
void add_boundary(AreaMoments& m, double a, double b, double db) {
    m.area += a * db;
    m.a += a * a / 2 * db;
    m.b += a * b * db;
    m.aa += a * a * a / 3 * db;
    m.ab += a * a / 2 * b * db;
    m.bb += a * b * b * db;
    m.aab += a * a * a / 3 * b * db;
    m.bbb += a * b * b * b * db;
}

void add_line(AreaMoments& m, const glm::dvec2& from, const glm::dvec2& to) {
    // Gauss's rule of three points is exact for the fourth powers that occur.
    const double far = 0.7745966692414834;
    const glm::dvec2 middle = (from + to) / 2.0, half = (to - from) / 2.0;
    for (const GaussPoint& g : {GaussPoint{-far, 5.0 / 9}, {0, 8.0 / 9}, {far, 5.0 / 9}}) {
        const glm::dvec2 at = middle + half * g.at;
        add_boundary(m, at.x, at.y, half.y * g.weight);
    }
}

// In closed form, from the integrals j_ik of x^i y^k over the angle, with x and y from the arc's
// centre: dy = x dt and dx = -y dt, and what is left goes by x² + y² = r².
void add_arc(AreaMoments& m, const glm::dvec2& from, const glm::dvec2& to, double bulge) {
    const glm::dvec2 chord = to - from, left(-chord.y, chord.x);
    const glm::dvec2 c = (from + to) / 2.0 + left * ((1 - bulge * bulge) / (4 * bulge));
    const glm::dvec2 p = from - c, p2 = p * p, p3 = p2 * p, p4 = p2 * p2;
    const glm::dvec2 q = to - c, q2 = q * q, q3 = q2 * q, q4 = q2 * q2;
    const double r2 = glm::dot(p, p), turn = 4 * std::atan(bulge);
    const double j10 = q.y - p.y, j11 = (q2.y - p2.y) / 2;
    const double j12 = (q3.y - p3.y) / 3, j13 = (q4.y - p4.y) / 4;
    const double j21 = (p3.x - q3.x) / 3, j41 = (p4.x * p.x - q4.x * q.x) / 5;
    const double j23 = r2 * j21 - j41, j30 = r2 * j10 - j12, j31 = r2 * j11 - j13;
    const double j20 = (r2 * turn + q.x * q.y - p.x * p.y) / 2;
    const double j40 = (3 * r2 * j20 + q3.x * q.y - p3.x * p.y) / 4, j22 = r2 * j20 - j40;
    // Of a^i x y^k, with a = x + c.x.
    const double a1 = c.x * j10 + j20, a1y = c.x * j11 + j21;
    const double a1yy = c.x * j12 + j22, a1yyy = c.x * j13 + j23;
    const double a2 = c.x * (c.x * j10 + 2 * j20) + j30, a2y = c.x * (c.x * j11 + 2 * j21) + j31;
    const double a3 = c.x * (c.x * (c.x * j10 + 3 * j20) + 3 * j30) + j40;
    const double a3y = c.x * (c.x * (c.x * j11 + 3 * j21) + 3 * j31) + j41;
    m.area += a1;
    m.a += a2 / 2;
    m.b += c.y * a1 + a1y;
    m.aa += a3 / 3;
    m.ab += (c.y * a2 + a2y) / 2;
    m.bb += c.y * (c.y * a1 + 2 * a1y) + a1yy;
    m.aab += (c.y * a3 + a3y) / 3;
    m.bbb += c.y * (c.y * (c.y * a1 + 3 * a1y) + 3 * a1yy) + a1yyy;
}

void add_loop(AreaMoments& m, const Loop& loop) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const glm::dvec2 &from = loop[i].at, &to = loop[(i + 1) % loop.size()].at;
        if (loop[i].bulge == 0)
            add_line(m, from, to);
        else
            add_arc(m, from, to, loop[i].bulge);
    }
}

Moments of(const Revolved& solid) {
    AreaMoments m;
    add_loop(m, solid.profile);
    Moments out;
    out.volume = 2 * pi * m.b;
    out.first = {2 * pi * m.ab, 0, 0};
    out.second[0][0] = 2 * pi * m.aab;
    out.second[1][1] = out.second[2][2] = pi * m.bbb;
    return out;
}

Moments of(const Extruded& solid) {
    AreaMoments m;
    add_loop(m, solid.outline);
    for (const Loop& hole : solid.holes) add_loop(m, hole);
    const double t = solid.thickness;
    Moments out;
    out.volume = m.area * t;
    out.first = {m.area * t * t / 2, m.a * t, m.b * t};
    out.second = {m.area * t * t * t / 3, m.a * t * t / 2, m.b * t * t / 2,  //
                  m.a * t * t / 2,        m.aa * t,        m.ab * t,         //
                  m.b * t * t / 2,        m.ab * t,        m.bb * t};
    return out;
}

Moments of(const ToothedRing& ring) {
    const Gear& gear = ring.gear;
    const GearRadii r = gear_radii(gear);
    const double bore = ring.bore / 2, z = gear.teeth;
    const auto half_angle = [&](double at) { return tooth_thickness(gear, 2 * at) / (2 * at); };
    const double foot_angle = 2 * z * half_angle(r.foot);  // of all teeth together
    double area =
        pi * (r.root * r.root - bore * bore) + foot_angle * (r.foot * r.foot - r.root * r.root) / 2;
    double polar = pi * (std::pow(r.root, 4) - std::pow(bore, 4)) / 2 +
                   foot_angle * (std::pow(r.foot, 4) - std::pow(r.root, 4)) / 4;
    // Over the roll angle t, with r² = rb² (1 + t²), everything is smooth.
    const auto roll = [&](double at) {
        return std::sqrt(std::max(0.0, at * at / (r.base * r.base) - 1));
    };
    const auto flank = [&](int power) {
        return integral(roll(r.foot), roll(r.tip), [&](double t) {
            const double at = r.base * std::sqrt(1 + t * t);
            return 2 * z * half_angle(at) * std::pow(at, power) * r.base * r.base * t;
        });
    };
    area += flank(0);
    polar += flank(2);
    const double f = ring.face;
    Moments out;
    out.volume = area * f;
    out.second[0][0] = area * f * f * f / 12;
    out.second[1][1] = out.second[2][2] = polar * f / 2;
    return out;
}

Moments of(const Box& box) {
    const glm::dvec3 size = box.high - box.low, middle = (box.low + box.high) / 2.0;
    Moments out;
    out.volume = size.x * size.y * size.z;
    out.first = out.volume * middle;
    out.second = out.volume * glm::outerProduct(middle, middle);
    for (int i = 0; i < 3; ++i) out.second[i][i] += out.volume * size[i] * size[i] / 12;
    return out;
}

/// Moments of a solid of revolution about x, as numbers.
Moments about_x(double volume, double first, double along, double across) {
    Moments out;
    out.volume = volume;
    out.first = {first, 0, 0};
    out.second[0][0] = along;
    out.second[1][1] = out.second[2][2] = across;
    return out;
}

}  // namespace

Moments& Moments::operator+=(const Moments& other) {
    volume += other.volume;
    first += other.first;
    second += other.second;
    return *this;
}

Moments moved(const Moments& m, const glm::dmat4& place) {
    const glm::dmat3 a(place);
    const glm::dvec3 b(place[3]);
    const double stretch = std::abs(glm::determinant(a));
    const glm::dvec3 turned = a * m.first;
    Moments out;
    out.volume = stretch * m.volume;
    out.first = stretch * (turned + b * m.volume);
    out.second = stretch * (a * m.second * glm::transpose(a) + glm::outerProduct(turned, b) +
                            glm::outerProduct(b, turned) + m.volume * glm::outerProduct(b, b));
    return out;
}

double polar_moment(const Moments& m, const glm::dvec3& point, const glm::dvec3& direction) {
    glm::dmat4 shift(1.0);
    shift[3] = glm::dvec4(-point, 1);
    const glm::dmat3 s = moved(m, shift).second;
    return s[0][0] + s[1][1] + s[2][2] - glm::dot(direction, s * direction);
}

Moments moments_of(const Mesh& mesh) {
    // Tetrahedra from the origin to each triangle; second moments after Tonon, J. Math. Stat. 1,
    // 2004.
    Moments out;
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        const glm::dvec3 a(mesh.vertices[mesh.triangles[i]].position);
        const glm::dvec3 b(mesh.vertices[mesh.triangles[i + 1]].position);
        const glm::dvec3 c(mesh.vertices[mesh.triangles[i + 2]].position);
        const double volume = glm::dot(a, glm::cross(b, c)) / 6;
        const glm::dvec3 sum = a + b + c;
        out.volume += volume;
        out.first += volume / 4 * sum;
        out.second += volume / 20 *
                      (glm::outerProduct(sum, sum) + glm::outerProduct(a, a) +
                       glm::outerProduct(b, b) + glm::outerProduct(c, c));
    }
    return out;
}

Moments generic_moments(const Imported& solid) {
    // Of the meshes in assets-generic; a test holds these numbers to them.
    if (solid.name == "cap_screw") return about_x(102.294, -38.1018, 637.871, 146.446);
    if (solid.name == "set_screw") return about_x(16.6009, -25.1768, 48.5618, 9.70576);
    return {};
}

Moments moments_of(const Solid& solid, const ImportedMoments& imported) {
    if (const auto* import = std::get_if<Imported>(&solid)) return imported(*import);
    if (const auto* revolved = std::get_if<Revolved>(&solid)) return of(*revolved);
    if (const auto* extruded = std::get_if<Extruded>(&solid)) return of(*extruded);
    if (const auto* ring = std::get_if<ToothedRing>(&solid)) return of(*ring);
    return of(std::get<Box>(solid));
}

Moments Scales::operator()(const Imported& solid) {
    const Moments generic = generic_moments(solid);
    if (generic.volume > 0) return generic;
    const auto [at, is_new] = known_.try_emplace({solid.name, solid.stamp});
    if (is_new) at->second = moments_of(library_(solid.name));
    return at->second;
}

namespace {

double density_of(Material material) { return data(material).density * kg_per_mm3; }

double density_of(const Setup& setup, const Part& part, const Body& body) {
    const double steel = density_of(Material::steel_4140);
    const auto* import = std::get_if<Imported>(&body.solid);
    if (import && generic_moments(*import).volume > 0) return steel;
    const PartMaterials& m = setup.materials;
    const std::string& key = part.key;
    if (key == "axle") return density_of(setup.axle.material);
    if (key == "left.hub") return density_of(m.hub);
    if (key == "carrier") return density_of(m.carrier);
    if (key == "spur") return density_of(m.spur);
    if (key == "pinion") return density_of(m.pinion);
    if (key == "left.wheel" || key == "right.wheel") return density_of(m.wheels);
    if (key == "left.tyre") return setup.left.tyre.density * kg_per_mm3;
    if (key == "right.tyre") return setup.right.tyre.density * kg_per_mm3;
    return body.look == Look::brass ? density_of(Material::brass) : steel;
}

/// The bodies of a part that turn with axle or motor.
std::size_t turning_bodies(const Part& part) {
    if (part.key == "left.bearing" || part.key == "right.bearing") return 1;  // the inner ring
    return part.moves == Moves::axle || part.moves == Moves::ring || part.moves == Moves::motor
               ? part.bodies.size()
               : 0;
}

TurningPart weighed(const Setup& setup, const Part& part, std::size_t bodies,
                    const glm::dvec3& point, const glm::dvec3& direction,
                    const ImportedMoments& imported) {
    Moments sum;  // times density
    for (std::size_t i = 0; i < bodies && i < part.bodies.size(); ++i) {
        const Body& body = part.bodies[i];
        const double density = density_of(setup, part, body);
        Moments m = moved(moments_of(body.solid, imported), part.place * body.place);
        m.volume *= density;
        m.first *= density;
        m.second *= density;
        sum += m;
    }
    TurningPart out;
    out.key = part.key;
    out.mass = sum.volume;
    if (!(out.mass > 0)) return out;
    out.polar = polar_moment(sum, point, direction);
    const glm::dvec3 centre = sum.first / sum.volume;
    out.y = glm::dot(centre - point, direction);
    glm::dmat4 to_centre(1.0);
    to_centre[3] = glm::dvec4(-centre, 1);
    const glm::dmat3 s = moved(sum, to_centre).second;
    const double along = glm::dot(direction, s * direction);
    // Mean of the two diameters: s across is half of what is left, and along counts in full.
    out.transverse = along + (s[0][0] + s[1][1] + s[2][2] - along) / 2;
    return out;
}

}  // namespace

TurningMass turning_mass_of(const Setup& setup, const Stance& stance, const Drive& drive,
                            const Assembly& assembly, const ImportedMoments& imported) {
    TurningMass out;
    out.parts.reserve(assembly.parts.size());
    const glm::dvec3 motor_direction(0, 1, 0);
    for (const Part& part : assembly.parts) {
        const std::size_t bodies = turning_bodies(part);
        if (bodies == 0 || part.key == "blade") continue;
        if (part.moves == Moves::motor)
            out.pinion +=
                weighed(setup, part, bodies, assembly.motor_point, motor_direction, imported).polar;
        else
            out.parts.push_back(weighed(setup, part, bodies, assembly.axle_point,
                                        assembly.axle_direction, imported));
    }
    constexpr double kg_mm2_per_g_cm2 = 0.1;
    out.rotor = setup.motor.rotor_inertia * kg_mm2_per_g_cm2;
    sum_up(out, drive.final_drive, (stance.left.rolling + stance.right.rolling) / 2);
    return out;
}

}  // namespace podwright
