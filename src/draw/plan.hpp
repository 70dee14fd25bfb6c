#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include <glm/glm.hpp>

#include "draw/finish.hpp"
#include "draw/gpu_mesh.hpp"
#include "draw/renderer.hpp"

namespace podwright {

struct Sphere {
    glm::dvec3 centre{0};
    double radius = 0;
};

/// One item that is to be drawn.
struct Planned {
    const Item* item = nullptr;
    std::size_t index = 0;  ///< in the scene
    const GpuMesh* mesh = nullptr;
    Sphere reach;         ///< encloses it in the world
    bool is_cut = false;  ///< the cutting plane goes through it
    glm::mat4 place_to_clip{1};
};

/// Everything that is the same for all items of one picture.
struct Frame {
    glm::dmat4 view_projection{1};
    glm::vec3 eye{0};
    glm::vec3 middle{0};     ///< of what is looked at
    glm::vec2 studio{1, 0};  ///< level direction from the scene to the eye
    glm::vec2 half_size{1};  ///< of the picture, pixels
    glm::vec4 cut_plane{0};  ///< normal and offset
    double pixel = 0;        ///< size of a pixel at the target, mm
    float line_scale = 1;    ///< picture height / 720
    float line_depth = 0;    ///< clip depth of one pixel's width
    glm::vec2 depths{0, 1};  ///< nearest and farthest, mm from the eye along its axis
    /// From the eye to the picture's lower left corner and along its sides, per mm of depth.
    glm::vec3 ray_corner{0}, ray_along{0}, ray_up{0};
    float horizon = 0.5F;  ///< height of the horizon in the picture, 0..1 and beyond
    /// World to the key light's depth map, all 0..1; as it stands, nothing is in shadow.
    glm::mat4 world_to_light{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0.5F, 0.5F, -1, 1};
};

/// What of the scene a picture shows: each list from near to far.
struct Plan {
    Frame frame;
    Viewport touched;  ///< pixels, from the lower left, outside of which there is only backdrop
    std::vector<Planned> solid;
    std::vector<Planned> faded;
    std::vector<Planned> ghost;
};

using MeshOf = std::function<const GpuMesh*(MeshId)>;

/// Items out of sight or wholly cut away are left out, and so are those whose mesh is not known.
Plan plan_picture(const Scene& scene, const Camera& camera, int width, int height,
                  const MeshOf& mesh_of);

/// The sphere about the item's box, in the world.
Sphere reach_of(const Item& item, const GpuMesh& mesh);

}  // namespace podwright
