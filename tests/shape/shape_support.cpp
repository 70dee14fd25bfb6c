#include "shape/shape_support.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "assets-generic/asset_shapes.hpp"

namespace podwright {

Built::Built(const Setup& from)
    : setup(from),
      stack(stack_of(setup)),
      stance(stance_of(setup, stack)),
      drive(drive_of(setup, stack, stance)),
      assembly(assemble(setup, stack, stance, drive)) {}

const Part& Built::part(std::string_view key) const {
    const Part* found = assembly.find(key);
    if (!found) throw std::out_of_range("no part " + std::string(key));
    return *found;
}

const Mesh& asset_mesh(std::string_view name) {
    static const std::vector<NamedMesh> all = asset_meshes();
    for (const NamedMesh& asset : all)
        if (asset.name == name) return asset.mesh;
    throw std::out_of_range("no asset " + std::string(name));
}

Mesh part_mesh(const Assembly& assembly, const Part& part, const Pose& pose, double chord_error) {
    Mesh mesh;
    const glm::dmat4 place = placed(assembly, part, pose);
    for (const Body& body : part.bodies)
        append(mesh, mesh_of(body.solid, chord_error, asset_mesh), place * body.place);
    return mesh;
}

Reach reach_along(const Mesh& mesh, const glm::dvec3& point, const glm::dvec3& direction) {
    Reach reach{1e300, -1e300};
    for (const Vertex& v : mesh.vertices) {
        const double along = glm::dot(glm::dvec3(v.position) - point, direction);
        reach.low = std::min(reach.low, along);
        reach.high = std::max(reach.high, along);
    }
    return reach;
}

namespace {

double distance_to_line(const glm::dvec2& p, const glm::dvec2& a, const glm::dvec2& b) {
    const glm::dvec2 way = b - a;
    const double share = std::clamp(glm::dot(p - a, way) / glm::dot(way, way), 0.0, 1.0);
    return glm::length(p - (a + way * share));
}

double distance_to_arc(const glm::dvec2& p, const glm::dvec2& a, const glm::dvec2& b,
                       double bulge) {
    // The chord is 2 r sin(sweep / 2); the centre lies r cos(sweep / 2) from it.
    const double sweep = 4 * std::atan(bulge);
    const glm::dvec2 way = b - a;
    const double chord = glm::length(way);
    const double radius = chord / (2 * std::sin(std::abs(sweep) / 2));
    const glm::dvec2 to_left(-way.y / chord, way.x / chord);
    const double off = radius * std::cos(std::abs(sweep) / 2) * (bulge > 0 ? 1 : -1);
    const glm::dvec2 centre = (a + b) * 0.5 + to_left * off;
    const glm::dvec2 from = a - centre, to = p - centre;
    double turn = std::atan2(to.y, to.x) - std::atan2(from.y, from.x);
    if (sweep < 0) turn = -turn;
    turn = std::fmod(turn + 4 * pi, 2 * pi);
    if (turn <= std::abs(sweep)) return std::abs(glm::length(to) - radius);
    return std::min(glm::length(p - a), glm::length(p - b));
}

}  // namespace

double distance_to_loop(const glm::dvec2& p, const Loop& loop) {
    double least = 1e300;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const glm::dvec2 a = loop[i].at, b = loop[(i + 1) % loop.size()].at;
        const double d = loop[i].bulge == 0 ? distance_to_line(p, a, b)
                                            : distance_to_arc(p, a, b, loop[i].bulge);
        least = std::min(least, d);
    }
    return least;
}

double worst_normal(const Mesh& mesh) {
    double worst = 1;
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        const Vertex& a = mesh.vertices[mesh.triangles[i]];
        const Vertex& b = mesh.vertices[mesh.triangles[i + 1]];
        const Vertex& c = mesh.vertices[mesh.triangles[i + 2]];
        const glm::dvec3 across = glm::cross(glm::dvec3(b.position) - glm::dvec3(a.position),
                                             glm::dvec3(c.position) - glm::dvec3(a.position));
        if (glm::length(across) < 1e-7) continue;  // a sliver has no direction in float
        for (const Vertex* v : {&a, &b, &c})
            worst = std::min(worst, glm::dot(glm::normalize(across), glm::dvec3(v->normal)));
    }
    return worst;
}

bool is_finite(const Mesh& mesh) {
    return std::all_of(mesh.vertices.begin(), mesh.vertices.end(), [](const Vertex& v) {
        const glm::vec3 sum = v.position + v.normal;
        return std::isfinite(sum.x) && std::isfinite(sum.y) && std::isfinite(sum.z);
    });
}

bool is_inside(const glm::dvec2& p, const std::vector<glm::dvec2>& polygon) {
    bool inside = false;
    for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
        const glm::dvec2 &a = polygon[i], &b = polygon[j];
        if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
            inside = !inside;
    }
    return inside;
}

double area(const std::vector<glm::dvec2>& polygon) {
    double twice = 0;
    for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++)
        twice += polygon[j].x * polygon[i].y - polygon[i].x * polygon[j].y;
    return twice / 2;
}

}  // namespace podwright
