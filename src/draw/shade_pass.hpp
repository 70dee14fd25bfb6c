#pragma once

#include <optional>

#include "draw/gl_handle.hpp"
#include "draw/plan.hpp"
#include "draw/program.hpp"
#include "draw/shadow_pass.hpp"

namespace podwright {

/// How open what is in sight is to the room and to the key light, found before the parts are drawn:
/// at half the picture's size where the picture is large.
class ShadePass {
public:
    ShadePass();

    /// For the solid items of the plan.
    void render(const Plan& plan, const ShadowPass& shadows);
    /// Everything is open: for pictures that have no shadows.
    void clear();
    /// Binds the result to the present unit, and tells `program` how item_fragment is to read it.
    void bind(const Program& program, const Plan& plan) const;

private:
    void fit(int width, int height);
    void draw_depth(const Plan& plan, const ShadowPass& shadows);

    GlFramebuffer depth_view_;
    GlTexture depth_;
    GlFramebuffer raw_view_;
    GlTexture raw_;
    GlFramebuffer smooth_view_;
    GlTexture smooth_;
    GlTexture open_;
    std::optional<Program> shade_;
    std::optional<Program> blur_;
    GlVertexArray no_vertices_;
    int width_ = 0;
    int height_ = 0;
    bool cleared_ = true;
};

}  // namespace podwright
