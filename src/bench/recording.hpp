#pragma once

#include <span>
#include <string>
#include <string_view>

#include "bench/picture.hpp"

namespace podwright {

/// A moving picture to be made with no display.
struct RecordingRequest {
    PictureRequest picture;  ///< its output: a .webp file, or a folder for numbered .png files
    std::string motion = "turntable";  ///< one of motion_words(), or the key of an adjuster
    int rate = 25;                     ///< pictures a second
    double seconds = 6;                ///< from start back to start
};

/// What can be recorded beside the play of an adjuster: "turntable", "explode", "float", "turn",
/// "envelope".
std::span<const std::string_view> motion_words();

/// Renders and writes, all or nothing; the same request gives the same bytes. Every motion eases,
/// and ends where it began. Throws DrawError, FileError, or std::out_of_range for an unknown
/// motion.
void write_recording(const RecordingRequest& request);

}  // namespace podwright
