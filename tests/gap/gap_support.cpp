#include "gap_support.hpp"

#include <cmath>
#include <stdexcept>

#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/narrowphase/distance.h>

#include "assets-generic/asset_shapes.hpp"
#include "core/units.hpp"

namespace podwright {

const Mesh& asset_mesh(std::string_view name) {
    static const std::vector<NamedMesh> all = asset_meshes();
    for (const NamedMesh& asset : all)
        if (asset.name == name) return asset.mesh;
    throw std::out_of_range("no asset " + std::string(name));
}

Form form_of(const Solid& solid) {
    Body body;
    body.solid = solid;
    return form_of(body, asset_mesh);
}

glm::dmat4 at(double x, double y, double z) {
    glm::dmat4 m(1.0);
    m[3] = glm::dvec4(x, y, z, 1);
    return m;
}

glm::dmat4 turned(const glm::dvec3& axis, double angle, const glm::dvec3& to) {
    const double c = std::cos(angle), s = std::sin(angle);
    const auto rotate = [&](const glm::dvec3& v) {
        return v * c + glm::cross(axis, v) * s + axis * (glm::dot(axis, v) * (1 - c));
    };
    return {glm::dvec4(rotate({1, 0, 0}), 0), glm::dvec4(rotate({0, 1, 0}), 0),
            glm::dvec4(rotate({0, 0, 1}), 0), glm::dvec4(to, 1)};
}

glm::dmat4 along(const glm::dvec3& way, const glm::dvec3& to) {
    const glm::dvec3 x = glm::normalize(way);
    const glm::dvec3 helper = std::abs(x.z) < 0.9 ? glm::dvec3(0, 0, 1) : glm::dvec3(0, 1, 0);
    const glm::dvec3 y = glm::normalize(glm::cross(helper, x));
    return {glm::dvec4(x, 0), glm::dvec4(y, 0), glm::dvec4(glm::cross(x, y), 0), glm::dvec4(to, 1)};
}

Gap gap_of(const Solid& a, const glm::dmat4& place_a, const Solid& b, const glm::dmat4& place_b) {
    return gap_between(form_of(a), frame_of(place_a), form_of(b), frame_of(place_b));
}

Revolved cylinder(double radius, double length) {
    const double h = length / 2;
    return {{{{-h, 0}, 0}, {{h, 0}, 0}, {{h, radius}, 0}, {{-h, radius}, 0}}};
}

Revolved tube(double inner, double outer, double length) {
    const double h = length / 2;
    return {{{{-h, inner}, 0}, {{h, inner}, 0}, {{h, outer}, 0}, {{-h, outer}, 0}}};
}

Revolved torus(double ring, double section) {
    return {{{{section, ring}, 1}, {{-section, ring}, 1}}};
}

Revolved thin_ring(double radius) { return torus(radius, thin); }

Revolved sphere(double radius) { return {{{{-radius, 0}, 0}, {{radius, 0}, 1}}}; }

glm::dvec3 Draw::unit() {
    const double z = between(-1, 1), angle = between(0, 2 * pi), r = std::sqrt(1 - z * z);
    return {r * std::cos(angle), r * std::sin(angle), z};
}

glm::dmat4 Draw::placement(double reach) {
    const glm::dvec3 axis = unit();
    const double angle = between(0, 2 * pi);
    const double x = between(-reach, reach), y = between(-reach, reach);
    return turned(axis, angle, {x, y, between(-reach, reach)});
}

using Tree = fcl::BVHModel<fcl::OBBRSSd>;
struct MeshOracle::Model {
    std::shared_ptr<Tree> tree = std::make_shared<Tree>();
};

MeshOracle::MeshOracle(const Mesh& mesh) : model_(std::make_unique<Model>()) {
    std::vector<fcl::Vector3d> points;
    std::vector<fcl::Triangle> triangles;
    for (const Vertex& v : mesh.vertices)
        points.emplace_back(v.position.x, v.position.y, v.position.z);
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3)
        triangles.emplace_back(mesh.triangles[i], mesh.triangles[i + 1], mesh.triangles[i + 2]);
    model_->tree->beginModel();
    model_->tree->addSubModel(points, triangles);
    model_->tree->endModel();
}
MeshOracle::~MeshOracle() = default;
MeshOracle::MeshOracle(MeshOracle&&) noexcept = default;

double MeshOracle::distance(const glm::dmat4& place, const MeshOracle& other,
                            const glm::dmat4& place_other) const {
    const auto transform = [](const glm::dmat4& m) {
        fcl::Transform3d t = fcl::Transform3d::Identity();
        for (int row = 0; row < 3; ++row)
            for (int column = 0; column < 4; ++column) t.matrix()(row, column) = m[column][row];
        return t;
    };
    const fcl::DistanceRequestd request(true, false);
    fcl::DistanceResultd result;
    return fcl::distance(model_->tree.get(), transform(place), other.model_->tree.get(),
                         transform(place_other), request, result);
}

}  // namespace podwright
