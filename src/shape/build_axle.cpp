#include <algorithm>
#include <cmath>

#include "core/shaft_loads.hpp"
#include "core/text.hpp"
#include "shape/builders.hpp"
#include "shape/loops.hpp"

// Axle, holders, bearings and shims.
namespace podwright {

namespace {

/// Adds `corner` unless it repeats the last one.
void add_corner(Loop& loop, double x, double r) {
    if (loop.empty() || glm::length(loop.back().at - glm::dvec2(x, r)) > 1e-6)
        loop.push_back({{x, r}, 0});
}

/// Stepped tube, thinner between the feet of its cones.
Loop axle_profile(const Axle& axle, const AxleReach& reach) {
    const auto [low, high, waist_low, waist_high] = reach;
    const double bore = axle.bore / 2, outside = axle.diameter / 2, waist = axle.waist / 2;
    const double chamfer = std::min(0.4, (outside - bore) / 3);
    const double cone = std::abs(outside - waist);
    Loop loop;
    add_corner(loop, low, bore);
    add_corner(loop, high, bore);
    add_corner(loop, high, outside - chamfer);
    add_corner(loop, high - chamfer, outside);
    if (cone > 1e-6) {
        add_corner(loop, waist_high, outside);
        add_corner(loop, waist_high - cone, waist);
        add_corner(loop, waist_low + cone, waist);
        add_corner(loop, waist_low, outside);
    }
    add_corner(loop, low + chamfer, outside);
    add_corner(loop, low, outside - chamfer);
    return loop;
}

/// Lip of the holder: round, with a pointer upward and a notch downward.
Loop lip_outline(double radius) {
    const double point = 0.13, notch = 0.09;  // half angles
    const auto at = [radius](double angle) {
        return glm::dvec2(radius * std::sin(angle), radius * std::cos(angle));
    };
    const double round = std::tan((pi - point - notch) / 4);
    return {{at(-point), round},     {at(-pi + notch), 0}, {{0, -radius + 0.9}, 0},
            {at(pi - notch), round}, {at(point), 0},       {{0, radius + 1.3}, 0}};
}

/// Arrow that points to +z, standing on z = `foot`.
Loop arrow(double foot, double height) {
    const double w = height * 0.7;
    return straight({{-w / 3, foot},
                     {w / 3, foot},
                     {w / 3, foot + height * 0.45},
                     {w, foot + height * 0.45},
                     {0, foot + height},
                     {-w, foot + height * 0.45},
                     {-w / 3, foot + height * 0.45}});
}

/// Ring whose outer surface (or inner one, if `inward`) carries the balls' groove about `middle`.
Loop inner_ring(const Bearing& b, const Proportions& p, double low, double high, double middle) {
    const double half = 0.4 * b.ball_diameter, bore = b.bore / 2, top = p.inner_shoulder;
    const double c = std::min(0.1, (top - bore) / 4);
    return {{{low, bore + c}, 0},      {{low + c, bore}, 0}, {{high - c, bore}, 0},
            {{high, bore + c}, 0},     {{high, top}, 0},     {{middle + half, top}, -0.5},
            {{middle - half, top}, 0}, {{low, top}, 0}};
}

Loop outer_ring(const Bearing& b, const Proportions& p, double middle) {
    const double half = 0.4 * b.ball_diameter, low = p.bearing_inboard, high = b.flange_width;
    const double outside = b.outside / 2, flange = b.flange_diameter / 2, in = p.outer_shoulder;
    const double c = std::min({0.15, (outside - in) / 4, b.flange_width / 4});
    return {{{low, in}, 0},         {{middle - half, in}, -0.5}, {{middle + half, in}, 0},
            {{high, in}, 0},        {{high, flange - c}, 0},     {{high - c, flange}, 0},
            {{0, flange}, 0},       {{0, outside}, 0},           {{low + c, outside}, 0},
            {{low, outside - c}, 0}};
}

}  // namespace

void add_axle(Build& build) {
    const Axle& axle = build.setup.axle;
    const AxleReach reach = axle_reach(build.setup, build.stack);
    Part& part = add_part(build, "axle", "axle " + short_number(axle.diameter) + " mm", Moves::axle,
                          axle_frame(build, Side::left, 0));
    part.bodies.push_back({Revolved{axle_profile(axle, reach)}, glm::dmat4(1.0),
                           look_of(axle.material, Look::aluminium, Look::black_plastic)});
}

void add_holder(Build& build, Side which) {
    const AxleSide& side = build.setup.side(which);
    const Pod& pod = build.setup.pod;
    const Bearing& bearing = build.setup.bearing;
    const bool up = side.holder_way == Way::up;
    std::string title = side_title(which, "holder, step ");
    title.append(short_number(side.holder_step)).append(up ? " mm up" : " mm down");

    // The holder as it is made points up; fitted down it is turned over.
    glm::dmat4 place = pod_frame(which, pod.plate_inner, 0, pod.bore_height);
    if (!up) place = place * turn_about_x(pi);
    Part& part = add_part(build, side_key(which, "holder"), std::move(title), Moves::pod, place);

    const double lip =
        std::max(pod.bore_diameter / 2 + 2, bearing.flange_diameter / 2 + side.holder_step + 0.5);
    const Loop bore = circle_hole({0, side.holder_step}, bearing.outside / 2);
    const double lip_thickness = side.seat - build.sizes.plate_outer;
    const Look look = look_of(build.setup.materials.holders, Look::anodised, Look::black_plastic);
    part.bodies.reserve(3);
    part.bodies.push_back(
        {Extruded{circle({0, 0}, pod.bore_diameter / 2), {bore}, pod.plate_thickness},
         glm::dmat4(1.0), look});
    if (lip_thickness > 1e-3)
        part.bodies.push_back(
            {Extruded{lip_outline(lip), {bore}, lip_thickness}, shift(pod.plate_thickness), look});
    const double foot = side.holder_step + bearing.flange_diameter / 2 + 0.4;
    const double height = lip + 0.7 - foot;
    if (height > 1.2 && lip_thickness > 1e-3)
        part.bodies.push_back({Extruded{arrow(foot, height), {}, 0.25},
                               shift(side.seat - pod.plate_inner), Look::white_plastic});
    build.order(which).push_back({build.out.parts.size() - 1, pod.plate_inner, side.seat + 0.25});
}

void add_bearing(Build& build, Side which) {
    const AxleSide& side = build.setup.side(which);
    const Bearing& b = build.setup.bearing;
    const Proportions& p = build.sizes;
    const glm::dmat4 place = axle_frame(build, which, side.seat);
    Part& part = add_part(build, side_key(which, "bearing"), side_title(which, "bearing"),
                          Moves::pod, place);

    // The outer ring stands square in the holder; a tilted axle tilts the inner ring only.
    const double tilt = which == Side::left ? build.stance.pod_tilt : -build.stance.pod_tilt;
    const double c = std::cos(tilt), s = std::sin(tilt);
    const glm::dmat4 square{glm::dvec4(c, 0, -s, 0), glm::dvec4(0, 1, 0, 0), glm::dvec4(s, 0, c, 0),
                            glm::dvec4(0, 0, 0, 1)};
    const double middle = (p.bearing_inboard + b.flange_width) / 2;
    part.bodies.reserve(4 + static_cast<std::size_t>(b.balls));
    part.bodies.push_back(
        {Revolved{inner_ring(b, p, std::min(p.bearing_inboard, middle - 0.45 * b.ball_diameter),
                             std::max(side.standout, middle + 0.45 * b.ball_diameter), middle)},
         glm::dmat4(1.0), Look::bright_steel});
    part.bodies.push_back({Revolved{outer_ring(b, p, middle)}, square, Look::bright_steel});
    // A shield inboard; outboard it is open and shows the balls in their cage.
    const double shield = 0.15, inboard = p.bearing_inboard + 0.1;
    part.bodies.push_back({Revolved{rectangle({inboard, p.inner_shoulder + 0.08},
                                              {inboard + shield, p.outer_shoulder})},
                           square, Look::dark_steel});
    const double radius = b.ball_diameter / 2, cage = 0.16 * b.ball_diameter;
    const double crown = std::min(middle + 0.62 * radius, b.flange_width - 0.1);
    part.bodies.push_back({Revolved{rectangle({middle - 0.2 * radius, p.ball_circle - cage},
                                              {crown, p.ball_circle + cage})},
                           square, Look::brass});
    const Loop half_disc{{{-radius, 0}, 0}, {{radius, 0}, 1}};
    for (int i = 0; i < b.balls; ++i) {
        const double angle = 2 * pi * i / b.balls;
        part.bodies.push_back({Revolved{half_disc},
                               square * shift(middle, p.ball_circle * std::cos(angle),
                                              p.ball_circle * std::sin(angle)),
                               Look::bright_steel, Detail::ball});
    }
    build.order(which).push_back({build.out.parts.size() - 1, side.seat + p.bearing_inboard,
                                  side.seat + std::max(side.standout, b.flange_width)});
}

void add_shims(Build& build, Side which) {
    const AxleSide& side = build.setup.side(which);
    double u = build.stack.side(which).bearing;
    std::string name = "shim.1";
    for (std::size_t i = 0; i < side.shims.size(); ++i) {
        const double thickness = side.shims[i];
        std::string title = side_title(which, "shim ");
        title.append(fixed(thickness, 2)).append(" mm");
        name.resize(5);
        Part& part = add_part(build, side_key(which, name + std::to_string(i + 1)),
                              std::move(title), Moves::ring, axle_frame(build, which, u));
        part.bodies.push_back(
            {Revolved{rectangle({0, build.setup.axle.diameter / 2}, {thickness, build.sizes.shim})},
             glm::dmat4(1.0), i % 2 == 0 ? Look::brass : Look::bright_steel});
        build.order(which).push_back({build.out.parts.size() - 1, u, u + thickness});
        u += thickness;
    }
}

}  // namespace podwright
