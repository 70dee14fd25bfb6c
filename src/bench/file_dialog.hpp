#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "bench/widgets.hpp"

namespace podwright {

/// Open and save of scenes from the window, with a folder list of the bench's own.
class FileDialog {
public:
    enum class Purpose { none, open, save_as, leave };

    void ask_open(const Model& model);
    void ask_save_as(const Model& model);
    /// Asks what to do with unsaved changes before the window closes.
    void ask_leave() { purpose_ = Purpose::leave; }
    /// Draws what is asked, and does it.
    void show(WindowFrame& frame);
    bool is_open() const { return purpose_ != Purpose::none; }
    /// The window may close.
    bool may_leave() const { return may_leave_; }

private:
    void list_folder(const std::filesystem::path& folder);
    void show_files(WindowFrame& frame);
    void show_leave(WindowFrame& frame);
    void accept(WindowFrame& frame);

    Purpose purpose_ = Purpose::none;
    std::filesystem::path folder_;
    std::vector<std::filesystem::path> folders_, scenes_;
    std::string name_;
    std::string problem_;
    bool may_leave_ = false;
};

/// Opens a scene into the model, or says in one line why not.
bool open_scene(Model& model, const std::filesystem::path& path, double now);
/// Saves where the model came from, or to `path`; or says in one line why not.
bool save_scene_as(Model& model, const std::filesystem::path& path, double now);

}  // namespace podwright
