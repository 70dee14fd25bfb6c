#pragma once

#include <array>
#include <optional>
#include <vector>

#include "draw/gl_handle.hpp"
#include "draw/plan.hpp"
#include "draw/program.hpp"
#include "draw/shade_pass.hpp"
#include "draw/shadow_pass.hpp"

namespace podwright {

/// What of the light is known before the items are drawn.
struct Lighting {
    const ShadowPass& shadows;
    const ShadePass* shade = nullptr;  ///< without it: hard shadows, no occlusion
};

/// Surfaces of the parts, and the caps of those that are cut.
class ItemPass {
public:
    ItemPass();

    /// Leaves in the stencil, where a cut part shows its inside first, that part's mark.
    void draw_solid(const Plan& plan, const Scene& scene, const Lighting& lighting);
    /// Fills the marked places with hatched faces in the cutting plane.
    void draw_caps(const Plan& plan, const Cut& cut);
    /// Over everything else; only the nearest layer of each part shows, cut and capped as if solid.
    void draw_faded(const Plan& plan, const Scene& scene, const Lighting& lighting);
    /// Over everything else; only the nearest layer of all of them shows.
    void draw_ghost(const Plan& plan, const Scene& scene, const Lighting& lighting);

private:
    enum Kind { plain, carbon, foam, screw, kinds };
    static Kind kind_of(const Planned& planned, const Frame& frame);
    const Program& program_for(Kind kind, bool shaded);
    void prepare(const Program& program, Kind kind, const Plan& plan, const Scene& scene,
                 const Lighting& lighting) const;
    static void mark_cut(const Planned& planned, const Plan& plan, const ShadowPass& shadows);
    static void fill_depth(const Planned& planned, const Plan& plan, const ShadowPass& shadows);
    void begin_caps(const Plan& plan, const Cut& cut);
    void draw_cap(const Planned& planned, const Plan& plan, const Cut& cut);
    void draw(const Planned& planned, const Plan& plan, const Scene& scene,
              const Lighting& lighting);

    std::array<std::optional<Program>, kinds> shaded_;
    std::array<std::optional<Program>, kinds> quick_;
    std::optional<Program> cap_;
    std::vector<const Program*> prepared_;  // have the values that all items of a picture share
    GlTexture grain_;
    GlVertexArray no_vertices_;
};

}  // namespace podwright
