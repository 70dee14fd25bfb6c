#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "core/setup.hpp"

namespace podwright {

/// A picture to be made with no display.
struct PictureRequest {
    Setup setup;
    std::filesystem::path output;  ///< .png
    int width = 1280;
    int height = 720;
    std::string view = "axle";  ///< one of view_names()
    double explode = 0;         ///< exploded view, 0..1
    bool cutaway = false;
    bool labels = false;  ///< dimensions, loupe and findings on the picture
};

/// Renders and writes atomically. Throws DrawError or FileError; on failure nothing is written.
void write_picture(const PictureRequest& request);

/// Names of the views, as --view takes them.
std::span<const std::string_view> view_names();

}  // namespace podwright
