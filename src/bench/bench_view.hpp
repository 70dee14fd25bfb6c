#pragma once

#include <optional>

#include "bench/widgets.hpp"
#include "bench/words.hpp"

namespace podwright {

/// The 3D bench in its rectangle of the window: the picture of the model (drawn again only when
/// something that it shows has changed), the words on it, and what the mouse does to it.
class BenchView {
public:
    explicit BenchView(Stage& stage) : stage_(stage) {}

    /// Draws into `box` behind the panels.
    void show(WindowFrame& frame, const PixelBox& box);
    /// The last picture was stepped down because things moved; another is due when they rest.
    bool wants_settled() const { return drawn_ && quality_ == Quality::moving; }

private:
    void handle_mouse(WindowFrame& frame, const PixelBox& box);
    void point_at(WindowFrame& frame, const PixelBox& box);
    void draw_model(WindowFrame& frame, const PixelBox& box);
    void draw_words(WindowFrame& frame, const PixelBox& box);

    Stage& stage_;
    Words words_;
    Framebuffer picture_, moving_picture_;
    std::optional<PictureKey> drawn_;
    Quality quality_ = Quality::settled;
    double changed_at_ = -1;  ///< when something that the picture shows last changed, s
    std::size_t staged_ = 0;  ///< revision whose meshes the stage holds
    enum class Grip { none, turn, shift } grip_ = Grip::none;
    float dragged_ = 0;
    ImVec2 pointer_{-1, -1};
};

}  // namespace podwright
