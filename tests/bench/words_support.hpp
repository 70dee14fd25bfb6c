#pragma once

#include <algorithm>
#include <vector>

#include "bench/canvas.hpp"
#include "bench/views.hpp"
#include "bench/words.hpp"
#include "shape/mesher.hpp"

// What tests of the words on the model share.
namespace podwright {

/// Boxes about the parts, from coarse meshes.
inline std::vector<Bounds> boxes_of(const Assembly& assembly, const NamedView& view,
                                    const MeshLibrary& library) {
    std::vector<Bounds> boxes;
    for (const Part& part : assembly.parts) {
        if (std::find(view.see_through.begin(), view.see_through.end(), part.key) !=
            view.see_through.end())
            continue;
        for (const Body& body : part.bodies) {
            const Bounds box = bounds(mesh_of(body.solid, 0.5, library));
            Bounds out;
            for (int i = 0; i < 8; ++i)
                out.add(glm::dvec3(part.place * body.place *
                                   glm::dvec4(i & 1 ? box.high.x : box.low.x,
                                              i & 2 ? box.high.y : box.low.y,
                                              i & 4 ? box.high.z : box.low.z, 1)));
            boxes.push_back(out);
        }
    }
    return boxes;
}

struct Size {
    float width, height, scale;
};
// The four sizes of the picture, with the scale that a picture of that size is written at.
inline constexpr Size sizes[] = {
    {1000, 600, 0.9F}, {1280, 720, 1}, {720, 1280, 0.9F}, {3840, 2160, 3}};

inline Canvas canvas_of(const Size& size, const Type& type) {
    Canvas canvas;
    canvas.box = {{0, 0}, {size.width, size.height}};
    canvas.type = &type;
    // A title and a finding.
    canvas.taken = {{{16 * size.scale, 16 * size.scale}, {300 * size.scale, 44 * size.scale}},
                    {{16 * size.scale, size.height - 40 * size.scale},
                     {480 * size.scale, size.height - 16 * size.scale}}};
    return canvas;
}

/// The view's camera, composed for a picture of that size with words on it.
inline Camera camera_for(const NamedView& view, const Evaluation& evaluation, const Size& size) {
    return camera_of(view.name, evaluation,
                     composed(view, static_cast<double>(size.width) / size.height, 0, true));
}

/// The words of the view on a car as it stands.
inline WordsPlan plan_of(Canvas& canvas, const NamedView& view, const Setup& setup,
                         const Evaluation& evaluation, const MeshLibrary& library) {
    const StageLook look;
    WordsMemory memory;
    return planned_words(canvas, {view, setup, evaluation, look},
                         boxes_of(evaluation.assembly, view, library), memory);
}

}  // namespace podwright
