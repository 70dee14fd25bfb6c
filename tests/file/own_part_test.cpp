#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/units.hpp"
#include "file/scene.hpp"
#include "scene_samples.hpp"
#include "shape/assembly.hpp"

using namespace podwright;

namespace {

/// The least scene, 21 lines, and an own part from line 22 on.
std::string scene_with(const std::string& lines) { return least_scene + lines; }

const std::string two_keys = "[[own_part]]\npart = \"left.hub\"\nfile = \"hub.glb\"\n";

struct Case {
    std::string lines, begins;
    std::vector<std::string> holds;
};

void check(const Case& c) {
    const std::string message = complaint(scene_with(c.lines));
    INFO(c.lines << "\n" << message);
    CHECK(message.substr(0, c.begins.size()) == c.begins);
    for (const std::string& part : c.holds) CHECK(message.find(part) != std::string::npos);
    CHECK(message.find('\n') == std::string::npos);
}

}  // namespace

TEST_CASE("an own part is read with its units") {
    const Setup plain = parse_scene(scene_with(two_keys), "s");
    REQUIRE(plain.own_parts.size() == 1);
    OwnPart expected;
    expected.part = "left.hub";
    expected.file = "hub.glb";
    CHECK(plain.own_parts[0] == expected);

    const Setup full =
        parse_scene(scene_with(two_keys + "scale = 0.001\nturn = [90, -45.5, 360]\n"
                                          "move = [1, \"0.5 in\", -2.5]\nlook = \"carbon\"\n"
                                          "[[own_part]]\nfile = \"/a/B.GLTF\"\npart = \"spur\"\n"),
                    "s");
    REQUIRE(full.own_parts.size() == 2);
    const OwnPart& own = full.own_parts[0];
    CHECK(own.scale == 0.001);
    CHECK(own.turn == std::array<double, 3>{radians(90), radians(-45.5), radians(360)});
    CHECK(own.move == std::array<double, 3>{1, 12.7, -2.5});
    CHECK(own.look == Look::carbon);
    CHECK(own.found.empty());
    CHECK(full.own_parts[1].part == "spur");
    CHECK(full.own_parts[1].file == "/a/B.GLTF");
    CHECK_FALSE(full.own_parts[1].look);

    const Setup in_line = parse_scene(
        "own_part = [{part = \"left.hub\", file = \"hub.glb\"}, {part = \"axle\", file = "
        "\"a.glb\"}]\n" +
            least_scene,
        "s");
    REQUIRE(in_line.own_parts.size() == 2);
    CHECK(in_line.own_parts[0] == expected);
    CHECK(parse_scene("own_part = []\n" + least_scene, "s").own_parts.empty());
}

TEST_CASE("every look can be written") {
    // The list of scenes/README.md.
    const std::vector<std::pair<std::string, Look>> looks = {{"bright-steel", Look::bright_steel},
                                                             {"dark-steel", Look::dark_steel},
                                                             {"aluminium", Look::aluminium},
                                                             {"anodised", Look::anodised},
                                                             {"brass", Look::brass},
                                                             {"copper", Look::copper},
                                                             {"black-plastic", Look::black_plastic},
                                                             {"white-plastic", Look::white_plastic},
                                                             {"carbon", Look::carbon},
                                                             {"foam", Look::foam},
                                                             {"rubber", Look::rubber}};
    CHECK(look_names().size() == looks.size());
    for (const auto& [name, look] : looks) {
        const Setup setup = parse_scene(scene_with(two_keys + "look = \"" + name + "\"\n"), "s");
        CHECK(setup.own_parts[0].look == look);
    }
}

TEST_CASE("mistakes in an own part are reported where they stand") {
    const std::string bare = "[[own_part]]\n";
    const std::vector<Case> cases = {
        {bare, "car.toml:22:1: [[own_part]] lacks part; add part = \"left.hub\"", {}},
        {bare + "part = \"spur\"\n", "car.toml:22:1: [[own_part]] lacks file; add file = ", {}},
        {bare + "part = 3\n", "car.toml:23:8: own_part.part is a number;", {"left.hub"}},
        {bare + "part = \"left.hubb\"\n",
         "car.toml:23:8: own_part.part is \"left.hubb\"",
         {"did you mean \"left.hub\"?"}},
        {bare + "part = \"roof\"\n",
         "car.toml:23:8: own_part.part is \"roof\"; it must be axle, ",
         {"left.shim.1 to left.shim.12, ", " or pinion"}},
        {bare + "part = \"left.shim.13\"\n",
         "car.toml:23:8: own_part.part is \"left.shim.13\"",
         {}},
        {two_keys + bare + "part = \"left.hub\"\n",
         "car.toml:26:8: own_part.part is \"left.hub\" a second time;",
         {"keep only one"}},
        {bare + "file = true\n", "car.toml:23:8: own_part.file is true or false;", {".glb"}},
        {bare + "file = \"hub.stl\"\n", "car.toml:23:8: own_part.file is \"hub.stl\";", {".gltf"}},
        {bare + "file = \"\"\n", "car.toml:23:8: own_part.file is \"\";", {".glb"}},
        {bare + "file = \"a\\u0000.glb\"\n", "car.toml:23:8: own_part.file is \"a?.glb\"", {}},
        {bare + "file = \"" + std::string(1000, 'a') + ".glb\"\n",
         "car.toml:23:8: own_part.file is \"aaa",
         {"at most 1000 bytes"}},
        {bare + "scale = \"1\"\n", "car.toml:23:9: own_part.scale is a text;", {"a number"}},
        {bare + "scale = 0\n", "car.toml:23:9: own_part.scale is 0;", {"0.000001 to 1000000"}},
        {bare + "scale = -1\n", "car.toml:23:9: own_part.scale is -1;", {}},
        {bare + "scale = nan\n", "car.toml:23:9: own_part.scale is nan;", {}},
        {bare + "scale = 1000001\n", "car.toml:23:9: own_part.scale is 1000001;", {}},
        {bare + "turn = 90\n", "car.toml:23:8: own_part.turn is a number;", {"[0, 0, 90]"}},
        {bare + "turn = [0, 90]\n", "car.toml:23:8: own_part.turn has 2 elements;", {"three"}},
        {bare + "turn = [90]\n", "car.toml:23:8: own_part.turn has 1 element;", {"three"}},
        {bare + "turn = [0, 0, 361]\n",
         "car.toml:23:15: value 3 of own_part.turn is 361;",
         {"-360 to 360 deg"}},
        {bare + "turn = [0, \"1 in\", 0]\n",
         "car.toml:23:12: value 2 of own_part.turn is a text;",
         {}},
        {bare + "move = [0, 0, [1]]\n",
         "car.toml:23:15: value 3 of own_part.move is a list;",
         {"a length, -500 to 500 mm"}},
        {bare + "move = [500.1, 0, 0]\n",
         "car.toml:23:9: value 1 of own_part.move is 500.1;",
         {"-500 to 500 mm"}},
        {bare + "move = [0, \"20 in\", 0]\n",
         "car.toml:23:12: value 2 of own_part.move is \"20 in\";",
         {}},
        {bare + "move = [0, \"2 ft\", 0]\n",
         "car.toml:23:12: value 2 of own_part.move is \"2 ft\",",
         {"0.25 in"}},
        {bare + "look = 1\n", "car.toml:23:8: own_part.look is a number;", {"in quotes"}},
        {bare + "look = \"aluminum\"\n",
         "car.toml:23:8: own_part.look is \"aluminum\";",
         {"bright-steel, ", " or rubber", "did you mean \"aluminium\"?"}},
        {bare + "trun = [0, 0, 0]\n",
         "car.toml:23:1: unknown key \"trun\" in [[own_part]]",
         {"did you mean \"turn\"?"}},
        {bare + "colour = 1\n",
         "car.toml:23:1: unknown key \"colour\" in [[own_part]]",
         {"part, file, scale, turn, move and look"}},
        {bare + "[own_part.part]\n", "car.toml:23:1: own_part.part is a table;", {}},
        {"[own_part]\npart = \"spur\"\n",
         "car.toml:22:1: own_part stands in single",
         {"[[own_part]]"}},
        {"[[own_parts]]\n",
         "car.toml:22:1: unknown table \"own_parts\"",
         {"did you mean \"own_part\"?"}},
        {"[[paint]]\n", "car.toml:22:1: unknown table \"paint\"", {" and [[own_part]]"}},
        {"[paint]\n", "car.toml:22:1: unknown table \"paint\"", {" and [[own_part]]"}},
    };
    for (const Case& c : cases) check(c);
    const std::string top = complaint("own_part = 3\n" + least_scene);
    CHECK(top.find("car.toml:1:12: own_part is a number; write [[own_part]]") == 0);
    const std::string mixed = complaint("own_part = [{part = \"spur\"}, 3]\n" + least_scene);
    CHECK(mixed.find("car.toml:1:30: own_part holds a number;") == 0);
}

TEST_CASE("there can be forty own parts and no more") {
    std::string lines;
    for (std::size_t i = 0; i < 40; ++i)
        lines += "[[own_part]]\npart = \"" + part_keys().at(i) + "\"\nfile = \"a.glb\"\n";
    CHECK(complaint(scene_with(lines)) == "no error");
    check({lines + "[[own_part]]\npart = \"" + part_keys().at(40) + "\"\n",
           "car.toml:142:1: there are more than 40 [[own_part]];",
           {}});
}

TEST_CASE("the first mistake is reported, in an own part or elsewhere") {
    const std::string own = "[[own_part]]\npart = 3\n";
    CHECK(complaint(own + with(least_scene, "seat = 31", "seat = 1")).find("car.toml:2:8: ") == 0);
    CHECK(complaint(with(least_scene, "seat = 31", "seat = 1") + own).find("car.toml:3:8: ") == 0);
}
