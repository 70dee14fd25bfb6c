#pragma once

#include <filesystem>

namespace podwright {

struct WindowRequest {
    std::filesystem::path scene;  ///< opened at the start
    bool tell = false;  ///< say on standard output, as lines of JSON, what the window shows
};

/// Opens the window and returns when it is closed. Throws DrawError or FileError before it opens.
void run_window(const WindowRequest& request);

}  // namespace podwright
