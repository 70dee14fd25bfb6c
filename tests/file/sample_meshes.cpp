#include "sample_meshes.hpp"

#include <cmath>
#include <cstring>
#include <nlohmann/json.hpp>

using podwright::Mesh;

Mesh box_mesh(const glm::vec3& low, const glm::vec3& high) {
    Mesh mesh;
    for (int axis = 0; axis < 3; ++axis) {
        for (const int sign : {-1, 1}) {
            const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
            for (int k = 0; k < 4; ++k) {
                glm::vec3 corner(0);
                corner[axis] = sign > 0 ? 1.F : 0.F;
                corner[(axis + 1) % 3] = k == 1 || k == 2 ? 1.F : 0.F;
                corner[(axis + 2) % 3] = k >= 2 ? 1.F : 0.F;
                glm::vec3 normal(0);
                normal[axis] = static_cast<float>(sign);
                mesh.vertices.push_back({low + corner * (high - low), normal});
            }
            const std::uint32_t out[] = {0, 1, 2, 0, 2, 3};
            const std::uint32_t in[] = {0, 2, 1, 0, 3, 2};
            for (const std::uint32_t i : sign > 0 ? out : in) mesh.triangles.push_back(first + i);
        }
    }
    return mesh;
}

Mesh ball_mesh(float radius, std::uint32_t rings, std::uint32_t slices) {
    const double pi = std::acos(-1.0);
    Mesh mesh;
    const auto add = [&](double x, double y, double z) {
        const glm::vec3 normal(x, y, z);
        mesh.vertices.push_back({radius * normal, normal});
    };
    add(0, 0, 1);
    for (std::uint32_t i = 1; i < rings; ++i)
        for (std::uint32_t k = 0; k < slices; ++k) {
            const double down = pi * i / rings;
            const double around = 2 * pi * k / slices;
            add(std::sin(down) * std::cos(around), std::sin(down) * std::sin(around),
                std::cos(down));
        }
    add(0, 0, -1);
    const auto last = static_cast<std::uint32_t>(mesh.vertices.size()) - 1;
    const auto at = [&](std::uint32_t ring, std::uint32_t k) {
        return 1 + (ring - 1) * slices + k % slices;
    };
    for (std::uint32_t k = 0; k < slices; ++k) {
        mesh.triangles.insert(mesh.triangles.end(), {0, at(1, k), at(1, k + 1)});
        mesh.triangles.insert(mesh.triangles.end(), {last, at(rings - 1, k + 1), at(rings - 1, k)});
        for (std::uint32_t i = 1; i + 1 < rings; ++i)
            mesh.triangles.insert(mesh.triangles.end(), {at(i, k), at(i + 1, k), at(i + 1, k + 1),
                                                         at(i, k), at(i + 1, k + 1), at(i, k + 1)});
    }
    return mesh;
}

Mesh tube_mesh(float inner, float outer, float length, std::uint32_t sides) {
    const double pi = std::acos(-1.0);
    Mesh mesh;
    const auto round = [&](float radius, float x, std::uint32_t k) {
        const double angle = 2 * pi * k / sides;
        return glm::vec3(x, radius * std::cos(angle), radius * std::sin(angle));
    };
    const auto quad = [&](const glm::vec3& a, const glm::vec3& b, const glm::vec3& c,
                          const glm::vec3& d) {
        const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
        const glm::vec3 normal = glm::normalize(glm::cross(b - a, c - a));
        for (const glm::vec3& corner : {a, b, c, d}) mesh.vertices.push_back({corner, normal});
        for (const std::uint32_t i : {0, 1, 2, 0, 2, 3}) mesh.triangles.push_back(first + i);
    };
    for (std::uint32_t k = 0; k < sides; ++k) {
        const std::uint32_t next = (k + 1) % sides;
        quad(round(outer, 0, k), round(outer, 0, next), round(outer, length, next),
             round(outer, length, k));
        quad(round(inner, 0, next), round(inner, 0, k), round(inner, length, k),
             round(inner, length, next));
        quad(round(inner, length, k), round(outer, length, k), round(outer, length, next),
             round(inner, length, next));
        quad(round(outer, 0, k), round(inner, 0, k), round(inner, 0, next), round(outer, 0, next));
    }
    return mesh;
}

namespace {

std::size_t length_of_description(const std::string& glb) {
    std::uint32_t value = 0;
    std::memcpy(&value, glb.data() + 12, 4);
    return value;
}

}  // namespace

std::string gltf_text(const std::string& glb, const std::string& uri) {
    auto description = nlohmann::json::parse(glb.substr(20, length_of_description(glb)));
    description["buffers"][0]["uri"] = uri;
    return description.dump(2);
}

std::string glb_data(const std::string& glb) {
    return glb.substr(20 + length_of_description(glb) + 8);
}

std::string base64(const std::string& bytes) {
    const std::string digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        std::uint32_t group = 0;
        for (std::size_t k = 0; k < 3; ++k)
            group = group << 8U |
                    (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U);
        for (std::size_t k = 0; k < 4; ++k)
            text += i + k > bytes.size() ? '=' : digits[group >> (18 - 6 * k) & 63U];
    }
    return text;
}
