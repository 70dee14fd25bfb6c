#pragma once

#include <cstdint>
#include <vector>

#include "draw/gl_handle.hpp"
#include "shape/mesh.hpp"

namespace podwright {

/// A mesh on the graphics processor, with what culling and sections need of it here.
class GpuMesh {
public:
    explicit GpuMesh(const Mesh& mesh);

    /// Binds and draws all triangles: position at location 0, normal at 1.
    void draw_triangles() const;
    /// Binds and draws four vertices for each feature edge: its ends at locations 0 and 1.
    void draw_edges() const;

    /// A body of revolution about the x axis.
    bool turned() const { return turned_; }
    /// The axis along which a plate is thin, or 0.
    const glm::vec3& layers() const { return layers_; }
    const Bounds& box() const { return box_; }
    const std::vector<glm::vec3>& positions() const { return positions_; }
    const std::vector<std::uint32_t>& triangles() const { return triangles_; }

private:
    GlVertexArray surface_;
    GlBuffer vertices_;
    GlBuffer indices_;
    GlVertexArray lines_;
    GlBuffer ends_;
    GLsizei edge_count_ = 0;
    Bounds box_;
    bool turned_ = false;
    glm::vec3 layers_{0};
    std::vector<glm::vec3> positions_;
    std::vector<std::uint32_t> triangles_;
};

/// Describes a buffer of (end, end) pairs of points to the bound vertex array.
void describe_edges(GLuint ends);

}  // namespace podwright
