#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "core/units.hpp"
#include "file/scene.hpp"
#include "scene_samples.hpp"
#include "shape/assembly.hpp"

using namespace podwright;

namespace {

OwnPart own(const std::string& part, const std::string& file) {
    OwnPart result;
    result.part = part;
    result.file = file;
    return result;
}

Setup again(const Setup& setup, const std::string& original = {}) {
    return parse_scene(scene_text(setup, original), "s");
}

/// A part with every digit and whatever else is hard to write.
OwnPart any_own(std::mt19937& random, const std::string& part) {
    const auto chance = [&] { return std::bernoulli_distribution(0.5)(random); };
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    OwnPart result = own(part, chance() ? "a \"b\" \\ # \xC3\xA9.glb" : "parts/hub.gltf");
    if (chance()) result.scale = between(1e-6, 2);
    for (double& angle : result.turn)
        if (chance()) angle = radians(between(-360, 360));
    for (double& length : result.move)
        if (chance()) length = between(-500, 500);
    if (chance())
        result.look = static_cast<Look>(std::uniform_int_distribution<int>(0, 10)(random));
    return result;
}

}  // namespace

TEST_CASE("own parts are written and read back exactly") {
    std::mt19937 random(20250501);  // fixed seed
    std::vector<std::string> keys = part_keys();
    std::string text = least_scene;
    Setup setup;
    for (int run = 0; run < 300; ++run) {
        std::shuffle(keys.begin(), keys.end(), random);
        const auto kind = std::uniform_int_distribution<int>(0, 4)(random);
        std::vector<OwnPart>& parts = setup.own_parts;
        const auto unused = std::find_if(keys.begin(), keys.end(), [&](const std::string& key) {
            return std::none_of(parts.begin(), parts.end(),
                                [&](const OwnPart& own) { return own.part == key; });
        });
        if (kind <= 1 && parts.size() < 6) parts.push_back(any_own(random, *unused));
        if (kind == 2 && !parts.empty())
            parts.erase(parts.begin() + static_cast<long>(random() % parts.size()));
        if (kind == 3 && !parts.empty()) {
            OwnPart& changed = parts[random() % parts.size()];
            changed = any_own(random, random() % 2 == 0 ? changed.part : *unused);
        }
        if (kind == 4) std::shuffle(parts.begin(), parts.end(), random);
        shake(setup, random, 0.05);
        text = scene_text(setup, text);
        const Setup read = parse_scene(text, "s");
        INFO(text);
        REQUIRE(same(read, setup));
        REQUIRE(read.own_parts == setup.own_parts);
        REQUIRE(again(setup).own_parts == setup.own_parts);
    }
}

TEST_CASE("a scene without own parts does not mention them") {
    CHECK(scene_text(Setup{}).find("own_part") == std::string::npos);
}

TEST_CASE("only what differs is changed, comments stay") {
    const std::string text = least_scene +
                             "\n# mine\n[[own_part]]  # the hub\n"
                             "part = \"left.hub\"  # left\n"
                             "turn = [ 0, 0, 90 ]  # once\n"
                             "file = \"hub.glb\"\n"
                             "\n  [[own_part]]\n  part = \"spur\"\n  file = \"spur.glb\"  # big\n"
                             "# end\n";
    const Setup before = parse_scene(text, "s");
    CHECK(scene_text(before, text) == text);

    Setup setup = before;
    setup.own_parts[0].turn[1] = radians(12.5);
    CHECK(scene_text(setup, text) == with(text, "[ 0, 0, 90 ]", "[ 0, 12.5, 90 ]"));

    setup = before;
    setup.own_parts[1].scale = 0.001;
    CHECK(scene_text(setup, text) == with(text, "# big\n", "# big\n  scale = 0.001\n"));

    setup = before;
    setup.own_parts[0].part = "carrier";
    CHECK(scene_text(setup, text) == with(text, "\"left.hub\"", "\"carrier\""));

    setup = before;
    setup.own_parts.erase(setup.own_parts.begin());
    const std::size_t from = text.find("[[own_part]]  # the hub");
    const std::size_t to = text.find("\n  [[own_part]]");
    CHECK(scene_text(setup, text) == text.substr(0, from) + text.substr(to));

    setup = before;
    setup.own_parts.push_back(own("axle", "a.glb"));
    CHECK(scene_text(setup, text) ==
          with(text, "# big\n", "# big\n\n[[own_part]]\npart = \"axle\"\nfile = \"a.glb\"\n"));

    setup = before;
    setup.own_parts.clear();
    const std::string none = scene_text(setup, text);
    CHECK(none.find("own_part") == std::string::npos);
    CHECK(none.find("# mine\n") != std::string::npos);
    CHECK(none.find("# end\n") != std::string::npos);

    // A title given later must not end up inside of the last table.
    setup = before;
    setup.title = "later";
    CHECK(again(setup, text).title == "later");
    CHECK(scene_text(setup, text).find("# mine\n") != std::string::npos);
}

TEST_CASE("own parts in one line, with line ends of another kind, or at an unfinished end") {
    const std::string line =
        "own_part = [{part = \"spur\", file = \"a.glb\"}] # here\n" + least_scene;
    Setup setup = parse_scene(line, "s");
    setup.own_parts.push_back(own("axle", "b.glb"));
    CHECK(
        scene_text(setup, line) ==
        "own_part = [{ part = \"spur\", file = \"a.glb\" }, { part = \"axle\", file = \"b.glb\" }] "
        "# here\n" +
            least_scene);
    setup.own_parts.clear();
    CHECK(scene_text(setup, line) == "own_part = [] # here\n" + least_scene);

    std::string crlf;
    for (const char c : least_scene) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
    setup.own_parts.push_back(own("axle", "b.glb"));
    CHECK(scene_text(setup, crlf) ==
          crlf + "\r\n[[own_part]]\r\npart = \"axle\"\r\nfile = \"b.glb\"\r\n");

    const std::string unfinished = least_scene.substr(0, least_scene.size() - 1);
    CHECK(scene_text(setup, unfinished) ==
          least_scene + "\n[[own_part]]\npart = \"axle\"\nfile = \"b.glb\"\n");
}
