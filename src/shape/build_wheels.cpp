#include <algorithm>
#include <cmath>

#include "shape/builders.hpp"
#include "shape/loops.hpp"
#include "shape/spur_proportions.hpp"

// Hub, gear carrier, wheels, tyres and wheel screws.
namespace podwright {

namespace {

constexpr double boss_depth = 0.6;                     // of the thrust boss, mm
constexpr double spigot_length = 2.0;                  // into the wheel, less than its web
constexpr double fillet_bulge = -0.41421356237309503;  // a quarter turn to the right

/// Outline of the wheel flange, spigot and barrel from the spigot's end inboard to `barrel_end`;
/// the caller closes it.
Loop flange_profile(double reach, double bore, const WheelProportions& w, double flange,
                    double barrel_end) {
    const double end = reach + spigot_length;
    const double fillet =
        std::clamp(std::min(w.flange - w.hub - 0.4, reach - flange - barrel_end - 0.1), 0.0, 1.5);
    Loop loop{{{end, bore}, 0},
              {{end, w.spigot - 0.3}, 0},
              {{end - 0.3, w.spigot}, 0},
              {{reach, w.spigot}, 0},
              {{reach, w.flange - 0.3}, 0},
              {{reach - 0.3, w.flange}, 0},
              {{reach - flange + 0.3, w.flange}, 0},
              {{reach - flange, w.flange - 0.3}, 0}};
    if (fillet > 0.05) {
        loop.push_back({{reach - flange, w.hub + fillet}, fillet_bulge});
        loop.push_back({{reach - flange - fillet, w.hub}, 0});
    } else {
        loop.push_back({{reach - flange, w.hub}, 0});
    }
    return loop;
}

/// Ring slit at the top (z), with ears for a clamp screw if `ear` > 0.
Loop slit_ring(double bore, double outside, double half_slit, double ear_width, double ear) {
    const double inner = std::acos(half_slit / bore);
    const double bore_bulge = -std::tan((inner + pi / 2) / 4);
    const double foot = ear > 0 ? half_slit + ear_width : half_slit;
    const double outer = std::acos(foot / outside);
    const double outer_bulge = std::tan((outer + pi / 2) / 4);
    const double low = std::sqrt(bore * bore - half_slit * half_slit);
    const double top = outside + ear, side = std::sqrt(outside * outside - foot * foot);
    Loop loop;
    loop.reserve(14);
    if (ear > 0)
        loop.push_back({{half_slit, top}, 0});
    else
        loop.push_back({{half_slit, side}, 0});
    loop.push_back({{half_slit, low}, bore_bulge});
    loop.push_back({{0, -bore}, bore_bulge});
    loop.push_back({{-half_slit, low}, 0});
    if (ear > 0) {
        const double c = 0.5;
        loop.push_back({{-half_slit, top}, 0});
        loop.push_back({{-foot + c, top}, 0});
        loop.push_back({{-foot, top - c}, 0});
    }
    loop.push_back({{-foot, side}, outer_bulge});
    loop.push_back({{0, -outside}, outer_bulge});
    if (ear > 0) {
        const double c = 0.5;
        loop.push_back({{foot, side}, 0});
        loop.push_back({{foot, top - c}, 0});
        loop.push_back({{foot - c, top}, 0});
    }
    return loop;
}

/// Openings of the wheel's web outside the flange.
void add_openings(std::vector<Loop>& holes, double inner, double outer) {
    if (outer - inner < 1.2) return;
    const int count = 6;
    const double middle = (inner + outer) / 2, pitch = 2 * pi / count;
    const bool narrow = outer - inner < 0.45 * middle;
    for (int i = 0; i < count; ++i) {
        const double angle = pitch * i;
        if (narrow) {
            holes.push_back(
                reversed(kidney(inner, outer, angle - 0.42 * pitch, angle + 0.42 * pitch)));
        } else {
            const double radius = std::min((outer - inner) / 2, 0.8 * middle * std::sin(pitch / 2));
            holes.push_back(
                circle_hole({middle * std::cos(angle), middle * std::sin(angle)}, radius));
        }
    }
}

Extruded wheel_web(const WheelProportions& w) {
    Extruded web{circle({0, 0}, w.rim_inside), {}, w.web};
    web.holes.reserve(8);
    web.holes.push_back(circle_hole({0, 0}, w.spigot));
    add_openings(web.holes, w.flange + 0.5, w.rim_inside - 0.9);
    return web;
}

/// The rim's barrel about its middle, with a bead inside at each end.
Loop barrel_profile(double outside, double inside, double length) {
    const double h = length / 2, c = 0.3, bead = inside - 0.6;
    return straight({{-h + c, bead},
                     {-h + 1.2, bead},
                     {-h + 1.8, inside},
                     {h - 1.8, inside},
                     {h - 1.2, bead},
                     {h - c, bead},
                     {h, bead + c},
                     {h, outside - c},
                     {h - c, outside},
                     {-h + c, outside},
                     {-h, outside - c},
                     {-h, bead + c}});
}

Loop tyre_profile(double inside, double outside, double width) {
    const double h = width / 2, c = std::min(1.2, (outside - inside) / 3);
    const double quarter = -fillet_bulge;
    return {{{-h, inside}, 0},
            {{h, inside}, 0},
            {{h, outside - c}, quarter},
            {{h - c, outside}, 0},
            {{-h + c, outside}, quarter},
            {{-h, outside - c}, 0}};
}

void add_tyre(Build& build, Side which) {
    const AxleSide& side = build.setup.side(which);
    const SideStack& stack = build.stack.side(which);
    const double width = side.tyre.width;
    std::string title = side_title(which, "tyre ");
    title.append(short_number(side.tyre.diameter)).append(" mm");
    Part& part = add_part(build, side_key(which, "tyre"), std::move(title), Moves::axle,
                          axle_frame(build, which, stack.wheel));
    part.bodies.push_back(
        {Revolved{tyre_profile(side.rim_diameter / 2, side.tyre.diameter / 2, width)},
         glm::dmat4(1.0), Look::foam});
    build.order(which).push_back(
        {build.out.parts.size() - 1, stack.wheel - width / 2, stack.wheel + width / 2});
}

void add_screws(Build& build, Side which, const WheelProportions& w) {
    const double u = build.stack.side(which).mounting + w.web;
    Part& part = add_part(build, side_key(which, "screws"), side_title(which, "wheel screws"),
                          Moves::axle, axle_frame(build, which, u));
    part.bodies.reserve(4);
    for (int i = 0; i < 4; ++i) {
        const double angle = pi / 4 + pi / 2 * i;
        part.bodies.push_back(
            {Imported{"cap_screw"},
             shift(0, w.bolt_circle * std::cos(angle), w.bolt_circle * std::sin(angle)) *
                 scaled(w.screw_scale),
             Look::dark_steel, Detail::screw});
    }
    build.order(which).push_back(
        {build.out.parts.size() - 1, u - 6 * w.screw_scale, u + 3 * w.screw_scale});
}

}  // namespace

void add_hub(Build& build) {
    const double reach = build.setup.left.reach, bore = build.setup.axle.diameter / 2;
    const WheelProportions w = wheel_proportions(build.setup, Side::left);
    const double boss = std::min(build.sizes.shim, w.hub - 0.3);
    const double flange = std::min(2.5, 0.3 * reach);
    const double clamp_end = boss_depth + std::min(7.0, 0.4 * reach);
    const double half_slit = std::min(0.4, bore / 3);
    const double ear_width = std::min(2.6, 0.8 * w.hub - half_slit), ear = 3.2;

    const double u = build.stack.left.thrust;
    Part& part =
        add_part(build, "left.hub", "left hub", Moves::axle, axle_frame(build, Side::left, u));
    part.bodies.reserve(4);
    const Look look = look_of(build.setup.materials.hub, Look::anodised, Look::black_plastic);
    Loop barrel = flange_profile(reach, bore, w, flange, clamp_end);
    barrel.push_back({{clamp_end, w.hub}, 0});
    barrel.push_back({{clamp_end, bore}, 0});
    part.bodies.push_back({Revolved{std::move(barrel)}, glm::dmat4(1.0), look});
    part.bodies.push_back(
        {Extruded{slit_ring(bore, boss, half_slit, 0, 0), {}, boss_depth}, glm::dmat4(1.0), look});
    part.bodies.push_back(
        {Extruded{slit_ring(bore, w.hub, half_slit, ear_width, ear), {}, clamp_end - boss_depth},
         shift(boss_depth), look});
    const double scale = std::min(0.5, (clamp_end - boss_depth) / 5.5);
    const glm::dmat4 across{
        glm::dvec4(0, 1, 0, 0), glm::dvec4(-1, 0, 0, 0), glm::dvec4(0, 0, 1, 0),
        glm::dvec4((boss_depth + clamp_end) / 2, half_slit + ear_width, w.hub + ear / 2, 1)};
    part.bodies.push_back(
        {Imported{"cap_screw"}, across * scaled(scale), Look::dark_steel, Detail::screw});
    build.left.push_back({build.out.parts.size() - 1, u, u + reach + spigot_length});
}

void add_carrier(Build& build) {
    const double reach = build.setup.right.reach, bore = build.setup.axle.diameter / 2;
    const WheelProportions w = wheel_proportions(build.setup, Side::right);
    const SpurProportions s = spur_proportions(build);
    const double boss = std::min(build.sizes.shim, w.hub - 0.3);
    const double flange = std::min(2.5, 0.45 * (reach - s.web_high));

    Loop profile = flange_profile(reach, bore, w, flange, s.flange_high);
    profile.insert(profile.end(), {{{s.flange_high, w.hub}, 0},
                                   {{s.flange_high, s.flange - 0.2}, 0},
                                   {{s.flange_high - 0.2, s.flange}, 0},
                                   {{s.web_high, s.flange}, 0},
                                   {{s.web_high, w.hub}, 0},
                                   {{boss_depth + 0.2, w.hub}, 0},
                                   {{boss_depth, w.hub - 0.2}, 0},
                                   {{boss_depth, boss}, 0},
                                   {{0, boss}, 0},
                                   {{0, bore}, 0}});
    const double u = build.stack.right.thrust;
    Part& part =
        add_part(build, "carrier", "gear carrier", Moves::axle, axle_frame(build, Side::right, u));
    part.bodies.push_back(
        {Revolved{std::move(profile)}, glm::dmat4(1.0),
         look_of(build.setup.materials.carrier, Look::anodised, Look::black_plastic)});
    build.right.push_back({build.out.parts.size() - 1, u, u + reach + spigot_length});
}

void add_wheel(Build& build, Side which) {
    const AxleSide& side = build.setup.side(which);
    const WheelProportions w = wheel_proportions(build.setup, which);
    const double length = side.tyre.width - 1, u = build.stack.side(which).mounting;
    std::string title = side_title(which, "wheel, inset ");
    title.append(short_number(side.inset)).append(" mm");
    Part& part = add_part(build, side_key(which, "wheel"), std::move(title), Moves::axle,
                          axle_frame(build, which, u));
    part.bodies.reserve(2);
    const Look look = look_of(build.setup.materials.wheels, Look::aluminium, Look::black_plastic);
    part.bodies.push_back({Revolved{barrel_profile(side.rim_diameter / 2, w.rim_inside, length)},
                           shift(-side.inset), look});
    part.bodies.push_back({wheel_web(w), glm::dmat4(1.0), look});
    build.order(which).push_back(
        {build.out.parts.size() - 1, u - side.inset - length / 2, u - side.inset + length / 2});
    add_tyre(build, which);
    add_screws(build, which, w);
}

}  // namespace podwright
