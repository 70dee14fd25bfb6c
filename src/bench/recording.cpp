#include "bench/recording.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <stdexcept>

#include "bench/easel.hpp"
#include "bench/swing.hpp"
#include "bench/views.hpp"
#include "draw/animation.hpp"
#include "file/asset_library.hpp"
#include "file/disk.hpp"
#include "file/folder_write.hpp"

namespace podwright {

namespace {

constexpr std::array<std::string_view, 6> spoken_motions = {"turntable", "explode",  "float",
                                                            "turn",      "envelope", "load"};
constexpr std::array<std::string_view, 6> played = {"turntable", "pose.spread", "pose.along",
                                                    "pose.turn", "envelope",    "load"};

/// What the model calls the motion.
std::string play_key(const std::string& motion) {
    for (std::size_t i = 0; i < spoken_motions.size(); ++i)
        if (spoken_motions[i] == motion) return std::string(played[i]);
    const Parameter* parameter = find_parameter(motion);
    if (!parameter || !parameter->get) throw std::out_of_range("no such motion: " + motion);
    return motion;
}

/// The model in motion, picture by picture.
class Film {
public:
    Film(const RecordingRequest& request, const MeshLibrary& library)
        : request_(request),
          meter_(library),
          scales_(library),
          model_(model_for(request.picture, meter_, scales_)),
          easel_(request.picture.width, request.picture.height, library),
          count_(
              static_cast<std::size_t>(std::max(1L, std::lround(request.seconds * request.rate)))) {
        model_.in_a_hurry = false;
        start_play(model_, play_key(request.motion), 0);
    }

    std::size_t count() const { return count_; }

    /// To be asked for in order; the one after the last would be the first again.
    Image picture(std::size_t i) {
        advance(model_, swing_seconds * static_cast<double>(i) / static_cast<double>(count_));
        follow_pose(model_, true);
        if (request_.motion == "explode") {
            const PictureRequest& picture = request_.picture;
            model_.camera = camera_of(
                picture.view, model_.evaluation,
                {static_cast<double>(picture.width) / picture.height, model_.look.pose.spread});
        }
        return easel_.draw(model_, request_.picture.labels);
    }

private:
    const RecordingRequest& request_;
    Meter meter_;
    Scales scales_;
    Model model_;
    Easel easel_;
    std::size_t count_;
};

std::string text_of(const std::vector<std::uint8_t>& bytes) { return {bytes.begin(), bytes.end()}; }

}  // namespace

std::span<const std::string_view> motion_words() { return spoken_motions; }

void write_recording(const RecordingRequest& request) {
    const MeshLibrary library = asset_library();
    Film film(request, library);
    const PictureRequest& picture = request.picture;
    if (picture.output.extension() == ".webp") {
        Animation animation(picture.width, picture.height, request.rate);
        for (std::size_t i = 0; i < film.count(); ++i) animation.add(film.picture(i));
        write_file(picture.output, text_of(animation.bytes()));
        return;
    }
    write_folder(picture.output, film.count(), [&](std::size_t i) {
        std::array<char, 32> name{};
        std::snprintf(name.data(), name.size(), "picture-%04zu.png", i + 1);
        return NamedBytes{name.data(), text_of(png_bytes(film.picture(i)))};
    });
}

}  // namespace podwright
