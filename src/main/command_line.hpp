#pragma once

#include <functional>
#include <iosfwd>
#include <span>
#include <string>
#include <string_view>

#include "bench/picture.hpp"
#include "bench/recording.hpp"
#include "bench/window.hpp"

namespace podwright {

/// What the program ends with: nothing to say, cautions, stops, or it could not do its work.
enum ExitCode { exit_clean = 0, exit_cautions = 1, exit_stops = 2, exit_failed = 3 };

/// What needs the graphics: given from outside so that the command line is built and tested
/// without.
struct Graphics {
    std::function<void(const WindowRequest&)> run_window;
    std::function<void(const PictureRequest&)> write_picture;
    std::function<void(const RecordingRequest&)> write_recording;
    std::span<const std::string_view> views;
    std::span<const std::string_view> motions;
    std::span<const std::string_view> loads;  ///< in the order of all_load_cases
};

/// Runs the program for the arguments after its name. Writes results to `out`; a failure is one
/// line on `errors` and exit_failed. Throws nothing.
int run_command_line(std::span<const std::string> arguments, const Graphics& graphics,
                     std::ostream& out, std::ostream& errors);

}  // namespace podwright
