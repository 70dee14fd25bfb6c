#include "bench/camera_moves.hpp"

#include <GLFW/glfw3.h>

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

constexpr double turn_per_pixel = 0.0065;  // rad

}  // namespace

void turn_camera(Camera& camera, glm::dvec2 pixels) {
    camera.azimuth -= pixels.x * turn_per_pixel;
    camera.elevation = std::clamp(camera.elevation + pixels.y * turn_per_pixel, -0.4, 1.56);
}

void shift_camera(Camera& camera, glm::dvec2 pixels, double height) {
    const double mm_per_pixel = 2 * camera.distance * std::tan(camera.field_of_view / 2) / height;
    camera.target += (-camera.right() * pixels.x + camera.up() * pixels.y) * mm_per_pixel;
}

void zoom_camera(Camera& camera, double notches, glm::dvec2 pointer, glm::dvec2 size) {
    const double factor = std::pow(0.87, notches);
    const double distance = std::clamp(camera.distance * factor, 12.0, 2500.0);
    const Ray ray = ray_through(camera, pointer, size);
    const glm::dvec3 forward = glm::normalize(camera.target - camera.eye());
    const glm::dvec3 under =
        ray.from + ray.direction * (camera.distance / glm::dot(ray.direction, forward));
    camera.target += (under - camera.target) * (1 - distance / camera.distance);
    camera.distance = distance;
}

bool move_camera_by_key(Camera& camera, const KeyPress& press, glm::dvec2 size) {
    constexpr double pushed = 40;  // pixels: 15 degrees
    glm::dvec2 push(0);
    double notches = 0;
    switch (press.key) {
        case GLFW_KEY_LEFT: push.x = -pushed; break;
        case GLFW_KEY_RIGHT: push.x = pushed; break;
        case GLFW_KEY_UP: push.y = -pushed; break;
        case GLFW_KEY_DOWN: push.y = pushed; break;
        case GLFW_KEY_EQUAL:
        case GLFW_KEY_KP_ADD: notches = 2; break;
        case GLFW_KEY_MINUS:
        case GLFW_KEY_KP_SUBTRACT: notches = -2; break;
        default: return false;
    }
    if (notches != 0)
        zoom_camera(camera, notches, size / 2.0, size);
    else if (press.shift)
        shift_camera(camera, push, size.y);
    else
        turn_camera(camera, push);
    return true;
}

}  // namespace podwright
