#include <catch2/catch.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "draw/image.hpp"
#include "file/temporary_folder.hpp"
#include "program_runner.hpp"

// The real program's pictures against those that a person last looked at and found right. To renew
// them: look at the new ones under the path that a failure names, then copy them to
// tests/main/baseline.
namespace {

using namespace podwright;

struct Baseline {
    std::string name;
    std::string scene;
    std::string options;  ///< of `podwright picture`
};

const std::vector<Baseline>& baselines() {
    static const std::vector<Baseline> all = {
        {"axle", "first-look", "--labels"},
        {"axle-dark", "first-look", "--labels --dark"},
        {"left", "first-look", "--view left"},
        {"right", "wide-inset", "--view right"},
        {"mesh", "metric-gears", "--view mesh"},
        {"rear", "worn-tyres", "--view rear --labels"},
        {"top", "inch-parts", "--view top"},
        {"float", "shoulder-binds", "--view float --labels"},
        {"section", "first-look", "--view section"},
        {"cutaway", "own-hub", "--cutaway"},
        {"exploded", "first-look", "--explode 1"},
        {"ghost", "first-look", "--ghost wide-inset"},
    };
    return all;
}

void write(const std::filesystem::path& path, const Image& image) {
    const auto bytes = png_bytes(image);
    write_bytes(path, std::string(bytes.begin(), bytes.end()));
}

Image image_at(const std::filesystem::path& path) {
    const std::string bytes = bytes_of(path);
    if (bytes.empty()) return {};
    return image_from_png({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
}

void draw(const Baseline& baseline, const std::filesystem::path& to) {
    std::vector<std::string> call = {
        "picture", scene(baseline.scene + ".toml"), "-o", to.string(), "--size", "384x216"};
    std::istringstream words(baseline.options);
    for (std::string word; words >> word;)
        call.push_back(call.back() == "--ghost" ? scene(word + ".toml") : word);
    const Result result = run(call);
    INFO(result.errors);
    REQUIRE(result.code == 0);
}

}  // namespace

TEST_CASE("pictures look as they did when a person last looked at them") {
    // The software renderer gives the same bytes again; another version of it, or a graphics
    // processor, rounds edges and highlights otherwise: single pixels may differ much (max), but
    // not many of them (mean). What the limits have to catch changes the mean by more: a spur of
    // one tooth less 0.0011, a pinion of one more 0.0009, a ghost that is not there 0.0005.
    constexpr double most_mean = 0.0004;
    constexpr double most_max = 0.35;
    const std::filesystem::path actual_folder =
        std::filesystem::path(PODWRIGHT_BINARY_DIR) / "pictures";
    std::filesystem::create_directories(actual_folder);
    for (const Baseline& baseline : baselines()) {
        const auto actual_path = actual_folder / (baseline.name + ".png");
        draw(baseline, actual_path);
        const Image actual = image_at(actual_path);
        const Image expected = image_at(std::filesystem::path(PODWRIGHT_SOURCE_DIR) /
                                        "tests/main/baseline" / (baseline.name + ".png"));
        INFO("drawn now: " << actual_path);
        CHECK(expected.width == actual.width);
        REQUIRE(expected.height == actual.height);
        const Difference difference = compare(expected, actual);
        const auto difference_path = actual_folder / (baseline.name + "-difference.png");
        if (difference.mean > most_mean || difference.max > most_max)
            write(difference_path, difference.picture);
        else
            std::filesystem::remove(difference_path);
        INFO("how it differs, if it does: " << difference_path);
        CHECK(difference.mean <= most_mean);
        CHECK(difference.max <= most_max);
    }
}
