#include "draw/backdrop_pass.hpp"

#include <string>
#include <vector>

namespace podwright {

namespace {

void set_sweep(const Program& program, const Plan& plan, bool dark) {
    program.set("u_floor",
                dark ? glm::vec3(0.255F, 0.262F, 0.275F) : glm::vec3(0.950F, 0.952F, 0.955F));
    program.set("u_wall",
                dark ? glm::vec3(0.075F, 0.080F, 0.092F) : glm::vec3(0.745F, 0.768F, 0.796F));
    program.set("u_size", 2.0F * plan.frame.half_size);
    program.set("u_sweep", glm::vec2(plan.frame.horizon, dark ? 0.55F : 0.20F));
}

/// What of a picture lies about the rectangle.
std::vector<Viewport> strips_around(const Viewport& hole, int width, int height) {
    const int right = hole.x + hole.width;
    const int above = hole.y + hole.height;
    std::vector<Viewport> strips;
    for (const Viewport& strip :
         {Viewport{0, 0, width, hole.y}, Viewport{0, above, width, height - above},
          Viewport{0, hole.y, hole.x, hole.height},
          Viewport{right, hole.y, width - right, hole.height}})
        if (strip.width > 0 && strip.height > 0) strips.push_back(strip);
    return strips;
}

}  // namespace

BackdropPass::BackdropPass() : no_vertices_(GlVertexArray::make()) {}

void BackdropPass::draw_ground(const Plan& plan, const Scene& scene, const ShadowPass& shadows) {
    if (glm::dot(plan.frame.eye - scene.ground_point, scene.ground_normal) <= 0) return;
    if (!ground_) ground_.emplace(Program({"ground_vertex"}, {"backdrop", "ground_fragment"}));
    ground_->use();
    ground_->set("u_place_to_clip", glm::mat4(plan.frame.view_projection));
    ground_->set("u_corner", shadows.patch().corner);
    ground_->set("u_along", shadows.patch().along);
    ground_->set("u_across", shadows.patch().across);
    set_sweep(*ground_, plan, scene.dark);
    ground_->set("u_map", 0);
    glDisable(GL_CULL_FACE);
    glBindTexture(GL_TEXTURE_2D, shadows.ground_map());
    glBindVertexArray(no_vertices_.id());
    glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
}

void BackdropPass::draw_backdrop(const Plan& plan, const Scene& scene) {
    if (!backdrop_)
        backdrop_.emplace(Program({"fullscreen_vertex"}, {"backdrop", "backdrop_fragment"}));
    backdrop_->use();
    set_sweep(*backdrop_, plan, scene.dark);
    glDisable(GL_CULL_FACE);
    glBindVertexArray(no_vertices_.id());
    glDrawArrays(GL_TRIANGLES, 0, 3);
}

void BackdropPass::draw_behind(const Plan& plan, const Scene& scene, const ShadowPass& shadows) {
    glEnable(GL_DEPTH_TEST);
    if (scene.show_ground) draw_ground(plan, scene, shadows);
    glDepthFunc(GL_LEQUAL);
    draw_backdrop(plan, scene);
    glDepthFunc(GL_LESS);
}

void BackdropPass::draw_over(const Plan& plan, const Scene& scene, const ShadowPass& shadows) {
    glDisable(GL_DEPTH_TEST);
    draw_backdrop(plan, scene);
    if (scene.show_ground) draw_ground(plan, scene, shadows);
}

void BackdropPass::draw_around(const Plan& plan, const Scene& scene, const ShadowPass& shadows) {
    const glm::ivec2 size(plan.frame.half_size * 2.0F);
    glEnable(GL_SCISSOR_TEST);
    for (const Viewport& part : strips_around(plan.touched, size.x, size.y)) {
        glScissor(part.x, part.y, part.width, part.height);
        draw_over(plan, scene, shadows);
    }
    glDisable(GL_SCISSOR_TEST);
}

const Program& BackdropPass::presenter(Presenting how, bool sampled) {
    auto& slot = presenters_.at(static_cast<std::size_t>(how)).at(sampled ? 1 : 0);
    if (!slot) {
        const std::string shape = how == Presenting::smoothed ? " SMOOTH"
                                  : how == Presenting::round  ? " ROUND"
                                                              : "";
        slot.emplace(Program({"fullscreen_vertex"}, {"present_fragment"},
                             (sampled ? "SAMPLES" : "") + shape));
    }
    return *slot;
}

void BackdropPass::present(const Framebuffer& picture, int x, int y, Presenting how) {
    const bool sampled = picture.samples() > 1;
    const Program& program = presenter(how, sampled);
    program.use();
    program.set("u_picture", 0);
    program.set("u_samples", picture.samples());
    program.set("u_view", glm::vec4(x, y, picture.width(), picture.height()));
    glViewport(x, y, picture.width(), picture.height());
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    if (how == Presenting::round) {
        glEnable(GL_BLEND);
        blend_over();
    }
    glBindTexture(sampled ? GL_TEXTURE_2D_MULTISAMPLE : GL_TEXTURE_2D, picture.texture());
    glBindVertexArray(no_vertices_.id());
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glDisable(GL_BLEND);
}

void BackdropPass::present_smoothed(const Framebuffer& picture, int x, int y,
                                    const Viewport& touched) {
    const auto within = [&](const Viewport& part, Presenting how) {
        glScissor(x + part.x, y + part.y, part.width, part.height);
        present(picture, x, y, how);
    };
    glEnable(GL_SCISSOR_TEST);
    within(touched, Presenting::smoothed);
    for (const Viewport& part : strips_around(touched, picture.width(), picture.height()))
        within(part, Presenting::plain);
    glDisable(GL_SCISSOR_TEST);
}

}  // namespace podwright
