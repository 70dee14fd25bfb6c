#include "shape/builders.hpp"

#include <algorithm>
#include <cmath>

#include "core/text.hpp"

namespace podwright {

Proportions proportions(const Setup& setup) {
    const Bearing& b = setup.bearing;
    Proportions p{};
    p.plate_outer = setup.pod.plate_inner + setup.pod.plate_thickness;
    p.ball_circle = (b.bore + b.outside) / 4;
    p.inner_shoulder = p.ball_circle - 0.3 * b.ball_diameter;
    p.outer_shoulder = p.ball_circle + 0.3 * b.ball_diameter;
    p.bearing_inboard = b.flange_width - b.width;
    // A shim that touched the outer ring would brake it.
    p.shim = std::min(setup.axle.diameter / 2 + 1.5, p.outer_shoulder - 0.1);
    p.motor = motor_shape(setup.motor);
    p.pinion_face = setup.gears.face_width + 1;
    return p;
}

WheelProportions wheel_proportions(const Setup& setup, Side which) {
    const AxleSide& side = setup.side(which);
    const double axle = setup.axle.diameter / 2;
    WheelProportions w{};
    w.hub = side.hub_diameter / 2;
    w.rim_inside = side.rim_diameter / 2 - 1.2;
    w.flange = std::min(w.hub + 4.2, w.rim_inside - 0.8);
    w.spigot = std::max((axle + w.hub) / 2, w.hub - 1.2);
    w.bolt_circle = (w.spigot + w.flange) / 2;
    // The head, 5.5 of a 3 mm screw, stays within the flange.
    w.screw_scale = std::min(0.67, (w.flange - w.spigot - 0.6) / 5.5);
    w.web = 2.5;
    return w;
}

glm::dmat4 axle_frame(const Build& build, Side side, double u) {
    const glm::dvec3 left = build.out.axle_direction;
    const glm::dvec3 up(0, -left.z, left.y);
    const double sign = side == Side::left ? 1 : -1;
    const glm::dvec3 outboard = left * sign;
    const glm::dvec3 origin = build.out.axle_point + outboard * u;
    return {glm::dvec4(outboard, 0), glm::dvec4(-sign, 0, 0, 0), glm::dvec4(up, 0),
            glm::dvec4(origin, 1)};
}

glm::dmat4 pod_frame(Side side, double u, double x, double z) {
    const double sign = side == Side::left ? 1 : -1;
    return {glm::dvec4(0, sign, 0, 0), glm::dvec4(-sign, 0, 0, 0), glm::dvec4(0, 0, 1, 0),
            glm::dvec4(x, sign * u, z, 1)};
}

glm::dmat4 shift(double x, double y, double z) {
    glm::dmat4 m(1.0);
    m[3] = glm::dvec4(x, y, z, 1);
    return m;
}

glm::dmat4 turn_about_x(double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    return {glm::dvec4(1, 0, 0, 0), glm::dvec4(0, c, s, 0), glm::dvec4(0, -s, c, 0),
            glm::dvec4(0, 0, 0, 1)};
}

glm::dmat4 radial_frame(double x, double radius, double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    return {glm::dvec4(0, c, s, 0), glm::dvec4(0, -s, c, 0), glm::dvec4(1, 0, 0, 0),
            glm::dvec4(x, radius * c, radius * s, 1)};
}

glm::dmat4 scaled(double factor) {
    return {glm::dvec4(factor, 0, 0, 0), glm::dvec4(0, factor, 0, 0), glm::dvec4(0, 0, factor, 0),
            glm::dvec4(0, 0, 0, 1)};
}

Look look_of(Material material, Look aluminium, Look plastic) {
    switch (material) {
        case Material::steel_4130:
        case Material::steel_4140: return Look::bright_steel;
        case Material::titanium_6al4v: return Look::dark_steel;
        case Material::aluminium_7075: return aluminium;
        case Material::carbon_tube:
        case Material::carbon_wrapped:
        case Material::carbon_plate: return Look::carbon;
        case Material::brass: return Look::brass;
        case Material::pom:
        case Material::pom_glass:
        case Material::pa66:
        case Material::pa66_glass: return plastic;
    }
    return plastic;
}

std::string side_key(Side side, std::string_view name) {
    std::string key(side == Side::left ? "left." : "right.");
    return key.append(name);
}

std::string side_title(Side side, std::string_view name) {
    std::string title;
    title.reserve(40);
    return title.append(side == Side::left ? "left " : "right ").append(name);
}

std::string short_number(double value) {
    std::string text = fixed(value, 2);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

Part& add_part(Build& build, std::string key, std::string title, Moves moves,
               const glm::dmat4& place) {
    Part& part = build.out.parts.emplace_back();
    part.key = std::move(key);
    part.title = std::move(title);
    part.moves = moves;
    part.place = place;
    return part;
}

}  // namespace podwright
