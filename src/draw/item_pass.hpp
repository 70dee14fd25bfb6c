#pragma once

#include <optional>

#include "draw/gl_handle.hpp"
#include "draw/plan.hpp"
#include "draw/program.hpp"
#include "draw/shadow_pass.hpp"

namespace podwright {

/// Surfaces of the parts, and the caps of those that are cut.
class ItemPass {
public:
    ItemPass();

    /// Leaves in the stencil, where a cut part shows its inside first, that part's mark.
    void draw_solid(const Plan& plan, const Scene& scene, const ShadowPass& shadows);
    /// Fills the marked places with hatched faces in the cutting plane.
    void draw_caps(const Plan& plan, const Cut& cut);
    /// Over everything else; only the nearest layer of each part shows.
    void draw_faded(const Plan& plan, const Scene& scene, const ShadowPass& shadows);

private:
    const Program& program_for(const Planned& planned);
    static void prepare(const Program& program, const Plan& plan, const Scene& scene,
                        const ShadowPass& shadows);
    static void mark_cut(const Plan& plan, const ShadowPass& shadows);
    void draw(const Planned& planned, const Plan& plan, const Scene& scene,
              const ShadowPass& shadows);

    std::optional<Program> plain_;
    std::optional<Program> patterned_;
    std::optional<Program> cap_;
    const Program* prepared_ = nullptr;  // has the values that all items of a picture share
    GlVertexArray no_vertices_;
};

}  // namespace podwright
