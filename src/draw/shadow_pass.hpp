#pragma once

#include <cstdint>
#include <vector>

#include <glm/glm.hpp>

#include "draw/framebuffer.hpp"
#include "draw/gl_handle.hpp"
#include "draw/plan.hpp"
#include "draw/program.hpp"
#include "draw/renderer.hpp"

namespace podwright {

/// The square of ground that the parts may darken.
struct GroundPatch {
    glm::vec3 corner{0}, along{1, 0, 0}, across{0, 1, 0};
};

/// Shadows of a scene: the key light's depth map, and a map of the ground with the light's soft
/// shadow and the contact shadow. Both are kept until what casts them changes.
class ShadowPass {
public:
    ShadowPass();

    /// Renders the maps again if the casters changed. While things move, only every fourth change
    /// is followed.
    void update(const Scene& scene, const MeshOf& mesh_of, Quality quality);
    /// Renders them all but for most of the ground's, so that the driver is ready for update().
    void rehearse(const Scene& scene, const MeshOf& mesh_of);

    GLuint ground_map() const { return ground_.id(); }
    const glm::mat4& world_to_light() const { return world_to_light_; }  ///< to 0..1
    const GroundPatch& patch() const { return patch_; }
    /// Depth alone, without the removed side: `u_place`, `u_place_to_clip`, `u_cut`.
    const Program& cut_program() const { return cut_; }
    const Program& whole_program() const { return plain_; }  ///< the same of all of it
    /// What shaders/penumbra.glsl needs; the depth map is to be bound to the unit `unit`, and is to
    /// be read without comparison.
    void set_key_light(const Program& program, int unit) const;
    /// With: as a shadow sampler takes it. Without: plain depth.
    void bind_depth_map(bool comparing) const;
    static float texel();                             ///< of the depth map, texture units
    float texel_size() const { return texel_size_; }  ///< mm

private:
    struct Caster {
        MeshId mesh = 0;
        bool cut = false;
        glm::mat4 place{1};
        bool operator==(const Caster&) const = default;
    };
    struct Key {
        std::vector<Caster> casters;
        glm::vec3 ground_point{0}, ground_normal{0, 0, 1};
        bool is_cut = false;
        glm::vec4 cut{0};
        bool operator==(const Key&) const = default;
    };
    static Key key_of(const Scene& scene, const MeshOf& mesh_of);
    void render(const Key& key, const MeshOf& mesh_of, int ground_lines);
    void draw_casters(const Key& key, const MeshOf& mesh_of, const glm::dmat4& world_to_clip,
                      double greatest_height);
    void draw_from_light(const Key& key, const MeshOf& mesh_of, const Sphere& reach);
    void place_patch(const Key& key, const Sphere& reach);
    std::vector<std::uint8_t> heights_above(const Key& key, const MeshOf& mesh_of);
    void upload_contact(const std::vector<std::uint8_t>& heights);
    void bake_ground(const Key& key, int lines);

    Program plain_;
    Program cut_;
    Program bake_;
    GlFramebuffer light_view_;
    GlTexture depth_;
    Framebuffer below_;
    GlTexture contact_;
    GlFramebuffer ground_view_;
    GlTexture ground_;
    GlVertexArray no_vertices_;
    Key key_;
    bool valid_ = false;
    int skipped_ = 0;
    glm::mat4 world_to_light_{1};
    float texel_size_ = 1;
    float radius_ = 1;  // of the scene, mm
    GroundPatch patch_;
};

}  // namespace podwright
