#include "draw/headless.hpp"

#include <epoxy/egl.h>

#include <array>

#include "draw/renderer.hpp"

namespace podwright {

namespace {

EGLDisplay display_of(EGLenum platform) {
    if (platform == EGL_NONE) return eglGetDisplay(EGL_DEFAULT_DISPLAY);
    void* device = EGL_DEFAULT_DISPLAY;
    if (platform == EGL_PLATFORM_DEVICE_EXT) {
        if (!epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_EXT_device_enumeration"))
            return EGL_NO_DISPLAY;
        EGLint count = 0;
        if (eglQueryDevicesEXT(1, &device, &count) == EGL_FALSE || count < 1) return EGL_NO_DISPLAY;
    }
    return eglGetPlatformDisplayEXT(platform, device, nullptr);
}

// A current surfaceless context of the display, or none.
EGLContext context_of(EGLDisplay display) {
    constexpr std::array<EGLint, 3> wanted_config{EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
    constexpr std::array<EGLint, 7> wanted{EGL_CONTEXT_MAJOR_VERSION,
                                           3,
                                           EGL_CONTEXT_MINOR_VERSION,
                                           3,
                                           EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                           EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                           EGL_NONE};
    if (!epoxy_has_egl_extension(display, "EGL_KHR_surfaceless_context")) return EGL_NO_CONTEXT;
    if (eglBindAPI(EGL_OPENGL_API) == EGL_FALSE) return EGL_NO_CONTEXT;
    EGLConfig config = EGL_NO_CONFIG_KHR;
    EGLint count = 0;
    if (eglChooseConfig(display, wanted_config.data(), &config, 1, &count) == EGL_FALSE ||
        count < 1)
        config = EGL_NO_CONFIG_KHR;
    EGLContext context = eglCreateContext(display, config, EGL_NO_CONTEXT, wanted.data());
    if (context == EGL_NO_CONTEXT) return EGL_NO_CONTEXT;
    if (eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, context) == EGL_TRUE)
        return context;
    eglDestroyContext(display, context);
    return EGL_NO_CONTEXT;
}

}  // namespace

HeadlessContext::HeadlessContext() {
    const bool choosable = epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_EXT_platform_base");
    for (const EGLenum platform :
         {EGL_PLATFORM_SURFACELESS_MESA, EGL_PLATFORM_DEVICE_EXT, EGL_NONE}) {
        if (platform != EGL_NONE && !choosable) continue;
        EGLDisplay display = display_of(platform);
        if (display == EGL_NO_DISPLAY || eglInitialize(display, nullptr, nullptr) == EGL_FALSE)
            continue;
        EGLContext context = context_of(display);
        if (context != EGL_NO_CONTEXT) {
            display_ = display;
            context_ = context;
            return;
        }
    }
    throw DrawError(
        "This computer offers no OpenGL 3.3 without a display: install a graphics driver or Mesa's "
        "software renderer.");
}

HeadlessContext::~HeadlessContext() {
    if (context_ == nullptr) return;
    eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    eglDestroyContext(display_, context_);
    // The display stays: all users of it in the process share it, and to end it would end them all.
}

}  // namespace podwright
