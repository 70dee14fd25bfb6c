#include "draw/gpu_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace podwright {

namespace {

const void* at_byte(std::size_t offset) {
    // OpenGL takes offsets into buffers in the guise of pointers.
    return reinterpret_cast<const void*>(offset);  // NOLINT(performance-no-int-to-ptr)
}

template <class Value>
void fill(GLenum kind, const std::vector<Value>& values) {
    glBufferData(kind, static_cast<GLsizeiptr>(values.size() * sizeof(Value)), values.data(),
                 GL_STATIC_DRAW);
}

// Every normal meets the x axis, or is along it.
bool is_turned(const Mesh& mesh) {
    return std::all_of(mesh.vertices.begin(), mesh.vertices.end(), [](const Vertex& v) {
        const float turn = v.position.y * v.normal.z - v.position.z * v.normal.y;
        const float radius = std::hypot(v.position.y, v.position.z);
        return std::abs(turn) <= 1e-3F * radius + 1e-5F;
    });
}

glm::vec3 thin_axis(const Bounds& box) {
    const glm::dvec3 size = box.high - box.low;
    for (int axis = 0; axis < 3; ++axis)
        if (size[axis] < 0.3 * std::min(size[(axis + 1) % 3], size[(axis + 2) % 3])) {
            glm::vec3 result(0);
            result[axis] = 1;
            return result;
        }
    return glm::vec3(0);
}

}  // namespace

void describe_edges(GLuint ends) {
    glBindBuffer(GL_ARRAY_BUFFER, ends);
    for (GLuint end = 0; end < 2; ++end) {
        glEnableVertexAttribArray(end);
        glVertexAttribPointer(end, 3, GL_FLOAT, GL_FALSE, 2 * sizeof(glm::vec3),
                              at_byte(end * sizeof(glm::vec3)));
        glVertexAttribDivisor(end, 1);
    }
}

GpuMesh::GpuMesh(const Mesh& mesh)
    : surface_(GlVertexArray::make()),
      vertices_(GlBuffer::make()),
      indices_(GlBuffer::make()),
      lines_(GlVertexArray::make()),
      ends_(GlBuffer::make()),
      edge_count_(static_cast<GLsizei>(mesh.edges.size() / 2)),
      triangles_(mesh.triangles) {
    positions_.reserve(mesh.vertices.size());
    for (const Vertex& vertex : mesh.vertices) {
        positions_.push_back(vertex.position);
        box_.add(vertex.position);
    }
    turned_ = is_turned(mesh);
    if (!turned_ && !box_.empty()) layers_ = thin_axis(box_);
    glBindVertexArray(surface_.id());
    glBindBuffer(GL_ARRAY_BUFFER, vertices_.id());
    fill(GL_ARRAY_BUFFER, mesh.vertices);
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, indices_.id());
    fill(GL_ELEMENT_ARRAY_BUFFER, mesh.triangles);
    glEnableVertexAttribArray(0);
    glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, sizeof(Vertex),
                          at_byte(offsetof(Vertex, position)));
    glEnableVertexAttribArray(1);
    glVertexAttribPointer(1, 3, GL_FLOAT, GL_FALSE, sizeof(Vertex),
                          at_byte(offsetof(Vertex, normal)));

    std::vector<glm::vec3> ends;
    ends.reserve(mesh.edges.size());
    for (const auto index : mesh.edges) ends.push_back(mesh.vertices[index].position);
    glBindVertexArray(lines_.id());
    glBindBuffer(GL_ARRAY_BUFFER, ends_.id());
    fill(GL_ARRAY_BUFFER, ends);
    describe_edges(ends_.id());
    glBindVertexArray(0);
    glBindBuffer(GL_ARRAY_BUFFER, 0);
}

void GpuMesh::draw_triangles() const {
    glBindVertexArray(surface_.id());
    glDrawElements(GL_TRIANGLES, static_cast<GLsizei>(triangles_.size()), GL_UNSIGNED_INT, nullptr);
}

void GpuMesh::draw_edges() const {
    if (edge_count_ == 0) return;
    glBindVertexArray(lines_.id());
    glDrawArraysInstanced(GL_TRIANGLE_STRIP, 0, 4, edge_count_);
}

}  // namespace podwright
