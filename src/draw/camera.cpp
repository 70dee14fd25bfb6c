#include "draw/camera.hpp"

#include <algorithm>
#include <cmath>

#include <glm/gtc/matrix_transform.hpp>

namespace podwright {

namespace {

// From the target towards the eye.
glm::dvec3 backward(const Camera& camera) {
    const double level = std::cos(camera.elevation);
    return {level * std::cos(camera.azimuth), level * std::sin(camera.azimuth),
            std::sin(camera.elevation)};
}

// The nearest that the near plane may come, as a share of the distance: keeps 24-bit depth finer
// than 1/100 000 of the distance even when the eye is inside the scene.
constexpr double least_near = 0.04;

}  // namespace

glm::dvec3 Camera::eye() const { return target + distance * backward(*this); }

glm::dvec3 Camera::right() const { return {-std::sin(azimuth), std::cos(azimuth), 0}; }

glm::dvec3 Camera::up() const { return glm::cross(backward(*this), right()); }

glm::dmat4 Camera::view() const {
    const glm::dvec3 x = right();
    const glm::dvec3 y = up();
    const glm::dvec3 z = backward(*this);
    const glm::dvec3 from = eye();
    return {{x.x, y.x, z.x, 0},
            {x.y, y.y, z.y, 0},
            {x.z, y.z, z.z, 0},
            {-glm::dot(x, from), -glm::dot(y, from), -glm::dot(z, from), 1}};
}

glm::dmat4 Camera::projection(double aspect, double scene_radius) const {
    const double nearest = std::max(distance - scene_radius, least_near * distance);
    const double farthest = std::max(distance + scene_radius, 2 * nearest);
    return glm::perspective(field_of_view, aspect, nearest, farthest);
}

glm::dvec3 to_screen(const Camera& camera, const glm::dvec3& world, glm::dvec2 size) {
    const glm::dvec4 clip =
        camera.projection(size.x / size.y) * camera.view() * glm::dvec4(world, 1);
    if (clip.w <= 0) return {0, 0, 2};  // behind the eye
    return {(clip.x / clip.w + 1) / 2 * size.x, (1 - clip.y / clip.w) / 2 * size.y,
            clip.z / clip.w};
}

Ray ray_through(const Camera& camera, glm::dvec2 pixel, glm::dvec2 size) {
    const double half = std::tan(camera.field_of_view / 2);
    const double x = (2 * pixel.x / size.x - 1) * half * size.x / size.y;
    const double y = (1 - 2 * pixel.y / size.y) * half;
    const glm::dvec3 direction = x * camera.right() + y * camera.up() - backward(camera);
    return {camera.eye(), glm::normalize(direction)};
}

Camera framed(Camera camera, const glm::dvec3& centre, double radius, double aspect) {
    constexpr double air = 1.08;
    const double upright = camera.field_of_view / 2;
    const double sideways = std::atan(std::tan(upright) * aspect);
    camera.target = centre;
    camera.distance = air * radius / std::sin(std::min(upright, sideways));
    return camera;
}

}  // namespace podwright
