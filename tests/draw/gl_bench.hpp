#pragma once

#include <epoxy/gl.h>

#include <functional>

#include "draw/framebuffer.hpp"
#include "draw/headless.hpp"
#include "draw/renderer.hpp"

namespace podwright::test_meshes {

/// A context with a renderer and a picture to draw into.
struct GlBench {
    HeadlessContext context;
    Renderer renderer;
    Framebuffer picture;

    GlBench(int width, int height) : picture(width, height) {}

    Image draw(const Scene& scene, const Camera& camera, Quality quality = Quality::settled) {
        renderer.draw(scene, camera, {0, 0, picture.width(), picture.height()}, quality,
                      picture.id(), picture.height());
        return picture.read();
    }
};

/// Pixels that differ by more than `least` (0..255) in some colour.
inline int changed(const Image& a, const Image& b, int least = 6) {
    int count = 0;
    for (std::size_t i = 0; i < a.rgba.size(); i += 4) {
        int most = 0;
        for (std::size_t k = 0; k < 3; ++k)
            most = std::max(most, std::abs(int{a.rgba[i + k]} - int{b.rgba[i + k]}));
        count += most > least ? 1 : 0;
    }
    return count;
}

/// Pixels of which `test(red, green, blue)` holds.
inline int count(const Image& image, const std::function<bool(int, int, int)>& test) {
    int sum = 0;
    for (std::size_t i = 0; i < image.rgba.size(); i += 4)
        sum += test(image.rgba[i], image.rgba[i + 1], image.rgba[i + 2]) ? 1 : 0;
    return sum;
}

}  // namespace podwright::test_meshes
