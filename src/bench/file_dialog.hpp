#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <utility>

#include "bench/widgets.hpp"
#include "file/folder_list.hpp"

namespace podwright {

/// Open and save of scenes from the window, with a folder list of the bench's own. Unsaved changes
/// are given up only after the user was asked.
class FileDialog {
public:
    void ask_open(const Model& model);
    void ask_save_as(const Model& model);
    /// Saves to the scene's own file; asks for one where there is none that may be written.
    void save(Model& model, double now);
    /// Opens that scene, at once or after the question.
    void open(Model& model, const std::filesystem::path& path, double now);
    /// Lets the window close, at once or after the question.
    void close(const Model& model);
    /// Draws what is asked, and does it.
    void show(WindowFrame& frame);
    bool is_open() const { return purpose_ != Purpose::none; }
    /// The window may close.
    bool may_leave() const { return may_leave_; }
    /// Whether another scene was opened since this was last asked.
    bool was_opened() { return std::exchange(was_opened_, false); }

private:
    enum class Purpose { none, open, save_as, question };
    /// What comes once the changes are saved or given up: a scene, or the end.
    struct Next {
        std::filesystem::path path;
        std::optional<Setup> scene;
    };

    void go_to_folder(const std::filesystem::path& folder);
    void ask_name(const Model& model, Purpose purpose);
    void show_files(WindowFrame& frame);
    std::filesystem::path show_list(WindowFrame& frame, bool& chosen);
    void show_name(WindowFrame& frame, bool chosen);
    void show_replace(WindowFrame& frame);
    void show_question(WindowFrame& frame);
    void accept(WindowFrame& frame);
    void show_ghost(WindowFrame& frame);
    std::filesystem::path named() const;
    void save_to(Model& model, const std::filesystem::path& path, double now);
    void go_on(Model& model, double now);
    void drop();

    Purpose purpose_ = Purpose::none;
    FolderList list_;
    std::string name_;
    std::string problem_;
    std::filesystem::path to_replace_;  ///< is there already: the user is asked
    bool wants_keyboard_ = false;       ///< for the name, or for the answer that changes nothing
    std::optional<Next> next_;
    bool may_leave_ = false;
    bool was_opened_ = false;
};

/// Whether that scene came with the program.
bool is_demo_scene(const std::filesystem::path& path);

}  // namespace podwright
