#pragma once

#include <optional>

#include "bench/canvas.hpp"
#include "bench/model.hpp"
#include "bench/picture_key.hpp"
#include "bench/views.hpp"
#include "draw/framebuffer.hpp"

namespace podwright {

/// What is to be written over the model.
struct WordsInput {
    const NamedView& view;
    const Setup& setup;
    const Evaluation& evaluation;
    const StageLook& look;
    std::size_t revision = 0;  ///< of the assembly on the stage
    bool dimensions = true;
    bool loupe = true;
    bool room = false;  ///< the tightest clearances; those in trouble are always shown
    bool heat = false;  ///< the colour scale
    const Clearance* looked_at = nullptr;  ///< the loupe goes to its gap instead of the float
    LengthUnit shown = LengthUnit::mm;
    float pixel_ratio = 1;  ///< pixels of the loupe's picture per pixel of the canvas
};

/// What the model asks to be written. Must not outlive it.
WordsInput words_input(const Model& model);

/// The dimensions and the loupe over the model. Holds the loupe's picture between frames and draws
/// it again only when something in it has changed. Must live until the canvas is rendered.
class Words {
public:
    void draw(Canvas& canvas, const WordsInput& input, Stage& stage);

private:
    void draw_loupe_picture(const WordsInput& input, Stage& stage, const Camera& camera, int size);

    Framebuffer loupe_;
    std::optional<PictureKey> drawn_;
};

}  // namespace podwright
