#include "draw/plan.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace podwright {

namespace {

// Inward planes of the view: dot(xyz, p) + w >= 0 inside; unit normals.
std::array<glm::dvec4, 6> view_planes(const glm::dmat4& view_projection) {
    const glm::dmat4 rows = glm::transpose(view_projection);
    std::array<glm::dvec4, 6> planes{rows[3] + rows[0], rows[3] - rows[0], rows[3] + rows[1],
                                     rows[3] - rows[1], rows[3] + rows[2], rows[3] - rows[2]};
    for (auto& plane : planes) plane /= glm::length(glm::dvec3(plane));
    return planes;
}

bool in_sight(const Sphere& sphere, const std::array<glm::dvec4, 6>& planes) {
    return std::all_of(planes.begin(), planes.end(), [&](const glm::dvec4& plane) {
        return glm::dot(plane, glm::dvec4(sphere.centre, 1)) > -sphere.radius;
    });
}

// > 0: the sphere reaches so far into the removed side.
double removed_reach(const Sphere& sphere, const Cut& cut) {
    return glm::dot(glm::dvec3(cut.normal), sphere.centre) - double{cut.offset} + sphere.radius;
}

Frame frame_of(const Scene& scene, const Camera& camera, int width, int height, double radius) {
    Frame frame;
    const double aspect = double{1} * width / height;
    const glm::dmat4 projection = camera.projection(aspect, radius);
    frame.view_projection = projection * camera.view();
    frame.eye = camera.eye();
    frame.middle = camera.target;
    frame.studio = {std::cos(camera.azimuth), std::sin(camera.azimuth)};
    frame.half_size = glm::vec2(width, height) * 0.5F;
    if (scene.cut) frame.cut_plane = glm::vec4(scene.cut->normal, scene.cut->offset);
    const double spread = 2 * std::tan(camera.field_of_view / 2) / height;
    frame.pixel = spread * camera.distance;
    frame.line_scale = static_cast<float>(height / 720.0);
    // Clip depth changes by -projection[3][2] / w for a step of w towards the eye, after the
    // division; a pixel is spread * w wide, so that w cancels.
    frame.line_depth = static_cast<float>(-projection[3][2] * spread);
    frame.depths = glm::vec2(projection[3][2] / (projection[2][2] - 1),
                             projection[3][2] / (projection[2][2] + 1));
    const double half = std::tan(camera.field_of_view / 2);
    const glm::dvec3 along = camera.right() * half * aspect;
    const glm::dvec3 up = camera.up() * half;
    const glm::dvec3 forward = glm::normalize(camera.target - camera.eye());
    frame.ray_corner = forward - along - up;
    frame.ray_along = 2.0 * along;
    frame.ray_up = 2.0 * up;
    frame.horizon =
        static_cast<float>(std::clamp(0.5 + 0.5 * std::tan(camera.elevation) / half, -1.0, 2.0));
    return frame;
}

// The rectangle about the corners of all boxes, with room for outlines.
Viewport touched_by(const Plan& plan, int width, int height) {
    const glm::vec2 size(width, height);
    glm::vec2 low = size;
    glm::vec2 high(0);
    for (const auto* list : {&plan.solid, &plan.faded, &plan.ghost})
        for (const Planned& planned : *list) {
            const Bounds& box = planned.mesh->box();
            for (int corner = 0; corner < 8; ++corner) {
                const glm::vec4 clip = planned.place_to_clip *
                                       glm::vec4((corner & 1) != 0 ? box.high.x : box.low.x,
                                                 (corner & 2) != 0 ? box.high.y : box.low.y,
                                                 (corner & 4) != 0 ? box.high.z : box.low.z, 1);
                if (clip.w <= 0) return {0, 0, width, height};
                const glm::vec2 p = (glm::vec2(clip) / clip.w + 1.0F) * 0.5F * size;
                low = glm::min(low, p);
                high = glm::max(high, p);
            }
        }
    const float room = 4 + 4 * plan.frame.line_scale;
    const glm::ivec2 from(glm::clamp(low - room, glm::vec2(0), size));
    const glm::ivec2 to(glm::clamp(high + room, glm::vec2(from), size));
    return {from.x, from.y, to.x - from.x, to.y - from.y};
}

}  // namespace

Sphere reach_of(const Item& item, const GpuMesh& mesh) {
    const Bounds& box = mesh.box();
    if (box.empty()) return {};
    const glm::dmat4 place(item.place);
    const double scale =
        std::max({glm::length(glm::dvec3(place[0])), glm::length(glm::dvec3(place[1])),
                  glm::length(glm::dvec3(place[2]))});
    return {glm::dvec3(place * glm::dvec4((box.low + box.high) * 0.5, 1)),
            glm::length(box.high - box.low) * 0.5 * scale};
}

Plan plan_picture(const Scene& scene, const Camera& camera, int width, int height,
                  const MeshOf& mesh_of) {
    std::vector<Planned> all;
    double radius = 1;
    for (std::size_t index = 0; index < scene.items.size(); ++index) {
        const Item& item = scene.items[index];
        const GpuMesh* mesh = mesh_of(item.mesh);
        if (mesh == nullptr || mesh->box().empty()) continue;
        const Sphere reach = reach_of(item, *mesh);
        radius = std::max(radius, glm::length(reach.centre - camera.target) + reach.radius);
        all.push_back({&item, index, mesh, reach, false, glm::mat4(1)});
    }
    Plan plan;
    plan.frame = frame_of(scene, camera, width, height, radius * 1.5);
    const auto planes = view_planes(plan.frame.view_projection);
    const glm::dvec3 eye = camera.eye();
    for (Planned& planned : all) {
        if (!in_sight(planned.reach, planes)) continue;
        if (scene.cut && planned.item->cut) {
            const double removed = removed_reach(planned.reach, *scene.cut);
            if (removed >= 2 * planned.reach.radius) continue;
            planned.is_cut = removed > 0;
        }
        planned.place_to_clip = plan.frame.view_projection * glm::dmat4(planned.item->place);
        switch (planned.item->emphasis) {
            case Emphasis::faded: plan.faded.push_back(planned); break;
            case Emphasis::ghost: plan.ghost.push_back(planned); break;
            default: plan.solid.push_back(planned);
        }
    }
    const auto nearer = [&](const Planned& a, const Planned& b) {
        const double to_a = glm::length(a.reach.centre - eye) - a.reach.radius;
        const double to_b = glm::length(b.reach.centre - eye) - b.reach.radius;
        return to_a < to_b;
    };
    plan.touched = touched_by(plan, width, height);
    for (auto* list : {&plan.solid, &plan.faded, &plan.ghost})
        std::stable_sort(list->begin(), list->end(), nearer);
    return plan;
}

}  // namespace podwright
