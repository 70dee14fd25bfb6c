#pragma once

#include <glm/glm.hpp>

namespace podwright {

/// Looks at `target` from `distance` away. Angles in rad; azimuth 0 = from +x, positive towards +y;
/// elevation positive = from above. World z is up.
struct Camera {
    glm::dvec3 target{0};
    double distance = 300;
    double azimuth = 0;
    double elevation = 0.4;
    double field_of_view = 0.45;  ///< vertical, rad

    glm::dvec3 eye() const;
    glm::dvec3 right() const;
    glm::dvec3 up() const;
    glm::dmat4 view() const;
    /// Near and far planes enclose a sphere of `scene_radius` about the target.
    glm::dmat4 projection(double aspect, double scene_radius = 400) const;
};

/// World point to pixels (origin top left) and depth; z > 1 or < -1 is outside the clip range.
glm::dvec3 to_screen(const Camera& camera, const glm::dvec3& world, glm::dvec2 size);

struct Ray {
    glm::dvec3 from;
    glm::dvec3 direction;  ///< unit
};
/// The ray through a pixel (origin top left).
Ray ray_through(const Camera& camera, glm::dvec2 pixel, glm::dvec2 size);

/// The same view direction, moved so that the sphere fits the picture with a little air.
Camera framed(Camera camera, const glm::dvec3& centre, double radius, double aspect);

}  // namespace podwright
