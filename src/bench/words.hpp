#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bench/canvas.hpp"
#include "bench/dimension_lines.hpp"
#include "bench/label_layout.hpp"
#include "bench/loupe.hpp"
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
    bool dimensions = true;    ///< and in the exploded view the names of the parts
    bool loupe = true;
    bool room = false;           ///< the tightest clearances; those in trouble are always shown
    bool heat = false;           ///< the colour scale
    std::string happening = {};  ///< where the run through the envelope stands, in words
    const Clearance* looked_at = nullptr;  ///< the loupe goes to its gap instead of the float
    LengthUnit shown = LengthUnit::mm;
    float pixel_ratio = 1;  ///< pixels of the loupe's picture per pixel of the canvas
};

/// What the model asks to be written, shown with that look. Must not outlive either.
WordsInput words_input(const Model& model, const StageLook& look);

/// Where the words stood last: they stay there while that is good.
struct WordsMemory {
    LabelMemory labels;
    OffsetMemory offsets;
    std::optional<LoupePlace> loupe;
    SeenPoints seen;  ///< relative to where their parts stand
};

/// All words on the model and where they stand.
struct WordsPlan {
    std::vector<DrawnDimension> dimensions;  ///< theirs are the first of the wishes
    std::vector<const Clearance*> clearances;
    std::optional<LoupePlace> loupe;
    LoupeView loupe_view;
    std::optional<Segment> loupe_line;
    std::vector<std::string> texts;  ///< in full; then the shorter one, or nothing
    std::vector<std::string> short_texts;
    std::vector<Status> statuses;
    std::vector<LabelWish> wishes;
    LabelGround ground;
    LabelLayout layout;        ///< of the wishes
    PixelBox left_out_note{};  ///< where it is said that labels were left out, if any were

    /// Whether a dimension is drawn: its lines say nothing without its label.
    bool shows_dimension(std::size_t i) const { return layout.labels[i].shown; }
};

/// "2 labels left out"
std::string left_out_text(std::size_t count);

/// Whether parts are named: all that are pulled apart, or those that a chosen finding speaks of.
bool names_parts(const WordsInput& input);

/// Finds the places. `boxes` stand about the parts, in pod axes; parts are named where they are
/// `seen`. What the canvas has taken already is kept free; the loupe is added to it.
WordsPlan planned_words(Canvas& canvas, const WordsInput& input, const std::vector<Bounds>& boxes,
                        WordsMemory& memory, const SeenPoints& seen = {});

/// The dimensions, clearances, names and the loupe over the model. Holds the loupe's picture
/// between frames and draws it again only when something in it has changed. Must live until the
/// canvas is rendered.
class Words {
public:
    void draw(Canvas& canvas, const WordsInput& input, Stage& stage);

private:
    void draw_loupe_picture(const WordsInput& input, Stage& stage, const LoupeView& view, int size);

    WordsMemory memory_;
    Framebuffer loupe_;
    std::optional<PictureKey> drawn_;
};

}  // namespace podwright
