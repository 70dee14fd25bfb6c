#include "bench/file_dialog.hpp"

#include <GLFW/glfw3.h>
#include <imgui_stdlib.h>

#include <algorithm>

#include "file/scene.hpp"

namespace podwright {

namespace fs = std::filesystem;

namespace {

std::string plain(const fs::path& path) {
    const std::u8string text = path.u8string();
    return {text.begin(), text.end()};
}

void centre_next_window() {
    const ImVec2 middle = ImGui::GetMainViewport()->GetCenter();
    ImGui::SetNextWindowPos(middle, ImGuiCond_Appearing, {0.5F, 0.5F});
}

}  // namespace

bool open_scene(Model& model, const fs::path& path, double now) {
    try {
        take(model, read_scene(path), path);
        say(model, "Opened " + plain(path.filename()), now);
        return true;
    } catch (const FileError& error) {
        say(model, error.what(), now);
        return false;
    }
}

bool save_scene_as(Model& model, const fs::path& path, double now) {
    try {
        save_scene(model.history.now(), path);
        model.path = path;
        model.history.mark_saved();
        say(model, "Saved " + plain(path.filename()), now);
        return true;
    } catch (const FileError& error) {
        say(model, error.what(), now);
        return false;
    }
}

void FileDialog::list_folder(const fs::path& folder) {
    std::error_code error;
    folder_ = fs::absolute(folder, error);
    folders_.clear();
    scenes_.clear();
    for (auto entry = fs::directory_iterator(folder_, error);
         !error && entry != fs::directory_iterator(); entry.increment(error)) {
        std::error_code ignored;
        const fs::path name = entry->path().filename();
        if (plain(name).front() == '.') continue;
        if (entry->is_directory(ignored)) folders_.push_back(name);
        if (entry->is_regular_file(ignored) && name.extension() == ".toml") scenes_.push_back(name);
    }
    std::sort(folders_.begin(), folders_.end());
    std::sort(scenes_.begin(), scenes_.end());
    problem_ = error ? "This folder cannot be listed: " + error.message() : "";
}

void FileDialog::ask_open(const Model& model) {
    purpose_ = Purpose::open;
    name_.clear();
    list_folder(model.path.empty() ? fs::current_path() : model.path.parent_path());
}

void FileDialog::ask_save_as(const Model& model) {
    purpose_ = Purpose::save_as;
    name_ = model.path.empty() ? "my-car.toml" : plain(model.path.filename());
    list_folder(model.path.empty() ? fs::current_path() : model.path.parent_path());
}

void FileDialog::show(WindowFrame& frame) {
    if (purpose_ == Purpose::none) return;
    if (purpose_ == Purpose::leave)
        show_leave(frame);
    else
        show_files(frame);
}

void FileDialog::accept(WindowFrame& frame) {
    if (name_.empty()) {
        problem_ = "Give the scene a name.";
        return;
    }
    fs::path path = folder_ / fs::path(std::u8string(name_.begin(), name_.end()));
    if (path.extension() != ".toml") path += ".toml";
    Model& model = frame.model;
    const bool done = purpose_ == Purpose::open ? open_scene(model, path, frame.now)
                                                : save_scene_as(model, path, frame.now);
    if (done)
        purpose_ = Purpose::none;
    else
        problem_ = model.message;
}

void FileDialog::show_files(WindowFrame& frame) {
    const bool opening = purpose_ == Purpose::open;
    const char* title = opening ? "Open a scene" : "Save the scene as";
    ImGui::OpenPopup(title);
    centre_next_window();
    ImGui::SetNextWindowSize({frame.px(520), frame.px(440)}, ImGuiCond_Appearing);
    bool stay = true;
    if (!ImGui::BeginPopupModal(title, &stay, ImGuiWindowFlags_NoSavedSettings)) return;
    wrapped(frame.type.small, frame.colours().quiet, plain(folder_));
    ImGui::BeginChild("list", {0, -frame.px(76)}, true);
    fs::path enter;
    if (ImGui::Selectable("..  up one folder")) enter = folder_.parent_path();
    for (const fs::path& folder : folders_)
        if (ImGui::Selectable((plain(folder) + "/").c_str())) enter = folder_ / folder;
    bool twice = false;
    for (const fs::path& scene : scenes_) {
        if (ImGui::Selectable(plain(scene).c_str(), name_ == plain(scene),
                              ImGuiSelectableFlags_AllowDoubleClick)) {
            name_ = plain(scene);
            twice = ImGui::IsMouseDoubleClicked(0);
        }
        frame.note_place("file " + plain(scene), ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    }
    ImGui::EndChild();
    if (!enter.empty()) list_folder(enter);
    ImGui::SetNextItemWidth(-1);
    if (ImGui::IsWindowAppearing()) ImGui::SetKeyboardFocusHere();
    const bool entered = ImGui::InputTextWithHint("##name", "name of the scene", &name_,
                                                  ImGuiInputTextFlags_EnterReturnsTrue);
    if (!problem_.empty()) wrapped(frame.type.small, frame.colours().ink, problem_);
    if (button(frame, "accept", opening ? "Open" : "Save", !name_.empty(), true) || entered ||
        twice)
        accept(frame);
    ImGui::SameLine();
    if (button(frame, "cancel", "Cancel") || !stay || frame.pressed(GLFW_KEY_ESCAPE))
        purpose_ = Purpose::none;
    if (purpose_ == Purpose::none) ImGui::CloseCurrentPopup();
    ImGui::EndPopup();
}

void FileDialog::show_leave(WindowFrame& frame) {
    ImGui::OpenPopup("Keep your changes?");
    centre_next_window();
    if (!ImGui::BeginPopupModal(
            "Keep your changes?", nullptr,
            ImGuiWindowFlags_AlwaysAutoResize | ImGuiWindowFlags_NoSavedSettings))
        return;
    Model& model = frame.model;
    ImGui::TextUnformatted(
        ("\"" + model.setup.title + "\" has changes that are not saved.").c_str());
    ImGui::Dummy({frame.px(360), frame.px(4)});
    if (button(frame, "leave save", "Save and close", true, true)) {
        if (model.path.empty()) {
            ask_save_as(model);
        } else if (save_scene_as(model, model.path, frame.now)) {
            may_leave_ = true;
            purpose_ = Purpose::none;
        }
    }
    ImGui::SameLine();
    if (button(frame, "leave discard", "Close without saving")) {
        may_leave_ = true;
        purpose_ = Purpose::none;
    }
    ImGui::SameLine();
    if (button(frame, "leave cancel", "Stay")) purpose_ = Purpose::none;
    if (purpose_ != Purpose::leave) ImGui::CloseCurrentPopup();
    ImGui::EndPopup();
}

}  // namespace podwright
