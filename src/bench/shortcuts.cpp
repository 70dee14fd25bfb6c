#include "bench/shortcuts.hpp"

#include <GLFW/glfw3.h>

#include "bench/views.hpp"

namespace podwright {

namespace {

void file_keys(Frame& frame, FileDialog& files) {
    Model& model = frame.model;
    const bool shift = ImGui::GetIO().KeyShift;
    const auto pressed = [](int key) { return ImGui::IsKeyPressed(key, false); };
    if (pressed(GLFW_KEY_Z)) shift ? redo(model) : undo(model);
    if (pressed(GLFW_KEY_Y)) redo(model);
    if (pressed(GLFW_KEY_Q)) glfwSetWindowShouldClose(glfwGetCurrentContext(), GLFW_TRUE);
    if (pressed(GLFW_KEY_O)) files.ask_open(model);
    if (pressed(GLFW_KEY_S)) {
        if (shift || model.path.empty() || model.is_demo)
            files.ask_save_as(model);
        else
            save_scene_as(model, model.path, frame.now);
    }
}

void frame_picked(Frame& frame, const Stage& stage, double aspect) {
    Model& model = frame.model;
    if (model.look.picked.empty()) {
        go_to_view(model, "axle", aspect, frame.now);
        return;
    }
    const auto [centre, radius] = stage.sphere_about(model.look, {model.look.picked});
    if (radius > 0) go_to(model, looking_at(model.camera, centre, radius * 1.4, aspect), frame.now);
}

void view_keys(Frame& frame, const Stage& stage, double aspect) {
    Model& model = frame.model;
    const auto pressed = [](int key) { return ImGui::IsKeyPressed(key, false); };
    for (const NamedView& view : named_views())
        if (pressed(GLFW_KEY_0 + view.key)) go_to_view(model, view.name, aspect, frame.now);
    if (pressed(GLFW_KEY_F)) frame_picked(frame, stage, aspect);
    if (pressed(GLFW_KEY_SPACE)) start_play(model, "pose.along", frame.now);
    if (pressed(GLFW_KEY_R)) start_play(model, "pose.turn", frame.now);
    if (pressed(GLFW_KEY_D)) model.labels = !model.labels;
    if (pressed(GLFW_KEY_L)) model.loupe = !model.loupe;
    if (pressed(GLFW_KEY_X)) model.look.pose.spread = model.look.pose.spread > 0 ? 0 : 1;
    if (pressed(GLFW_KEY_C)) model.cutaway = model.cutaway > 0 ? 0 : 1;
    if (pressed(GLFW_KEY_H)) model.help = !model.help;
    if (pressed(GLFW_KEY_TAB)) model.panels = !model.panels;
    if (pressed(GLFW_KEY_ESCAPE)) {
        model.help = false;
        model.look.picked.clear();
        model.chosen_finding.clear();
        model.look.alarmed.clear();
    }
}

}  // namespace

void handle_shortcuts(Frame& frame, FileDialog& files, const Stage& stage, double aspect) {
    const ImGuiIO& io = ImGui::GetIO();
    if (io.WantTextInput || files.is_open()) return;
    if (io.KeyCtrl)
        file_keys(frame, files);
    else
        view_keys(frame, stage, aspect);
}

}  // namespace podwright
