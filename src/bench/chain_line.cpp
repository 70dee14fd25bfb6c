#include "bench/chain_line.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace podwright {

namespace {

constexpr float half_width = 0.3F;  // mm
constexpr double dash = 9, gap = 1.6, dot = 0.9;
constexpr double period = dash + gap + dot + gap;

/// The four long faces of a square bar from `low` to `high` along x; its ends are too small to see.
void add_bar(Mesh& mesh, float low, float high) {
    static constexpr std::array<glm::vec2, 4> ways = {{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};
    for (const glm::vec2& out : ways) {
        const glm::vec3 normal(0, out.x, out.y);
        const glm::vec3 across(0, -out.y, out.x);
        const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
        for (const float x : {low, high})
            for (const float side : {-1.0F, 1.0F})
                mesh.vertices.push_back(
                    {glm::vec3(x, 0, 0) + (normal + across * side) * half_width, normal});
        for (const std::uint32_t corner : {0U, 2U, 1U, 1U, 2U, 3U})
            mesh.triangles.push_back(first + corner);
    }
}

}  // namespace

int dashes_for(double length) { return std::max(1, static_cast<int>(std::round(length / period))); }

Mesh chain_line(int dashes) {
    Mesh mesh;
    const double scale = 1 / (dashes * period - 2 * gap - dot);  // begins and ends with a dash
    for (int i = 0; i < dashes; ++i) {
        const double start = i * period;
        add_bar(mesh, static_cast<float>(start * scale),
                static_cast<float>((start + dash) * scale));
        if (i + 1 < dashes)
            add_bar(mesh, static_cast<float>((start + dash + gap) * scale),
                    static_cast<float>((start + dash + gap + dot) * scale));
    }
    return mesh;
}

}  // namespace podwright
