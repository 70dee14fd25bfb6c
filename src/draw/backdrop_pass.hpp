#pragma once

#include <array>
#include <optional>

#include "draw/framebuffer.hpp"
#include "draw/gl_handle.hpp"
#include "draw/plan.hpp"
#include "draw/program.hpp"
#include "draw/shadow_pass.hpp"

namespace podwright {

enum class Presenting {
    plain,
    smoothed,
    round  ///< within a circle, over what lies there
};

/// What lies behind the parts, and the way of the finished picture to its target.
class BackdropPass {
public:
    BackdropPass();

    /// Backdrop and, if the eye is above it, the ground as far as the parts darken it: where they
    /// are nearer than what has been drawn, or nothing has.
    void draw_behind(const Plan& plan, const Scene& scene, const ShadowPass& shadows);
    /// The same without depth, over everything.
    void draw_over(const Plan& plan, const Scene& scene, const ShadowPass& shadows);
    /// The same where the parts do not reach.
    void draw_around(const Plan& plan, const Scene& scene, const ShadowPass& shadows);
    /// Copies `picture` to the bound framebuffer, with its lower left corner at x, y. Only a
    /// picture of one sample a pixel can be smoothed.
    void present(const Framebuffer& picture, int x, int y, Presenting how);
    /// The same, smoothed within the rectangle `touched` and as it is elsewhere.
    void present_smoothed(const Framebuffer& picture, int x, int y, const Viewport& touched);

private:
    void draw_ground(const Plan& plan, const Scene& scene, const ShadowPass& shadows);
    void draw_backdrop(const Plan& plan, const Scene& scene);
    const Program& presenter(Presenting how, bool sampled);

    std::optional<Program> ground_;
    std::optional<Program> backdrop_;
    std::array<std::array<std::optional<Program>, 2>, 3> presenters_;  // of pixels, of samples
    GlVertexArray no_vertices_;
};

}  // namespace podwright
