#include "bench/views.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <variant>
#include <vector>

namespace podwright {

namespace {

const std::vector<NamedView>& all_views() {
    static const std::vector<NamedView> views = {
        {"axle",
         "the whole axle, from the front left",
         1,
         33,
         21,
         {"width.overall", "width.track", "ride.", "mesh."},
         {}},
        {"left",
         "the left end",
         2,
         52,
         20,
         {"ride.left", "left.", "float."},
         {"left.tyre", "left.wheel", "left.screws"}},
        {"right",
         "the right end, with the gears",
         3,
         -48,
         22,
         {"ride.right", "right.", "mesh."},
         {"right.tyre", "right.wheel", "right.screws"},
         false},
        {"rear",
         "from behind, with the ground line",
         4,
         180,
         4,
         {"width.", "ride.", "left.", "right."},
         {},
         true,
         true},
        {"top", "from above", 5, 180, 89, {"width.", "left.", "right."}, {}, true, true},
        {"mesh",
         "along the axle, pinion and spur",
         6,
         -84,
         7,
         {"mesh."},
         {"right.tyre", "right.wheel", "right.screws"}},
        {"float",
         "the gap at the left hub",
         7,
         20,
         24,
         {"left.shims", "float."},
         {"left.tyre", "left.wheel", "left.screws"}},
        {"section",
         "the axle cut along its middle",
         8,
         0,
         3,
         {"width.overall", "width.track", "left.", "right."},
         {},
         true,
         true},
    };
    return views;
}

using Points = std::vector<glm::dvec3>;

/// Points all round a wheel-sized disc about the axle at `y`.
void add_disc(Points& points, const Evaluation& e, double y, double radius) {
    constexpr int around = 12;
    for (int i = 0; i < around; ++i) {
        const double angle = 2 * pi * i / around;
        points.emplace_back(radius * std::cos(angle), y,
                            e.stance.axle_z(y) + radius * std::sin(angle));
    }
}

double tyre_radius(const Evaluation& e) {
    return std::max(e.stance.left.rolling, e.stance.right.rolling);
}

/// Corners of the pod's floor, where it is not a mesh of the user's.
void add_floor(Points& points, const Evaluation& e, double spread) {
    const Part* part = e.assembly.find("pod.floor");
    if (part == nullptr) return;
    for (const Body& body : part->bodies)
        if (const auto* plate = std::get_if<Extruded>(&body.solid))
            for (const Corner& corner : plate->outline)
                points.emplace_back(part->explode * spread +
                                    glm::dvec3(part->place * body.place *
                                               glm::dvec4(0, corner.at.x, corner.at.y, 1)));
}

/// Both wheels where the exploded view has them, the pod's front and the outermost dimension line,
/// which stands off the tyres on the side of `lines`.
Points whole(const Evaluation& e, double spread, const glm::dvec3& lines) {
    const auto pulled = [&](const char* key) {
        const Part* part = e.assembly.find(key);
        return part ? part->explode.y * spread : 0.0;
    };
    Points points;
    for (double y :
         {e.stack.left.outer + pulled("left.tyre"), -e.stack.right.outer + pulled("right.tyre")}) {
        add_disc(points, e, y, tyre_radius(e));
        points.push_back(glm::dvec3(0, y, e.stance.axle_in_pod) + lines * (tyre_radius(e) + 44));
    }
    const double front = e.assembly.motor_point.x + 36;
    points.emplace_back(front, 32, -e.stance.ride);
    points.emplace_back(front, -32, -e.stance.ride);
    add_floor(points, e, spread);
    return points;
}

Points one_end(const Evaluation& e, Side side) {
    const double sign = side == Side::left ? 1 : -1;
    const SideStack& s = e.stack.side(side);
    Points points;
    add_disc(points, e, sign * s.outer, tyre_radius(e));
    add_disc(points, e, sign * (s.bearing - 14), tyre_radius(e));
    points.emplace_back(0, sign * s.mounting, e.stance.axle_in_pod + tyre_radius(e) + 26);
    return points;
}

Points about_mesh(const Evaluation& e) {
    Points points;
    const double y = -e.drive.gear_u;
    add_disc(points, e, y, diameters(e.drive.spur).outside / 2 + 4);
    const double pinion = diameters(e.drive.pinion).outside / 2 + 3;
    // The dimension of the centre distance stands above both.
    points.emplace_back(0, y, e.stance.axle_z(y) + diameters(e.drive.spur).outside / 2 + 12);
    for (double z : {-pinion, pinion})
        points.push_back(e.assembly.motor_point + glm::dvec3(pinion, 0, z));
    return points;
}

/// What should be in the picture.
Points points_of(std::string_view name, const Evaluation& e, double spread) {
    const glm::dvec3 above(0, 0, 1);
    const glm::dvec3 behind(-1, 0, 0);
    if (name == "axle") return whole(e, spread, above);
    if (name == "left") return one_end(e, Side::left);
    if (name == "right") return one_end(e, Side::right);
    if (name == "rear") return whole(e, spread, above);
    if (name == "top") return whole(e, spread, behind);
    if (name == "mesh") return about_mesh(e);
    if (name == "float") {
        Points points;
        add_disc(points, e, e.stack.left.bearing - 9, 13);
        add_disc(points, e, e.stack.left.thrust + 13, 13);
        return points;
    }
    if (name == "section") return whole(e, spread, above);
    throw std::out_of_range("no view called " + std::string(name));
}

Camera turned_to(const NamedView& view) {
    Camera camera;
    camera.azimuth = radians(view.azimuth);
    camera.elevation = radians(view.elevation);
    if (view.flat) camera.field_of_view = radians(6);
    return camera;
}

/// Moves the camera, without turning it, so that the points fill most of the tighter direction of
/// what the margins leave free, and stand in its middle.
Camera fitted(Camera camera, const Points& points, const Composition& c) {
    constexpr double fill = 0.92;
    const glm::dvec3 right = camera.right();
    const glm::dvec3 up = camera.up();
    const glm::dvec3 back = glm::normalize(camera.eye() - camera.target);
    const double tall = std::tan(camera.field_of_view / 2);
    // Middle and half size of what is free; the whole picture is -1 to 1 both ways.
    const glm::dvec2 centre(c.left_margin - c.right_margin, c.bottom_margin - c.top_margin);
    const glm::dvec2 room(1 - c.left_margin - c.right_margin, 1 - c.bottom_margin - c.top_margin);
    camera.target = points.front();
    camera.distance = 90 / tall;
    for (int i = 0; i < 12; ++i) {
        glm::dvec2 low{1e300};
        glm::dvec2 high{-1e300};
        for (const glm::dvec3& point : points) {
            const glm::dvec3 d = point - camera.target;
            const double depth = std::max(1.0, camera.distance - glm::dot(d, back));
            const glm::dvec2 at =
                glm::dvec2(glm::dot(d, right) / c.aspect, glm::dot(d, up)) / (depth * tall);
            low = glm::min(low, at);
            high = glm::max(high, at);
        }
        const glm::dvec2 off = (low + high) / 2.0 - centre;
        const glm::dvec2 half = (high - low) / 2.0 / room;
        camera.target += (right * (off.x * c.aspect) + up * off.y) * (camera.distance * tall);
        camera.distance *= std::max(half.x, half.y) / fill;
    }
    return camera;
}

}  // namespace

std::span<const NamedView> named_views() { return all_views(); }

const NamedView& named_view(std::string_view name) {
    for (const NamedView& view : all_views())
        if (view.name == name) return view;
    throw std::out_of_range("no view called " + std::string(name));
}

bool shows_dimension(const NamedView& view, std::string_view dimension) {
    return std::any_of(view.dimensions.begin(), view.dimensions.end(), [&](std::string_view start) {
        return dimension.substr(0, start.size()) == start;
    });
}

Camera camera_of(std::string_view name, const Evaluation& evaluation,
                 const Composition& composition) {
    return fitted(turned_to(named_view(name)), points_of(name, evaluation, composition.spread),
                  composition);
}

bool stands_beside(double aspect) { return aspect > 1.3; }

Composition composed(const NamedView& view, double aspect, double spread, bool words) {
    Composition c;
    c.aspect = aspect;
    c.spread = spread;
    if (!words) return c;
    c.top_margin = 0.08;
    c.bottom_margin = 0.09;
    if (!view.loupe || spread > 0) return c;
    const bool left_is_left = turned_to(view).right().y < 0;
    if (stands_beside(aspect))
        (left_is_left ? c.left_margin : c.right_margin) = 0.36 / aspect;
    else
        c.top_margin = 0.06 + 0.28 * std::min(aspect, 1.0);
    return c;
}

Composition composed_for_load(const NamedView& view, double aspect, double spread, bool words) {
    NamedView without_loupe = view;
    without_loupe.loupe = false;
    Composition c = composed(without_loupe, aspect, spread, words);
    constexpr double ribbon = 0.1;  // what hangs below the wheels
    c.bottom_margin += ribbon;
    return c;
}

bool wants_cut(std::string_view name) { return name == "section"; }

Camera looking_at(const Camera& from, const glm::dvec3& centre, double radius, double aspect) {
    return framed(from, centre, std::max(radius, 4.0), aspect);
}

Camera between(const Camera& a, const Camera& b, double t) {
    Camera camera = b;
    camera.target = a.target + (b.target - a.target) * t;
    camera.azimuth = a.azimuth + std::remainder(b.azimuth - a.azimuth, 2 * pi) * t;
    camera.elevation = a.elevation + (b.elevation - a.elevation) * t;
    camera.field_of_view = a.field_of_view + (b.field_of_view - a.field_of_view) * t;
    // What is looked at grows or shrinks evenly, however wide the angle.
    const auto half = [](const Camera& of) { return std::tan(of.field_of_view / 2); };
    const double from = a.distance * half(a);
    const double to = b.distance * half(b);
    camera.distance = from * std::pow(to / from, t) / half(camera);
    return camera;
}

}  // namespace podwright
