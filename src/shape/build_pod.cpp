#include <algorithm>
#include <array>
#include <cmath>

#include "shape/builders.hpp"
#include "shape/loops.hpp"

// Pod plates, posts and floor. Outlines are drawn in (forward, up) and (forward, left).
namespace podwright {

namespace {

struct Line {
    glm::dvec2 a, b;
};

double distance(const glm::dvec2& p, const Line& line) {
    const glm::dvec2 way = line.b - line.a;
    const double share = std::clamp(glm::dot(p - line.a, way) / glm::dot(way, way), 0.0, 1.0);
    return glm::length(p - line.a - way * share);
}

/// What the plates are shaped round, in (forward, up).
struct Layout {
    Line boss_slot;  ///< of the motor's axis
    std::array<Line, 2> screw_slots;
    double boss, screw;              ///< half widths of the slots
    double can_low_x, can_high_x;    ///< of the can at both ends of its slot
    double can_low_z;                ///< lowest point of the can
    std::array<Circle, 2> posts;     ///< rear and front
    std::array<bool, 2> post_clear;  ///< of the can
    double low_x, high_x;            ///< of the plates
    Loop plate;
};

constexpr double post_radius = 2.5, post_margin = 2.0;

Layout layout_of(const Build& build) {
    const Setup& setup = build.setup;
    const Pod& pod = setup.pod;
    const Motor& motor = setup.motor;
    const double can = motor.can_diameter / 2, floor = pod.floor_thickness;
    const double bore = pod.bore_diameter / 2;
    Layout l{};
    const SlotPoint start = slot_point(motor, 0), end = slot_point(motor, motor.slot_length);
    l.boss_slot = {{start.x, start.z}, {end.x, end.z}};
    const glm::dvec2 square = glm::dvec2(-std::sin(motor.slot_angle), std::cos(motor.slot_angle)) *
                              build.sizes.motor.screws;
    l.screw_slots = {{{l.boss_slot.a + square, l.boss_slot.b + square},
                      {l.boss_slot.a - square, l.boss_slot.b - square}}};
    l.boss = build.sizes.motor.boss_slot;
    l.screw = build.sizes.motor.screw_slot;
    l.can_low_x = std::min(start.x, end.x) - can;
    l.can_high_x = std::max(start.x, end.x) + can;
    l.can_low_z = std::min(start.z, end.z) - can;

    // One post beyond the can, one beyond the bearings.
    const double ahead = start.x + end.x >= 0 ? 1 : -1;
    const double beyond_can = ahead > 0 ? l.can_high_x : -l.can_low_x;
    const double low_post = floor + post_radius + post_margin;
    l.posts = {{{{-ahead * (bore + 6), std::max(low_post, pod.bore_height)}, post_radius},
                {{ahead * std::max(bore + 6, beyond_can + 4), low_post}, post_radius}}};
    for (std::size_t i = 0; i < 2; ++i)
        l.post_clear[i] = distance(l.posts[i].centre, l.boss_slot) > can + post_radius + 0.5;

    std::array<Circle, 11> round{};
    std::size_t n = 0;
    round[n++] = {{0, pod.bore_height}, bore + 4};
    for (const glm::dvec2& p : {l.boss_slot.a, l.boss_slot.b}) round[n++] = {p, l.boss + 3};
    for (const Line& s : l.screw_slots)
        for (const glm::dvec2& p : {s.a, s.b}) round[n++] = {p, l.screw + 2.5};
    for (const Circle& p : l.posts) {
        round[n++] = {p.centre, post_radius + post_margin};
        round[n++] = {{p.centre.x, floor + 2}, 2};
    }
    l.plate = hull({round.data(), n});
    l.low_x = 1e9, l.high_x = -1e9;
    for (std::size_t i = 0; i < n; ++i) {
        l.low_x = std::min(l.low_x, round[i].centre.x - round[i].radius);
        l.high_x = std::max(l.high_x, round[i].centre.x + round[i].radius);
    }
    return l;
}

/// A round opening between the motor and the far post, as large as the rest of the plate allows;
/// nothing if that is small.
Circle lightening_hole(const Layout& l, const Pod& pod) {
    const auto nearer = [&](const glm::dvec2& a, const glm::dvec2& b) {
        const glm::dvec2 post = l.posts[1].centre;
        return glm::length(a - post) < glm::length(b - post) ? a : b;
    };
    const glm::dvec2 centre = (nearer(l.boss_slot.a, l.boss_slot.b) + l.posts[1].centre) * 0.5;
    double room =
        std::min({centre.y - pod.floor_thickness, glm::length(centre - l.posts[1].centre) - 4,
                  glm::length(centre - glm::dvec2(0, pod.bore_height)) - pod.bore_diameter / 2});
    room = std::min(room, distance(centre, l.boss_slot) - l.boss);
    for (const Line& s : l.screw_slots) room = std::min(room, distance(centre, s) - l.screw);
    for (std::size_t i = 0; i < l.plate.size(); ++i)
        if (l.plate[i].bulge == 0)
            room = std::min(
                room, distance(centre, {l.plate[i].at, l.plate[(i + 1) % l.plate.size()].at}));
    return {centre, std::min(room - 2.5, 8.0)};
}

void add_plate(Build& build, Side side, const Layout& l) {
    const Pod& pod = build.setup.pod;
    const bool right = side == Side::right;
    Part& part = add_part(build, right ? "pod.right" : "pod.left", side_title(side, "pod plate"),
                          Moves::pod, pod_frame(side, pod.plate_inner, 0, 0));
    Extruded plate{right ? l.plate : mirrored(l.plate), {}, pod.plate_thickness};
    const auto cut = [&](const Loop& outline) {
        plate.holes.push_back(reversed(right ? outline : mirrored(outline)));
    };
    plate.holes.reserve(5);
    cut(circle({0, pod.bore_height}, pod.bore_diameter / 2));
    cut(slot(l.boss_slot.a, l.boss_slot.b, l.boss));
    if (right)
        for (const Line& s : l.screw_slots) cut(slot(s.a, s.b, l.screw));
    const Circle light = lightening_hole(l, pod);
    if (light.radius > 1.5) cut(circle(light.centre, light.radius));
    part.bodies.reserve(3);
    const Look look = look_of(build.setup.materials.plates, Look::aluminium, Look::black_plastic);
    part.bodies.push_back({std::move(plate), glm::dmat4(1.0), look});
    const double scale = 0.8;
    for (std::size_t i = 0; i < 2; ++i) {
        if (!l.post_clear[i]) continue;
        const glm::dvec2 at = l.posts[i].centre;
        part.bodies.push_back(
            {Imported{"cap_screw"},
             shift(pod.plate_thickness, right ? at.x : -at.x, at.y) * scaled(scale),
             Look::dark_steel, Detail::screw});
    }
    build.order(side).push_back(
        {build.out.parts.size() - 1, pod.plate_inner, build.sizes.plate_outer + 3 * scale});
}

void add_posts(Build& build, const Layout& l) {
    if (!l.post_clear[0] && !l.post_clear[1]) return;
    const double half = build.setup.pod.plate_inner;
    Part& part =
        add_part(build, "pod.posts", "pod posts", Moves::pod, pod_frame(Side::left, 0, 0, 0));
    part.bodies.reserve(2);
    const double r = post_radius, waist = 0.7 * r, neck = std::min(4.0, half / 3);
    for (std::size_t i = 0; i < 2; ++i) {
        if (!l.post_clear[i]) continue;
        const glm::dvec2 at = l.posts[i].centre;
        part.bodies.push_back({Revolved{straight({{-half, 0},
                                                  {half, 0},
                                                  {half, r},
                                                  {half - neck, r},
                                                  {half - neck - 1, waist},
                                                  {-half + neck + 1, waist},
                                                  {-half + neck, r},
                                                  {-half, r}})},
                               shift(0, -at.x, at.y), Look::aluminium});
    }
}

/// Half the width (forward) of the opening that the can needs in the floor, or of a lightening
/// window where it stays clear.
double window_half_width(const Build& build, const Layout& l) {
    const double can = build.setup.motor.can_diameter / 2;
    const double clear = build.setup.pod.floor_thickness + 0.8;
    const double deepest = l.can_low_z + can;  // of the motor's axis
    if (l.can_low_z >= clear) return 0.45 * can;
    if (deepest <= clear) return can + 0.5;
    const double up = deepest - clear;
    return std::sqrt(can * can - up * up) + 0.5;
}

void add_floor(Build& build, const Layout& l) {
    const Pod& pod = build.setup.pod;
    const Motor& motor = build.setup.motor;
    const double can = motor.can_diameter / 2, edge = build.sizes.plate_outer;
    const double low = l.low_x - 1, high = l.high_x + 9;
    // x of the floor's frame is up, y forward, z left.
    const glm::dmat4 place{glm::dvec4(0, 0, 1, 0), glm::dvec4(1, 0, 0, 0), glm::dvec4(0, 1, 0, 0),
                           glm::dvec4(0, 0, 0, 1)};
    Part& part = add_part(build, "pod.floor", "pod floor", Moves::pod, place);
    Extruded plate{rounded_rectangle({low, -edge}, {high, edge}, 3), {}, pod.floor_thickness};
    plate.holes.reserve(6);

    const double half = window_half_width(build, l);
    const double from = l.can_low_x + can - half, to = l.can_high_x - can + half;
    const double end = std::min(motor.can_length - pod.plate_inner + 1, pod.plate_inner - 2);
    plate.holes.push_back(reversed(rounded_rectangle({from, -pod.plate_inner}, {to, end}, 1.5)));

    for (const double y : {-0.6, 0.0, 0.6})
        plate.holes.push_back(circle_hole({high - 4.5, y * edge}, 1.6));
    const double rear = low + 4;  // a slot between the rear edge and the window
    const double room = std::min(from - 4, high - 12) - rear;
    if (room > 5) {
        const double radius = std::min(3.5, room / 2);
        const double x = rear + std::min(room / 2, 2 * radius);
        plate.holes.push_back(reversed(slot({x, -0.55 * edge}, {x, 0.55 * edge}, radius)));
    }
    const Look look = look_of(build.setup.materials.floor, Look::aluminium, Look::black_plastic);
    part.bodies.push_back({std::move(plate), glm::dmat4(1.0), look});
}

}  // namespace

void add_pod(Build& build) {
    const Layout layout = layout_of(build);
    for (const Side side : both_sides) add_plate(build, side, layout);
    add_posts(build, layout);
    add_floor(build, layout);
}

}  // namespace podwright
