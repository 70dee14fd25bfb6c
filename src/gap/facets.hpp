#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include <glm/glm.hpp>

namespace podwright {

/// Triangles of a closed mesh, counter-clockwise seen from outside, in mm, in an order in which
/// those of a stretch lie together: halving a stretch again and again makes a tree.
class Facets {
public:
    using Triangle = std::array<glm::dvec3, 3>;
    /// A stretch of the triangles, and its place in the tree (the root is 1; 2n, 2n + 1 its
    /// halves).
    struct Stretch {
        std::size_t begin = 0, end = 0, node = 1;
        std::size_t size() const { return end - begin; }
        Stretch first() const { return {begin, begin + size() / 2, 2 * node}; }
        Stretch second() const { return {begin + size() / 2, end, 2 * node + 1}; }
    };
    struct Sphere {
        glm::dvec3 centre{0};
        double radius = 0;
    };

    explicit Facets(std::vector<Triangle> triangles);

    const std::vector<Triangle>& triangles() const { return triangles_; }
    Stretch all() const { return {0, triangles_.size(), 1}; }
    /// Holds the triangles of the stretch.
    Sphere sphere(const Stretch& stretch) const;
    /// Nearest point of the surface.
    glm::dvec3 nearest(const glm::dvec3& p) const;
    /// Whether the point is inside: the winding number, with far stretches taken as one dipole
    /// (Barill and others, "Fast Winding Numbers for Soups and Clouds", 2018).
    bool contains(const glm::dvec3& p) const;

private:
    /// A stretch of the tree, of more than `leaf` triangles or the first ones below that.
    struct Node {
        Sphere sphere;
        glm::dvec3 centroid{0}, area{0};  ///< centre of the area; sum of the vector areas
    };
    /// `order`: numbers of the triangles, sorted within the stretch.
    void build(const Stretch& stretch, std::vector<std::uint32_t>& order);
    void nearest(const Stretch& stretch, const glm::dvec3& p, glm::dvec3& best,
                 double& squared) const;
    double winding(const Stretch& stretch, const glm::dvec3& p) const;

    std::vector<Triangle> triangles_;
    std::vector<Node> nodes_;
};

}  // namespace podwright
