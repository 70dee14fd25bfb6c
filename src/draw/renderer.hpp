#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include <glm/glm.hpp>

#include "draw/camera.hpp"
#include "shape/look.hpp"
#include "shape/mesh.hpp"

// Draws lit meshes with OpenGL 3.3 core. Knows meshes and looks, not axles.
namespace podwright {

/// OpenGL is missing, too old, or refused something; what() is one plain sentence.
struct DrawError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Throws DrawError, naming what there is, unless the current context is OpenGL 3.3 or newer (or
/// OpenGL ES 3.0).
void require_opengl();

using MeshId = std::uint32_t;

enum class Emphasis {
    normal,
    hovered,
    picked,
    faded,  ///< see-through: the nearest layer of it, with its lines and caps; casts no shadow
    alarm,
    ghost  ///< of another setup: a translucent shell that casts no shadow and hides nothing
};

/// Item::hatch of a part too thin for lines: filled.
constexpr int solid_hatch = -1;
/// Different hatches 0 .. hatch_count - 1 differ in direction or spacing; more begin again.
constexpr int hatch_count = 12;

/// A pattern that the meshes' own coordinates give to the surface, beside that of the look.
enum class Relief {
    none,
    screw  ///< of a screw along x, nominally of 3 mm: thread below x = 0, knurl above
};

/// One mesh in the scene.
struct Item {
    MeshId mesh = 0;
    glm::mat4 place{1.0F};  ///< mesh to world, mm
    Look look = Look::aluminium;
    Emphasis emphasis = Emphasis::normal;
    bool cut = true;                      ///< the cutting plane acts on it
    bool casts_shadow = true;             ///< what is see-through never does
    std::optional<glm::vec3> paint = {};  ///< a plain dull colour (sRGB) in place of the look
    int hatch = 0;                        ///< of its cut faces
    Relief relief = Relief::none;
};

/// The half-space dot(normal, p) > offset is removed; cut faces are capped.
struct Cut {
    glm::vec3 normal{0, -1, 0};
    float offset = 0;
};

enum class Quality {
    moving,  ///< while something is dragged: cheaper, never ugly
    settled  ///< the full picture
};

struct Scene {
    std::vector<Item> items;
    glm::vec3 ground_point{0};
    glm::vec3 ground_normal{0, 0, 1};
    bool show_ground = true;
    bool dark = false;  ///< a dark surround; the parts are lit alike
    std::optional<Cut> cut;
};

/// Rectangle of the target, pixels, origin at the top left.
struct Viewport {
    int x = 0, y = 0, width = 0, height = 0;
};

class Renderer {
public:
    /// Needs a current OpenGL context (3.3 core or newer). Throws DrawError.
    Renderer();
    ~Renderer();
    Renderer(Renderer&&) noexcept;
    Renderer& operator=(Renderer&&) noexcept;

    MeshId upload(const Mesh& mesh);
    void drop(MeshId id);

    /// Draws the scene into the framebuffer `target` (0 = the window), which is `target_height`
    /// pixels high, within `view`. Leaves depth test, blending and scissor off.
    void draw(const Scene& scene, const Camera& camera, const Viewport& view, Quality quality,
              unsigned target, int target_height);

    /// As draw(), but only within a circle inscribed in `view`, without ground and background
    /// gradient: for the loupe.
    void draw_round(const Scene& scene, const Camera& camera, const Viewport& view, unsigned target,
                    int target_height);

    /// A driver makes its programs when they are first used. This has it make those that settled
    /// pictures need, cut open or not, and draw_round(): while there is nothing to draw yet. For
    /// it some small thing about the origin is drawn.
    void rehearse(const Mesh& thing, bool cut, bool round);

    /// "OpenGL 4.5, llvmpipe (...)".
    std::string description() const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace podwright
