#pragma once

#include <epoxy/gl.h>

#include "draw/gl_handle.hpp"
#include "draw/image.hpp"

namespace podwright {

/// A picture in the making: colour RGBA8 with depth and stencil. Needs a current context for all
/// its life. Throws DrawError if the size is refused.
class Framebuffer {
public:
    Framebuffer() = default;
    /// One sample: the colour is a texture. More: it is a multisampled buffer, to be resolved.
    Framebuffer(int width, int height, int samples = 1);

    GLuint id() const { return framebuffer_.id(); }
    GLuint texture() const { return texture_.id(); }
    int width() const { return width_; }
    int height() const { return height_; }
    int samples() const { return samples_; }

    /// Averages the samples of a rectangle (pixels, from the lower left) into the same place of
    /// `target`, an RGBA8 framebuffer of one sample.
    void resolve_into(GLuint target, int x, int y, int width, int height) const;
    /// The colours as they are now (one sample only).
    Image read() const;

private:
    GlFramebuffer framebuffer_;
    GlTexture texture_;
    GlRenderbuffer colour_;
    GlRenderbuffer depth_;
    int width_ = 0;
    int height_ = 0;
    int samples_ = 0;
};

/// Blending by the fragment's opacity; what was opaque stays opaque.
inline void blend_over() {
    glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
}

}  // namespace podwright
