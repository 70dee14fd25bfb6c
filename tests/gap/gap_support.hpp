#pragma once

#include <memory>
#include <random>
#include <string_view>

#include "gap/distance.hpp"

namespace podwright {

/// The meshes of assets-generic, made in memory.
const Mesh& asset_mesh(std::string_view name);

Form form_of(const Solid& solid);
glm::dmat4 at(double x, double y, double z);
/// Turned by `angle` about the unit vector `axis` through the origin (Rodrigues), then moved.
glm::dmat4 turned(const glm::dvec3& axis, double angle, const glm::dvec3& to = glm::dvec3(0));
/// A placement whose x axis points along `way`.
glm::dmat4 along(const glm::dvec3& way, const glm::dvec3& to = glm::dvec3(0));

Gap gap_of(const Solid& a, const glm::dmat4& place_a, const Solid& b, const glm::dmat4& place_b);

/// Solid cylinder about x from -length/2 to length/2.
Revolved cylinder(double radius, double length);
/// Tube about x.
Revolved tube(double inner, double outer, double length);
/// Ring of round section about x.
Revolved torus(double ring, double section);
/// As near to a circle of radius `radius` about x as a solid can be: a torus of 1e-6 mm.
Revolved thin_ring(double radius);
inline constexpr double thin = 1e-6;
Revolved sphere(double radius);

/// Numbers the same on every machine.
class Draw {
public:
    explicit Draw(std::uint64_t seed) : engine_(seed) {}
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_() >> 11) / 9007199254740992.0;
    }
    glm::dvec3 unit();
    glm::dmat4 placement(double reach);

private:
    std::mt19937_64 engine_;
};

/// The mesh as FCL measures it; 0 where surfaces cross, and blind to one solid inside another.
class MeshOracle {
public:
    explicit MeshOracle(const Mesh& mesh);
    ~MeshOracle();
    MeshOracle(MeshOracle&&) noexcept;
    MeshOracle(const MeshOracle&) = delete;
    MeshOracle& operator=(const MeshOracle&) = delete;
    MeshOracle& operator=(MeshOracle&&) = delete;
    double distance(const glm::dmat4& place, const MeshOracle& other,
                    const glm::dmat4& place_other) const;

private:
    struct Model;
    std::unique_ptr<Model> model_;
};

}  // namespace podwright
