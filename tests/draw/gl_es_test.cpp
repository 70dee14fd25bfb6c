#include <epoxy/egl.h>

#include <catch2/catch.hpp>

#include "gl_bench.hpp"
#include "test_meshes.hpp"

// Derived: the same picture by another interface; how far drivers round apart is counted below.
using namespace podwright;

namespace {

/// A surfaceless context of OpenGL ES 3.0, as browsers offer it.
class EsContext {
public:
    EsContext() {
        display_ =
            eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr);
        REQUIRE(eglInitialize(display_, nullptr, nullptr) == EGL_TRUE);
        REQUIRE(eglBindAPI(EGL_OPENGL_ES_API) == EGL_TRUE);
        const EGLint version[] = {EGL_CONTEXT_MAJOR_VERSION, 3, EGL_NONE};
        context_ = eglCreateContext(display_, EGL_NO_CONFIG_KHR, EGL_NO_CONTEXT, version);
        REQUIRE(context_ != EGL_NO_CONTEXT);
        REQUIRE(eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, context_) == EGL_TRUE);
    }
    ~EsContext() {
        eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
        eglDestroyContext(display_, context_);
    }
    EsContext(const EsContext&) = delete;
    EsContext& operator=(const EsContext&) = delete;

private:
    EGLDisplay display_ = EGL_NO_DISPLAY;
    EGLContext context_ = EGL_NO_CONTEXT;
};

/// Every kind of surface, one of them translucent and one cut open, and the loupe over them.
Image picture_by(Renderer& renderer, Quality quality, bool cut) {
    constexpr int width = 300, height = 170;
    Framebuffer picture(width, height);
    const MeshId ball = renderer.upload(test_meshes::sphere(12, 48, 24));
    Scene scene;
    float y = -60;
    for (const Look look : {Look::aluminium, Look::carbon, Look::foam, Look::brass}) {
        Item item;
        item.mesh = ball;
        item.look = look;
        item.place[3] = glm::vec4(0, y, 12, 1);
        if (look == Look::aluminium) item.emphasis = Emphasis::faded;
        item.cut = look == Look::brass;
        scene.items.push_back(item);
        y += 40;
    }
    if (cut) scene.cut = Cut{{1, 0, 0}, 0};
    Camera camera;
    camera.target = {0, 0, 8};
    camera.distance = 220;
    renderer.draw(scene, camera, {0, 0, width, height}, quality, picture.id(), height);
    camera.distance = 80;
    renderer.draw_round(scene, camera, {200, 4, 90, 90}, picture.id(), height);
    return picture.read();
}

}  // namespace

// There samples are averaged by the driver before they are laid over the backdrop, which rounds
// twice.
TEST_CASE("GL: OpenGL ES 3.0 gives the same picture") {
    const Quality quality = GENERATE(Quality::settled, Quality::moving);
    const bool cut = GENERATE(false, true);
    Image expected;
    {
        const HeadlessContext context;
        Renderer renderer;
        expected = picture_by(renderer, quality, cut);
    }
    const EsContext context;
    Renderer renderer;
    REQUIRE(renderer.description().substr(0, 9) == "OpenGL ES");
    const Image actual = picture_by(renderer, quality, cut);
    CHECK(glGetError() == GL_NO_ERROR);
    // Of 51000 pixels some 20 at edges differ by 3 to 10 of 255 levels. It cannot clip lines by the
    // cut: there a few specks are left.
    CHECK(test_meshes::changed(expected, actual, 10) <= (cut ? 8 : 0));
    CHECK(test_meshes::changed(expected, actual, 2) < 60);
}
