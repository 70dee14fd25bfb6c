#pragma once

#include <epoxy/gl.h>

#include "draw/gl_handle.hpp"
#include "draw/image.hpp"

namespace podwright {

/// A picture in the making: colour RGBA8, with depth and stencil or without. Needs a current
/// context for all its life. Throws DrawError if the size is refused.
class Framebuffer {
public:
    enum class Depth { none, with_stencil };

    Framebuffer() = default;
    Framebuffer(int width, int height, Depth depth = Depth::none, int samples = 1);

    GLuint id() const { return framebuffer_.id(); }
    /// The colours; of several samples a pixel if the picture has them. OpenGL ES 3.0 has no such
    /// textures: there 0.
    GLuint texture() const { return texture_.id(); }
    int width() const { return width_; }
    int height() const { return height_; }
    Depth depth() const { return kind_; }
    int samples() const { return samples_; }  ///< as asked for

    /// Averages the samples of a rectangle (pixels, from the lower left) into the same place of
    /// `target`, a picture of one sample.
    void average_into(const Framebuffer& target, int x, int y, int width, int height) const;
    /// The colours as they are now (one sample only).
    Image read() const;

private:
    void attach_texture();
    void attach_samples();
    void attach_depth();

    GlFramebuffer framebuffer_;
    GlTexture texture_;
    GlRenderbuffer colour_;
    GlRenderbuffer depth_;
    Depth kind_ = Depth::none;
    int width_ = 0;
    int height_ = 0;
    int samples_ = 0;
};

/// Makes the picture again if it is of another size or kind.
inline void resize(Framebuffer& picture, int width, int height,
                   Framebuffer::Depth depth = Framebuffer::Depth::none, int samples = 1) {
    if (picture.width() != width || picture.height() != height || picture.depth() != depth ||
        picture.samples() != samples)
        picture = Framebuffer(width, height, depth, samples);
}

/// Blending by the fragment's opacity; what was opaque stays opaque.
inline void blend_over() {
    glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
}

}  // namespace podwright
