#include "bench/file_dialog.hpp"

#include <GLFW/glfw3.h>
#include <imgui_stdlib.h>

#include "bench/file_words.hpp"
#include "file/asset.hpp"
#include "file/disk.hpp"
#include "file/scene.hpp"

namespace podwright {

namespace fs = std::filesystem;

namespace {

void centre_next_window() {
    const ImVec2 middle = ImGui::GetMainViewport()->GetCenter();
    ImGui::SetNextWindowPos(middle, ImGuiCond_Appearing, {0.5F, 0.5F});
}

/// A demo is saved elsewhere.
bool has_own_file(const Model& model) { return !model.path.empty() && !model.is_demo; }

bool would_replace(const Model& model, const fs::path& path) {
    if (!is_file(path)) return false;
    return !has_own_file(model) || !is_same_file(path, model.path);
}

}  // namespace

bool is_demo_scene(const fs::path& path) {
    return is_same_file(path.parent_path(), share_folder() / "scenes");
}

void FileDialog::open(Model& model, const fs::path& path, double now) {
    problem_.clear();
    try {
        next_ = Next{path, read_scene(path)};
    } catch (const FileError& error) {
        say(model, problem_ = error.what(), now);
        wants_keyboard_ = true;
        return;
    }
    if (model.history.is_saved())
        go_on(model, now);
    else
        purpose_ = Purpose::question;
}

void FileDialog::close(const Model& model) {
    if (model.history.is_saved()) {
        may_leave_ = true;
        return;
    }
    next_ = Next{};
    problem_.clear();
    purpose_ = Purpose::question;
}

void FileDialog::go_on(Model& model, double now) {
    const std::optional<Next> next = std::exchange(next_, {});
    purpose_ = Purpose::none;
    if (!next) return;
    if (!next->scene) {
        may_leave_ = true;
        return;
    }
    take(model, *next->scene, next->path);
    model.is_demo = is_demo_scene(next->path);
    was_opened_ = true;
    say(model, "Opened " + plain(next->path.filename()), now);
}

void FileDialog::drop() {
    next_.reset();
    purpose_ = Purpose::none;
}

void FileDialog::save_to(Model& model, const fs::path& path, double now) {
    try {
        save_scene(model.history.now(), path, model.path);
    } catch (const FileError& error) {
        say(model, problem_ = error.what(), now);
        wants_keyboard_ = true;
        return;
    }
    model.path = path;
    model.is_demo = is_demo_scene(path);
    model.history.mark_saved();
    say(model, "Saved " + plain(path.filename()), now);
    go_on(model, now);
}

void FileDialog::save(Model& model, double now) {
    if (has_own_file(model))
        save_to(model, model.path, now);
    else
        ask_name(model, Purpose::save_as);
}

void FileDialog::go_to_folder(const fs::path& folder) {
    list_ = list_folder(folder);
    problem_ = list_.problem;
    to_replace_.clear();
}

void FileDialog::ask_name(const Model& model, Purpose purpose) {
    purpose_ = purpose;
    name_ = model.path.empty() ? "my-car.toml" : plain(model.path.filename());
    if (purpose == Purpose::open) name_.clear();
    wants_keyboard_ = true;
    go_to_folder(model.path.parent_path());
}

void FileDialog::ask_open(const Model& model) {
    next_.reset();
    ask_name(model, Purpose::open);
}

void FileDialog::ask_save_as(const Model& model) {
    next_.reset();
    ask_name(model, Purpose::save_as);
}

void FileDialog::show(WindowFrame& frame) {
    if (purpose_ == Purpose::none) return;
    if (purpose_ == Purpose::question)
        show_question(frame);
    else
        show_files(frame);
}

/// What the name means: a scene in the folder that is listed.
fs::path FileDialog::named() const {
    fs::path path = list_.folder / fs::path(std::u8string(name_.begin(), name_.end()));
    if (path.extension() != ".toml") path += ".toml";
    return path;
}

/// The scene stands behind the present one, which stays as it is.
void FileDialog::show_ghost(WindowFrame& frame) {
    try {
        keep_ghost(frame.model, read_scene(named()));
    } catch (const FileError& error) {
        say(frame.model, problem_ = error.what(), frame.now);
        wants_keyboard_ = true;
        return;
    }
    frame.model.page = Page::car;
    drop();
}

void FileDialog::accept(WindowFrame& frame) {
    if (name_.empty()) {
        problem_ = "Give the scene a name.";
        wants_keyboard_ = true;
        return;
    }
    const fs::path path = named();
    if (purpose_ == Purpose::open) {
        open(frame.model, path, frame.now);
    } else if (would_replace(frame.model, path)) {
        to_replace_ = path;
        wants_keyboard_ = true;
    } else {
        problem_.clear();
        save_to(frame.model, path, frame.now);
    }
}

void FileDialog::show_files(WindowFrame& frame) {
    const Purpose purpose = purpose_;
    const char* title = purpose == Purpose::open ? "Open a scene" : "Save the scene as";
    ImGui::OpenPopup(title);
    centre_next_window();
    ImGui::SetNextWindowSize({frame.px(520), frame.px(440)}, ImGuiCond_Appearing);
    bool stay = true;
    if (!ImGui::BeginPopupModal(title, &stay, ImGuiWindowFlags_NoSavedSettings)) return;
    wrapped(frame.type.small, frame.colours().quiet, plain(list_.folder));
    // Return means the name that stands there, where no control has the keyboard.
    const ImGuiIO& io = ImGui::GetIO();
    bool chosen = frame.return_pressed() && !io.NavVisible && !io.WantTextInput;
    const fs::path enter = show_list(frame, chosen);
    if (!enter.empty()) go_to_folder(enter);
    if (to_replace_.empty())
        show_name(frame, chosen);
    else
        show_replace(frame);
    if (!stay) drop();
    if (purpose_ != purpose) ImGui::CloseCurrentPopup();
    ImGui::EndPopup();
}

/// The folder to go to, if any; `chosen` is set when a scene was meant, not only named.
fs::path FileDialog::show_list(WindowFrame& frame, bool& chosen) {
    ImGui::BeginChild("list", {0, -frame.px(76)}, true);
    fs::path enter;
    const auto pressed = [&](const std::string& words, bool on = false, int flags = 0) {
        return ImGui::Selectable(words.c_str(), on, flags) || return_on_last(frame);
    };
    if (pressed("..  up one folder")) enter = list_.folder.parent_path();
    for (const fs::path& folder : list_.folders)
        if (pressed(plain(folder) + "/")) enter = list_.folder / folder;
    for (const fs::path& scene : list_.scenes) {
        if (pressed(plain(scene), name_ == plain(scene), ImGuiSelectableFlags_AllowDoubleClick)) {
            name_ = plain(scene);
            to_replace_.clear();
            chosen = ImGui::IsMouseDoubleClicked(0) || frame.return_pressed();
        }
        frame.note_place("file " + plain(scene), ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    }
    ImGui::EndChild();
    return enter;
}

void FileDialog::show_name(WindowFrame& frame, bool chosen) {
    ImGui::SetNextItemWidth(-1);
    if (std::exchange(wants_keyboard_, false)) ImGui::SetKeyboardFocusHere();
    bool entered = ImGui::InputTextWithHint("##name", "name of the scene", &name_,
                                            ImGuiInputTextFlags_EnterReturnsTrue);
    if (entered && !frame.return_pressed()) {
        entered = false;  // Return is held and repeats: no second answer
        wants_keyboard_ = true;
    }
    if (!problem_.empty()) wrapped(frame.type.small, frame.colours().ink, problem_);
    const char* word = purpose_ == Purpose::open ? "Open" : "Save";
    if (button(frame, "accept", word, !name_.empty(), true) || entered || chosen) accept(frame);
    ImGui::SameLine();
    if (purpose_ == Purpose::open) {
        if (button(frame, "as ghost", "As a ghost", !name_.empty())) show_ghost(frame);
        tip_for_last(frame, "Stands behind the present car, which stays as it is");
        ImGui::SameLine();
    }
    if (button(frame, "cancel", "Cancel") || frame.pressed(GLFW_KEY_ESCAPE)) drop();
}

void FileDialog::show_replace(WindowFrame& frame) {
    wrapped(frame.type.text, frame.colours().ink,
            plain(to_replace_.filename()) + " is there already: replace it?");
    bool answered = frame.pressed(GLFW_KEY_ESCAPE);
    if (button(frame, "replace", "Replace it", true, true)) {
        answered = true;
        save_to(frame.model, to_replace_, frame.now);
    }
    ImGui::SameLine();
    if (std::exchange(wants_keyboard_, false)) ImGui::SetKeyboardFocusHere();
    if (button(frame, "keep", "Keep it")) answered = true;
    if (!answered) return;
    to_replace_.clear();
    wants_keyboard_ = true;
}

void FileDialog::show_question(WindowFrame& frame) {
    ImGui::OpenPopup("Keep your changes?");
    centre_next_window();
    if (!ImGui::BeginPopupModal(
            "Keep your changes?", nullptr,
            ImGuiWindowFlags_AlwaysAutoResize | ImGuiWindowFlags_NoSavedSettings))
        return;
    Model& model = frame.model;
    const bool closes = !next_ || !next_->scene;
    wrapped(frame.type.text, frame.colours().ink,
            "\"" + model.setup.title + "\" has changes that are not saved.", frame.px(400));
    if (!closes)
        wrapped(frame.type.text, frame.colours().ink,
                plain(next_->path.filename()) + " would take its place.", frame.px(400));
    if (!problem_.empty()) wrapped(frame.type.small, frame.colours().ink, problem_, frame.px(400));
    ImGui::Dummy({frame.px(360), frame.px(4)});
    if (button(frame, "leave save", closes ? "Save and close" : "Save and open", true, true))
        save(model, frame.now);
    ImGui::SameLine();
    if (button(frame, "leave discard", closes ? "Close without saving" : "Open without saving"))
        go_on(model, frame.now);
    ImGui::SameLine();
    if (button(frame, "leave cancel", "Stay") || frame.pressed(GLFW_KEY_ESCAPE)) drop();
    if (purpose_ != Purpose::question) ImGui::CloseCurrentPopup();
    ImGui::EndPopup();
}

}  // namespace podwright
