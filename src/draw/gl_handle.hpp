#pragma once

#include <epoxy/gl.h>

#include <utility>

namespace podwright {

/// Owns one OpenGL name. Must end before its context does.
template <class Kind>
class GlHandle {
public:
    GlHandle() = default;
    static GlHandle make() {
        GlHandle handle;
        handle.id_ = Kind::make();
        return handle;
    }
    GlHandle(GlHandle&& other) noexcept : id_(std::exchange(other.id_, 0)) {}
    GlHandle& operator=(GlHandle&& other) noexcept {
        std::swap(id_, other.id_);
        return *this;
    }
    ~GlHandle() {
        if (id_ != 0) Kind::release(id_);
    }
    GLuint id() const { return id_; }

private:
    GLuint id_ = 0;
};

struct BufferKind {
    static GLuint make() {
        GLuint id = 0;
        glGenBuffers(1, &id);
        return id;
    }
    static void release(GLuint id) { glDeleteBuffers(1, &id); }
};
struct VertexArrayKind {
    static GLuint make() {
        GLuint id = 0;
        glGenVertexArrays(1, &id);
        return id;
    }
    static void release(GLuint id) { glDeleteVertexArrays(1, &id); }
};
struct TextureKind {
    static GLuint make() {
        GLuint id = 0;
        glGenTextures(1, &id);
        return id;
    }
    static void release(GLuint id) { glDeleteTextures(1, &id); }
};
struct RenderbufferKind {
    static GLuint make() {
        GLuint id = 0;
        glGenRenderbuffers(1, &id);
        return id;
    }
    static void release(GLuint id) { glDeleteRenderbuffers(1, &id); }
};
struct FramebufferKind {
    static GLuint make() {
        GLuint id = 0;
        glGenFramebuffers(1, &id);
        return id;
    }
    static void release(GLuint id) { glDeleteFramebuffers(1, &id); }
};
struct ProgramKind {
    static GLuint make() { return glCreateProgram(); }
    static void release(GLuint id) { glDeleteProgram(id); }
};

using GlBuffer = GlHandle<BufferKind>;
using GlVertexArray = GlHandle<VertexArrayKind>;
using GlTexture = GlHandle<TextureKind>;
using GlRenderbuffer = GlHandle<RenderbufferKind>;
using GlFramebuffer = GlHandle<FramebufferKind>;
using GlProgram = GlHandle<ProgramKind>;

}  // namespace podwright
