#include "test_meshes.hpp"

#include <array>
#include <cmath>
#include <functional>

namespace podwright::test_meshes {

namespace {

constexpr double pi = 3.14159265358979323846;

std::uint32_t add(Mesh& mesh, const glm::dvec3& position, const glm::dvec3& normal) {
    mesh.vertices.push_back({glm::vec3(position), glm::vec3(normal)});
    return static_cast<std::uint32_t>(mesh.vertices.size() - 1);
}

void add_triangle(Mesh& mesh, std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    mesh.triangles.insert(mesh.triangles.end(), {a, b, c});
}

// A quadrilateral, counter-clockwise from outside.
void add_flat(Mesh& mesh, const std::array<glm::dvec3, 4>& corners) {
    const glm::dvec3 normal =
        glm::normalize(glm::cross(corners[1] - corners[0], corners[2] - corners[0]));
    const auto first = add(mesh, corners[0], normal);
    for (std::size_t i = 1; i < 4; ++i) add(mesh, corners[i], normal);
    add_triangle(mesh, first, first + 1, first + 2);
    add_triangle(mesh, first, first + 2, first + 3);
}

void add_edge(Mesh& mesh, const glm::dvec3& a, const glm::dvec3& b) {
    const auto first = add(mesh, a, {0, 0, 1});
    const auto second = add(mesh, b, {0, 0, 1});
    mesh.edges.insert(mesh.edges.end(), {first, second});
}

// The surface at(u, v), 0..1, as a grid; counter-clockwise if u x v points outward.
void add_grid(Mesh& mesh, int nu, int nv, const std::function<Vertex(double, double)>& at) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    for (int j = 0; j <= nv; ++j)
        for (int i = 0; i <= nu; ++i)
            mesh.vertices.push_back(at(double{1} * i / nu, double{1} * j / nv));
    for (int j = 0; j < nv; ++j)
        for (int i = 0; i < nu; ++i) {
            const auto a = first + static_cast<std::uint32_t>(j * (nu + 1) + i);
            const auto above = a + static_cast<std::uint32_t>(nu + 1);
            add_triangle(mesh, a, a + 1, above + 1);
            add_triangle(mesh, a, above + 1, above);
        }
}

glm::dvec3 on_circle(double turn) { return {std::cos(2 * pi * turn), std::sin(2 * pi * turn), 0}; }

}  // namespace

Mesh sphere(double radius, int around, int up) {
    Mesh mesh;
    add_grid(mesh, around, up, [&](double u, double v) {
        const double height = -std::cos(pi * v);
        const glm::dvec3 out = on_circle(u) * std::sin(pi * v) + glm::dvec3(0, 0, height);
        return Vertex{glm::vec3(radius * out), glm::vec3(out)};
    });
    return mesh;
}

Mesh box(const glm::dvec3& size) {
    Mesh mesh;
    const glm::dvec3 h = size * 0.5;
    for (int axis = 0; axis < 3; ++axis)
        for (const double side : {-1.0, 1.0}) {
            glm::dvec3 out(0), u(0), v(0);
            out[axis] = side * h[axis];
            u[(axis + 1) % 3] = h[(axis + 1) % 3];
            v[(axis + 2) % 3] = side * h[(axis + 2) % 3];
            add_flat(mesh, {out - u - v, out + u - v, out + u + v, out - u + v});
        }
    for (int axis = 0; axis < 3; ++axis)
        for (const double a : {-1.0, 1.0})
            for (const double b : {-1.0, 1.0}) {
                glm::dvec3 from(0);
                from[axis] = -h[axis];
                from[(axis + 1) % 3] = a * h[(axis + 1) % 3];
                from[(axis + 2) % 3] = b * h[(axis + 2) % 3];
                glm::dvec3 to = from;
                to[axis] = h[axis];
                add_edge(mesh, from, to);
            }
    return mesh;
}

Mesh torus(double radius, double tube_radius, int around, int across) {
    Mesh mesh;
    add_grid(mesh, around, across, [&](double u, double v) {
        const glm::dvec3 out =
            on_circle(u) * std::cos(2 * pi * v) + glm::dvec3(0, 0, std::sin(2 * pi * v));
        return Vertex{glm::vec3(radius * on_circle(u) + tube_radius * out), glm::vec3(out)};
    });
    return mesh;
}

namespace {

// Walls, end faces and rim lines of a ring whose outer radius is a function of the turn.
Mesh ring(const std::function<double(int)>& outer, double inner, double length, int around,
          bool smooth) {
    Mesh mesh;
    const glm::dvec3 h(0, 0, length / 2);
    for (int i = 0; i < around; ++i) {
        const glm::dvec3 a = on_circle(double{1} * i / around);
        const glm::dvec3 b = on_circle(double{1} * (i + 1) / around);
        const glm::dvec3 oa = outer(i) * a;
        const glm::dvec3 ob = outer((i + 1) % around) * b;
        const glm::dvec3 ia = inner * a;
        const glm::dvec3 ib = inner * b;
        if (smooth) {
            const auto first = add(mesh, oa - h, a);
            add(mesh, ob - h, b);
            add(mesh, ob + h, b);
            add(mesh, oa + h, a);
            add_triangle(mesh, first, first + 1, first + 2);
            add_triangle(mesh, first, first + 2, first + 3);
        } else {
            add_flat(mesh, {oa - h, ob - h, ob + h, oa + h});
            add_edge(mesh, oa - h, oa + h);
        }
        if (inner > 0) {
            const auto first = add(mesh, ib - h, -b);
            add(mesh, ia - h, -a);
            add(mesh, ia + h, -a);
            add(mesh, ib + h, -b);
            add_triangle(mesh, first, first + 1, first + 2);
            add_triangle(mesh, first, first + 2, first + 3);
        }
        add_flat(mesh, {oa + h, ob + h, ib + h, ia + h});
        add_flat(mesh, {ob - h, oa - h, ia - h, ib - h});
        for (const auto& side : {h, -h}) {
            add_edge(mesh, oa + side, ob + side);
            if (inner > 0) add_edge(mesh, ia + side, ib + side);
        }
    }
    return mesh;
}

}  // namespace

Mesh tube(double outer, double inner, double length, int around) {
    return ring([&](int) { return outer; }, inner, length, around, true);
}

Mesh wheel(double outer, double depth, double bore, double width, int teeth) {
    return ring([&](int i) { return i % 4 < 2 ? outer : outer - depth; }, bore, width, 4 * teeth,
                false);
}

}  // namespace podwright::test_meshes
