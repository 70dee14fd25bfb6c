#pragma once

#include <string_view>
#include <vector>

#include "core/drive.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"
#include "shape/assembly.hpp"
#include "shape/mesher.hpp"

// What several shape tests need; nothing here comes from the code under test but its types.
namespace podwright {

/// A setup with everything that is calculated from it.
struct Built {
    Setup setup;
    Stack stack;
    Stance stance;
    Drive drive;
    Assembly assembly;

    explicit Built(const Setup& from);
    const Part& part(std::string_view key) const;  ///< throws if there is none
};

/// The meshes of assets-generic, made in memory.
const Mesh& asset_mesh(std::string_view name);

/// The whole part in pod axes.
Mesh part_mesh(const Assembly& assembly, const Part& part, const Pose& pose, double chord_error);

struct Reach {
    double low, high;
};
/// From where to where the part reaches along `direction` from `point`.
Reach reach_along(const Mesh& mesh, const glm::dvec3& point, const glm::dvec3& direction);

/// Distance from `p` to the loop's lines and arcs, from their definition.
double distance_to_loop(const glm::dvec2& p, const Loop& loop);

/// Smallest cosine between a vertex normal and the facet that uses it.
double worst_normal(const Mesh& mesh);

/// True if every number in it is finite.
bool is_finite(const Mesh& mesh);

/// True if `p` lies inside the polygon (crossing number).
bool is_inside(const glm::dvec2& p, const std::vector<glm::dvec2>& polygon);

/// Area by the shoelace formula; positive if counter-clockwise.
double area(const std::vector<glm::dvec2>& polygon);

}  // namespace podwright
