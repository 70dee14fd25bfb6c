#pragma once

#include <functional>
#include <map>
#include <string>

#include <glm/glm.hpp>

#include "core/turning_mass.hpp"
#include "shape/mesher.hpp"
#include "shape/part.hpp"

// Volume and its moments of the true solids: closed forms over their outlines (straight lines,
// arcs, involutes), not of display meshes.
namespace podwright {

/// Integrals over a volume of 1, r and r·rᵀ about the origin of its frame; mm³, mm⁴, mm⁵.
struct Moments {
    double volume = 0;
    glm::dvec3 first{0};
    glm::dmat3 second{0};

    Moments& operator+=(const Moments& other);
};

/// The moments of the solid moved by an affine map (rigid, or scaled).
Moments moved(const Moments& moments, const glm::dmat4& place);

/// The integral of a² about the line through `point` along the unit `direction`, with the distance
/// a from it: the polar inertia over the density, mm⁵.
double polar_moment(const Moments& moments, const glm::dvec3& point, const glm::dvec3& direction);

/// Moments of a closed mesh that faces outward, by the divergence theorem; exact for the mesh.
Moments moments_of(const Mesh& mesh);

/// Gives the moments of an imported solid.
using ImportedMoments = std::function<Moments(const Imported&)>;

/// Of the screws and the end bell of assets-generic, as numbers; a mesh of the user's own is
/// nothing: weigh it with Scales.
Moments generic_moments(const Imported& solid);

/// Moments of a solid in its own frame. Revolved, extruded and box: to rounding. Toothed ring: to
/// 1e-9.
Moments moments_of(const Solid& solid, const ImportedMoments& imported = generic_moments);

/// Weighs meshes of the user's own and remembers the results; its answers do not depend on that.
class Scales {
public:
    explicit Scales(MeshLibrary library) : library_(std::move(library)) {}
    Moments operator()(const Imported& solid);

private:
    MeshLibrary library_;
    std::map<std::pair<std::string, std::uint64_t>, Moments> known_;
};

/// Every part that turns with axle or motor, with its own material's density. Of a bearing the
/// inner ring turns with the axle; its balls are left out.
TurningMass turning_mass_of(const Setup& setup, const Stance& stance, const Drive& drive,
                            const Assembly& assembly,
                            const ImportedMoments& imported = generic_moments);

}  // namespace podwright
