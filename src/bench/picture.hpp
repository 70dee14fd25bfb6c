#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "bench/model.hpp"
#include "core/setup.hpp"

namespace podwright {

/// A picture to be made with no display.
struct PictureRequest {
    Setup setup;
    std::optional<Setup> ghost;    ///< another setup that stands behind it
    std::filesystem::path output;  ///< .png
    int width = 1280;
    int height = 720;
    std::string view = "axle";  ///< one of view_names()
    double explode = 0;         ///< exploded view, 0..1
    bool cutaway = false;
    bool labels = false;                ///< dimensions, loupe and findings on the picture
    bool dark = false;                  ///< light words on dark plates
    LengthUnit shown = LengthUnit::mm;  ///< what lengths are written in
    std::optional<LoadCase> load;       ///< what the axle feels then is shown on it
};

/// What the picture shows. Meter and scales must outlive it.
Model model_for(const PictureRequest& request, Meter& meter, Scales& scales);

/// Renders and writes atomically. Throws DrawError or FileError; on failure nothing is written.
void write_picture(const PictureRequest& request);

/// Names of the load cases, as --load takes them, in the order of all_load_cases.
std::span<const std::string_view> load_names();

/// Names of the views, as --view takes them.
std::span<const std::string_view> view_names();

}  // namespace podwright
