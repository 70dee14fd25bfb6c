#include "bench/shortcuts.hpp"

#include <GLFW/glfw3.h>

#include "bench/camera_moves.hpp"
#include "bench/keys.hpp"
#include "bench/load_case.hpp"
#include "bench/views.hpp"

namespace podwright {

namespace {

void file_key(WindowFrame& frame, FileDialog& files, const KeyPress& press) {
    Model& model = frame.model;
    switch (press.key) {
        case GLFW_KEY_Z: press.shift ? redo(model) : undo(model); break;
        case GLFW_KEY_Y: redo(model); break;
        case GLFW_KEY_Q: glfwSetWindowShouldClose(glfwGetCurrentContext(), GLFW_TRUE); break;
        case GLFW_KEY_O: files.ask_open(model); break;
        case GLFW_KEY_S:
            if (press.shift)
                files.ask_save_as(model);
            else
                files.save(model, frame.now);
            break;
        default: break;
    }
}

void frame_picked(WindowFrame& frame, const Stage& stage, double aspect) {
    Model& model = frame.model;
    if (model.look.picked.empty()) {
        go_to_view(model, "axle", aspect, frame.now);
        return;
    }
    const auto [centre, radius] = stage.sphere_about(model.look, {model.look.picked});
    if (radius > 0) go_to(model, looking_at(model.camera, centre, radius * 1.4, aspect), frame.now);
}

void camera_key(WindowFrame& frame, const KeyPress& press) {
    Model& model = frame.model;
    const ImVec2 size = ImGui::GetIO().DisplaySize;
    Camera to = model.move ? model.move->to : model.camera;  // keys follow faster than the camera
    if (move_camera_by_key(to, press, {size.x, size.y})) go_to(model, to, frame.now);
}

/// Picks the part after the one that is picked, or before it, as they lie in the assembly.
void pick_next(Model& model, int step) {
    const auto& parts = model.evaluation.assembly.parts;
    const int count = static_cast<int>(parts.size());
    if (count == 0) return;
    int at = step > 0 ? -1 : 0;
    for (int i = 0; i < count; ++i)
        if (parts[static_cast<std::size_t>(i)].key == model.look.picked) at = i;
    model.look.picked = parts[static_cast<std::size_t>((at + step + count) % count)].key;
}

void view_key(WindowFrame& frame, const Stage& stage, double aspect, int key) {
    Model& model = frame.model;
    for (const NamedView& view : named_views())
        if (key == GLFW_KEY_0 + view.key) go_to_view(model, view.name, aspect, frame.now);
    switch (key) {
        case GLFW_KEY_F: frame_picked(frame, stage, aspect); break;
        case GLFW_KEY_SPACE:
            // Where the keyboard has gone to a control it presses that.
            if (!ImGui::GetIO().NavVisible) start_play(model, "pose.along", frame.now);
            break;
        case GLFW_KEY_COMMA: pick_next(model, -1); break;
        case GLFW_KEY_PERIOD: pick_next(model, 1); break;
        case GLFW_KEY_R: start_play(model, "pose.turn", frame.now); break;
        case GLFW_KEY_O: start_play(model, "turntable", frame.now); break;
        case GLFW_KEY_B: next_load_case(model, frame.now); break;
        case GLFW_KEY_E: model.page = model.page == Page::feel ? Page::car : Page::feel; break;
        case GLFW_KEY_P: start_play(model, "load", frame.now); break;
        case GLFW_KEY_G: toggle_ghost(model); break;
        case GLFW_KEY_I: isolate(model, model.look.picked); break;
        case GLFW_KEY_S:
            if (!model.look.picked.empty()) toggle(model.look.see_through, model.look.picked);
            break;
        case GLFW_KEY_W:
            if (!model.look.picked.empty()) toggle(model.look.whole, model.look.picked);
            break;
        case GLFW_KEY_D: model.labels = !model.labels; break;
        case GLFW_KEY_L: model.loupe = !model.loupe; break;
        case GLFW_KEY_X: glide_spread(model, model.look.pose.spread > 0 ? 0 : 1, frame.now); break;
        case GLFW_KEY_C: glide_cutaway(model, model.cutaway > 0 ? 0 : 1, frame.now); break;
        case GLFW_KEY_M: model.room = !model.room; break;
        case GLFW_KEY_K: model.heat = !model.heat; break;
        case GLFW_KEY_N: model.dark = !model.dark; break;
        case GLFW_KEY_H: model.help = !model.help; break;
        case GLFW_KEY_TAB: model.panels = !model.panels; break;
        case GLFW_KEY_ESCAPE:
            model.help = false;
            model.look.picked.clear();
            model.chosen_finding.clear();
            model.look.alarmed.clear();
            model.looked_at.clear();
            break;
        default: break;
    }
}

}  // namespace

void handle_shortcuts(WindowFrame& frame, FileDialog& files, const Stage& stage, double aspect) {
    if (ImGui::GetIO().WantTextInput || files.is_open()) return;
    for (const KeyPress& press : frame.keys) {
        if (press.control) {
            file_key(frame, files, press);
            camera_key(frame, press);
        } else {
            view_key(frame, stage, aspect, press.key);
        }
    }
}

}  // namespace podwright
