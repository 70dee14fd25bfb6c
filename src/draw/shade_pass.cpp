#include "draw/shade_pass.hpp"

#include <array>
#include <cstddef>
#include <cstdint>

#include "draw/texture_filter.hpp"

namespace podwright {

namespace {

constexpr float largest_whole = 1100;  // lines; pictures of more are shaded at half their size

void attach_colour(const GlFramebuffer& view, const GlTexture& texture, int width, int height) {
    glBindTexture(GL_TEXTURE_2D, texture.id());
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
    set_filter(GL_LINEAR);
    glBindFramebuffer(GL_FRAMEBUFFER, view.id());
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture.id(), 0);
}

}  // namespace

ShadePass::ShadePass()
    : depth_view_(GlFramebuffer::make()),
      depth_(GlTexture::make()),
      raw_view_(GlFramebuffer::make()),
      raw_(GlTexture::make()),
      smooth_view_(GlFramebuffer::make()),
      smooth_(GlTexture::make()),
      open_(GlTexture::make()),
      no_vertices_(GlVertexArray::make()) {
    // Like smooth_ in all but its size, so that programs serve for both as they are.
    constexpr int side = 3;
    std::array<std::uint8_t, std::size_t{4} * side * side> white{};
    white.fill(255);
    glBindTexture(GL_TEXTURE_2D, open_.id());
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, side, side, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                 white.data());
    set_filter(GL_LINEAR);
    glBindTexture(GL_TEXTURE_2D, 0);
}

void ShadePass::fit(int width, int height) {
    if (width == width_ && height == height_) return;
    width_ = width;
    height_ = height;
    glBindTexture(GL_TEXTURE_2D, depth_.id());
    glTexImage2D(GL_TEXTURE_2D, 0, GL_DEPTH_COMPONENT24, width, height, 0, GL_DEPTH_COMPONENT,
                 GL_UNSIGNED_INT, nullptr);
    set_filter(GL_NEAREST);
    glBindFramebuffer(GL_FRAMEBUFFER, depth_view_.id());
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, depth_.id(), 0);
    const GLenum none = GL_NONE;
    glDrawBuffers(1, &none);
    glReadBuffer(GL_NONE);
    attach_colour(raw_view_, raw_, width, height);
    attach_colour(smooth_view_, smooth_, width, height);
}

void ShadePass::draw_depth(const Plan& plan, const ShadowPass& shadows) {
    glBindFramebuffer(GL_FRAMEBUFFER, depth_view_.id());
    glViewport(0, 0, width_, height_);
    glEnable(GL_DEPTH_TEST);
    glDepthFunc(GL_LESS);
    glDepthMask(GL_TRUE);
    glClear(GL_DEPTH_BUFFER_BIT);
    glCullFace(GL_BACK);
    for (const bool cut : {false, true}) {
        // What is cut open shows its inside; its cap is drawn over it later.
        if (cut)
            glDisable(GL_CULL_FACE);
        else
            glEnable(GL_CULL_FACE);
        const Program& program = cut ? shadows.cut_program() : shadows.whole_program();
        program.use();
        program.set("u_cut", plan.frame.cut_plane);
        for (const Planned& planned : plan.solid) {
            if (planned.is_cut != cut) continue;
            program.set("u_place", planned.item->place);
            program.set("u_place_to_clip", planned.place_to_clip);
            planned.mesh->draw_triangles();
        }
    }
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
}

void ShadePass::render(const Plan& plan, const ShadowPass& shadows) {
    const Frame& frame = plan.frame;
    const glm::ivec2 size(frame.half_size * 2.0F);
    const int share = frame.half_size.y * 2 > largest_whole ? 2 : 1;
    fit((size.x + share - 1) / share, (size.y + share - 1) / share);
    cleared_ = false;
    draw_depth(plan, shadows);

    if (!shade_)
        shade_.emplace(
            Program({"fullscreen_vertex"}, {"key_direction", "penumbra", "shade_fragment"}));
    if (!blur_) blur_.emplace(Program({"fullscreen_vertex"}, {"shade_blur_fragment"}));
    const float nearest = frame.depths.x;
    const float farthest = frame.depths.y;
    glBindVertexArray(no_vertices_.id());
    shade_->use();
    shadows.set_key_light(*shade_, 1);
    shade_->set("u_scene", 0);
    shade_->set("u_world_to_light", frame.world_to_light);
    shade_->set("u_eye", frame.eye);
    shade_->set("u_ray_corner", frame.ray_corner);
    shade_->set("u_ray_along", frame.ray_along);
    shade_->set("u_ray_up", frame.ray_up);
    shade_->set("u_linear", glm::vec4(1 / farthest - 1 / nearest, 1 / nearest, nearest,
                                      1 / (farthest - nearest)));
    glActiveTexture(GL_TEXTURE1);
    shadows.bind_depth_map(false);
    glActiveTexture(GL_TEXTURE0);
    glBindTexture(GL_TEXTURE_2D, depth_.id());
    // Only there can anything be in sight.
    glEnable(GL_SCISSOR_TEST);
    const Viewport& touched = plan.touched;
    glScissor(touched.x / share, touched.y / share, touched.width / share + 2,
              touched.height / share + 2);
    glBindFramebuffer(GL_FRAMEBUFFER, raw_view_.id());
    glDrawArrays(GL_TRIANGLES, 0, 3);

    blur_->use();
    blur_->set("u_shade", 0);
    glBindTexture(GL_TEXTURE_2D, raw_.id());
    glBindFramebuffer(GL_FRAMEBUFFER, smooth_view_.id());
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glDisable(GL_SCISSOR_TEST);
}

void ShadePass::clear() { cleared_ = true; }

void ShadePass::bind(const Program& program, const Plan& plan) const {
    glBindTexture(GL_TEXTURE_2D, cleared_ ? open_.id() : smooth_.id());
    const glm::vec2 texels = cleared_ ? glm::vec2(1) : glm::vec2(width_, height_);
    const glm::vec2 scale = texels / (2.0F * plan.frame.half_size);
    program.set("u_light_view", glm::vec4(scale, texels - 1.0F));
    program.set("u_light_range",
                glm::vec2(plan.frame.depths.x, 255 / (plan.frame.depths.y - plan.frame.depths.x)));
}

}  // namespace podwright
