#pragma once

#include <optional>

#include "draw/framebuffer.hpp"
#include "draw/gl_handle.hpp"
#include "draw/plan.hpp"
#include "draw/program.hpp"
#include "draw/shadow_pass.hpp"

namespace podwright {

enum class Presenting { plain, smoothed, round };

/// What lies behind the parts, and the way of the finished picture to its target.
class BackdropPass {
public:
    BackdropPass();

    /// The ground as far as the parts darken it, if the eye is above it.
    void draw_ground(const Plan& plan, const Scene& scene, const ShadowPass& shadows);
    /// Where nothing has been drawn yet.
    void draw_backdrop(const Plan& plan, const Scene& scene);
    /// Ground and backdrop in the bound framebuffer, without depth, where the parts do not reach.
    void draw_surroundings(const Plan& plan, const Scene& scene, const ShadowPass& shadows);
    /// Copies `picture` to the bound framebuffer, with its lower left corner at x, y.
    void present(const Framebuffer& picture, int x, int y, Presenting how);
    /// The same, smoothed within the rectangle `touched` and as it is elsewhere.
    void present_smoothed(const Framebuffer& picture, int x, int y, const Viewport& touched);

private:
    std::optional<Program> ground_;
    std::optional<Program> backdrop_;
    std::optional<Program> plain_;
    std::optional<Program> smoothed_;
    std::optional<Program> round_;
    GlVertexArray no_vertices_;
};

}  // namespace podwright
