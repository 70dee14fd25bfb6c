#include "draw/framebuffer.hpp"

#include <algorithm>

#include "draw/renderer.hpp"
#include "draw/texture_filter.hpp"

namespace podwright {

namespace {

GLint limit_of(GLenum name) {
    GLint limit = 0;
    glGetIntegerv(name, &limit);
    return limit;
}

}  // namespace

Framebuffer::Framebuffer(int width, int height, Depth depth, int samples)
    : framebuffer_(GlFramebuffer::make()),
      kind_(depth),
      width_(width),
      height_(height),
      samples_(samples) {
    const GLint limit = std::min(limit_of(GL_MAX_RENDERBUFFER_SIZE), limit_of(GL_MAX_TEXTURE_SIZE));
    if (width < 1 || height < 1 || width > limit || height > limit)
        throw DrawError("A picture must be 1 to " + std::to_string(limit) +
                        " pixels wide and high here, not " + std::to_string(width) + " x " +
                        std::to_string(height) + ".");
    GLint before = 0;
    glGetIntegerv(GL_FRAMEBUFFER_BINDING, &before);
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer_.id());
    if (samples == 1)
        attach_texture();
    else
        attach_samples();
    if (depth != Depth::none) attach_depth();
    const bool complete = glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE;
    glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(before));
    if (!complete) throw DrawError("This computer's OpenGL refused a picture buffer.");
}

void Framebuffer::attach_texture() {
    texture_ = GlTexture::make();
    glBindTexture(GL_TEXTURE_2D, texture_.id());
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width_, height_, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                 nullptr);
    set_filter(GL_LINEAR);
    glBindTexture(GL_TEXTURE_2D, 0);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture_.id(), 0);
}

void Framebuffer::attach_samples() {
    if (epoxy_is_desktop_gl()) {
        texture_ = GlTexture::make();
        glBindTexture(GL_TEXTURE_2D_MULTISAMPLE, texture_.id());
        glTexImage2DMultisample(GL_TEXTURE_2D_MULTISAMPLE, samples_, GL_RGBA8, width_, height_,
                                GL_TRUE);
        glBindTexture(GL_TEXTURE_2D_MULTISAMPLE, 0);
        glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D_MULTISAMPLE,
                               texture_.id(), 0);
        return;
    }
    colour_ = GlRenderbuffer::make();
    glBindRenderbuffer(GL_RENDERBUFFER, colour_.id());
    glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples_, GL_RGBA8, width_, height_);
    glBindRenderbuffer(GL_RENDERBUFFER, 0);
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, colour_.id());
}

void Framebuffer::attach_depth() {
    depth_ = GlRenderbuffer::make();
    glBindRenderbuffer(GL_RENDERBUFFER, depth_.id());
    glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples_ > 1 ? samples_ : 0,
                                     GL_DEPTH24_STENCIL8, width_, height_);
    glBindRenderbuffer(GL_RENDERBUFFER, 0);
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_STENCIL_ATTACHMENT, GL_RENDERBUFFER,
                              depth_.id());
}

void Framebuffer::average_into(const Framebuffer& target, int x, int y, int width,
                               int height) const {
    glBindFramebuffer(GL_READ_FRAMEBUFFER, id());
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, target.id());
    glBlitFramebuffer(x, y, x + width, y + height, x, y, x + width, y + height, GL_COLOR_BUFFER_BIT,
                      GL_NEAREST);
}

Image Framebuffer::read() const {
    const auto row = 4 * static_cast<std::size_t>(width_);
    Image image{width_, height_,
                std::vector<std::uint8_t>(row * static_cast<std::size_t>(height_))};
    GLint before = 0;
    glGetIntegerv(GL_READ_FRAMEBUFFER_BINDING, &before);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, id());
    glPixelStorei(GL_PACK_ALIGNMENT, 4);
    glReadPixels(0, 0, width_, height_, GL_RGBA, GL_UNSIGNED_BYTE, image.rgba.data());
    glBindFramebuffer(GL_READ_FRAMEBUFFER, static_cast<GLuint>(before));
    auto* pixels = image.rgba.data();
    for (int low = 0, high = height_ - 1; low < high; ++low, --high)
        std::swap_ranges(pixels + row * static_cast<std::size_t>(low),
                         pixels + row * static_cast<std::size_t>(low + 1),
                         pixels + row * static_cast<std::size_t>(high));
    return image;
}

}  // namespace podwright
