#pragma once

#include <utility>

namespace podwright {

/// An OpenGL 3.3 core context with no window and no display, current in this thread. Draw into a
/// Framebuffer. Throws DrawError if there is none.
class HeadlessContext {
public:
    HeadlessContext();
    ~HeadlessContext();
    HeadlessContext(HeadlessContext&& other) noexcept
        : display_(std::exchange(other.display_, nullptr)),
          context_(std::exchange(other.context_, nullptr)) {}
    HeadlessContext& operator=(HeadlessContext&& other) noexcept {
        std::swap(display_, other.display_);
        std::swap(context_, other.context_);
        return *this;
    }

private:
    void* display_ = nullptr;
    void* context_ = nullptr;
};

}  // namespace podwright
