#pragma once

#include <memory>

#include "bench/model.hpp"
#include "bench/stage.hpp"
#include "bench/words.hpp"
#include "draw/framebuffer.hpp"
#include "draw/headless.hpp"

namespace podwright {

/// How close meshes have to be to the true surface in a picture of so many lines, mm.
double chord_error_for(int height);

/// Where pictures are made with no window and no display: shows a model as the window does.
class Easel {
public:
    /// For pictures of this size, pixels. Throws DrawError.
    Easel(int width, int height, const MeshLibrary& library);
    ~Easel();

    /// As Renderer::rehearse(), for pictures cut open or not, with labels or without.
    void rehearse(bool cut, bool labels);
    /// Takes meshes that were made ahead, to the chord error for the picture's height.
    void take(std::list<Meshed> ahead) { stage_.take(std::move(ahead)); }

    /// The model as it stands; with `labels`, title, findings, dimensions and loupe are on it.
    Image draw(const Model& model, bool labels);

private:
    struct WordsSession;
    void write_over(const Model& model, const StageLook& look);

    HeadlessContext context_;
    Stage stage_;
    Framebuffer picture_;
    std::unique_ptr<WordsSession> words_;
    std::size_t staged_ = 0;  ///< revision whose meshes the stage holds
};

}  // namespace podwright
