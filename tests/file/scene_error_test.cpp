#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "file/document.hpp"
#include "file/scene.hpp"
#include "scene_samples.hpp"

using namespace podwright;

namespace {

/// One wrong line in place of a right one, and how the message must begin and what it must hold.
struct Case {
    std::string right, wrong, begins;
    std::vector<std::string> holds;
};

void check(const Case& c) {
    const std::string message = complaint(with(least_scene, c.right, c.wrong));
    INFO(c.wrong << "\n" << message);
    CHECK(message.substr(0, c.begins.size()) == c.begins);
    for (const std::string& part : c.holds) CHECK(message.find(part) != std::string::npos);
    CHECK(message.find('\n') == std::string::npos);
}

}  // namespace

// In the least scene [left] is line 2, its seat line 3; [right] line 9; [float] 16; [gears] 18.

TEST_CASE("wrong values are reported where they stand") {
    const std::vector<Case> cases = {
        {"seat = 31", "seat = 5", "car.toml:3:8: left.seat is 5;", {"10 to 80 mm"}},
        {"seat = 31",
         "seat = \"0.1 in\"",
         "car.toml:3:8: left.seat is \"0.1 in\";",
         {"10 to 80 mm"}},
        {"seat = 31", "seat = nan", "car.toml:3:8: left.seat is nan;", {"10 to 80 mm"}},
        {"seat = 31", "seat = -inf", "car.toml:3:8: left.seat is -inf;", {"10 to 80 mm"}},
        {"seat = 31", "seat = 9223372036854775807", "car.toml:3:8: left.seat is 922", {"80 mm"}},
        {"seat = 31", "seat = true", "car.toml:3:8: left.seat is true or false;", {"a length"}},
        {"seat = 31", "seat = [31]", "car.toml:3:8: left.seat is a list;", {"a length"}},
        {"seat = 31", "seat = {a = 1}", "car.toml:3:8: left.seat is a table;", {"a length"}},
        {"seat = 31", "seat = 2020-01-01", "car.toml:3:8: left.seat is a date", {"a length"}},
        {"seat = 31",
         "seat = \"31\"",
         "car.toml:3:8: left.seat is \"31\", which is not a length",
         {"\"0.25 in\""}},
        {"seat = 31", "seat = \"3 cm\"", "car.toml:3:8: left.seat is \"3 cm\", which", {"mm"}},
        {"pinion = 34", "pinion = 34.5", "car.toml:20:10: gears.pinion is 34.5;", {"whole number"}},
        {"pinion = 34",
         "pinion = \"34\"",
         "car.toml:20:10: gears.pinion is a text;",
         {"whole number"}},
        {"pinion = 34", "pinion = 7", "car.toml:20:10: gears.pinion is 7;", {"8 to 80"}},
        {"blade = 0.15",
         "set_by = \"blad\"",
         "car.toml:17:10: float.set_by is \"blad\";",
         {"blade or shoulder", "did you mean \"blade\"?"}},
        {"blade = 0.15", "set_by = 1", "car.toml:17:10: float.set_by is a number;", {"in quotes"}},
        {"seat = 31", "shims = 0.3", "car.toml:3:9: left.shims is a number;", {"[0.3, 0.2]"}},
        {"seat = 31",
         "shims = [0.3, 9]",
         "car.toml:3:15: shim 2 of left.shims is 9;",
         {"0.02 to 5 mm"}},
        {"seat = 31",
         "shims = [0.3, [1]]",
         "car.toml:3:15: shim 2 of left.shims is a list;",
         {"a length, 0.02 to 5 mm"}},
        {"seat = 31",
         "shims = [1,1,1,1,1,1,1,1,1,1,1,1,1]",
         "car.toml:3:9: left.shims has 13",
         {"at most 12"}},
        {"[left]", "title = 3\n[left]", "car.toml:2:9: title is a number;", {"a text"}},
        {"[left]",
         "title = \"" + std::string(81, 'a') + "\"\n[left]",
         "car.toml:2:9: title is 81 characters",
         {"at most 80"}},
        {"spur = 76",
         "spur = 76\n[axle]\nmaterial = \"steel-4310\"",
         "car.toml:23:12: axle.material is \"steel-4310\";",
         {"steel-4130, steel-4140, ", " or carbon-wrapped", "did you mean \"steel-4130\"?"}},
        {"spur = 76",
         "spur = 76\n[axle]\nmaterial = \"wood\"",
         "car.toml:23:12: axle.material",
         {}},
    };
    for (const Case& c : cases) check(c);
    const std::string eighty =
        "title = \"" + std::string(76, 'a') + "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\"";
    CHECK_NOTHROW(parse_scene(with(least_scene, "[left]", eighty + "\n[left]"), "s"));
}

TEST_CASE("unknown keys and tables are reported with what was meant") {
    const std::vector<Case> cases = {
        {"seat = 31",
         "seta = 31",
         "car.toml:3:1: unknown key \"seta\" in [left]",
         {"did you mean \"seat\"?"}},
        {"seat = 31",
         "seat = 31\npinion = 3",
         "car.toml:4:1: unknown key \"pinion\" in [left]",
         {"it belongs in [gears]"}},
        {"seat = 31",
         "seat = 31\ncolour = 3",
         "car.toml:4:1: unknown key \"colour\" in [left]",
         {"podwright keys"}},
        {"[right]",
         "[rihgt]",
         "car.toml:9:1: unknown table \"rihgt\"",
         {"did you mean \"right\"?"}},
        {"spur = 76",
         "spur = 76\n[paint]",
         "car.toml:22:1: unknown table \"paint\"",
         {"the tables are [left], [right]"}},
        {"[left]",
         "titel = \"a\"\n[left]",
         "car.toml:2:1: unknown key \"titel\"",
         {"did you mean \"title\"?"}},
        {"[left]",
         "seat = 3\n[left]",
         "car.toml:2:1: unknown key \"seat\"",
         {"it belongs in [left], [right] and [tolerances]"}},
        {"[left]", "pod = 3\n[left]", "car.toml:2:1: pod is a table", {"[pod]"}},
        {"[left]", "[title]\n[left]", "car.toml:2:1: title is a value", {"title = "}},
        {"[gears]", "[[gears]]", "car.toml:18:1: gears is one table", {"write [gears]"}},
        {"seat = 31", "seat = 31\n[left.tyre]\nx = 1", "car.toml:4:7: unknown key \"tyre\"", {}},
        {"seat = 31", "\"se\\nat\" = 31", "car.toml:3:1: unknown key \"se?at\"", {}},
    };
    for (const Case& c : cases) check(c);
}

TEST_CASE("missing keys have the line of their table, missing tables are named") {
    const std::vector<Case> cases = {
        {"seat = 31\n", "", "car.toml:2:1: [left] lacks seat;", {"10 to 80 mm"}},
        {"blade = 0.15", "", "car.toml:16:1: [float] lacks blade because", {"set by blade"}},
        {"blade = 0.15",
         "set_by = \"shoulder\"\nblade = 0.15",
         "car.toml:16:1: [float] lacks shoulder because",
         {"set by shoulder"}},
        {"pinion = 34", "", "car.toml:18:1: [gears] lacks pinion;", {"8 to 80"}},
        {"diametral_pitch = 64",
         "",
         "car.toml:18:1: [gears] lacks the size of the teeth",
         {"diametral_pitch = 64", "module = "}},
        {"diametral_pitch = 64",
         "diametral_pitch = 64\nmodule = 0.4",
         "car.toml:20:1: both gears.module and gears.diametral_pitch",
         {"only one"}},
        {least_scene,
         "title = \"a\"\n[left]\nseat = 31",
         "car.toml:3:1: missing parts: ",
         {"[right], [float] and [gears]"}},
        {"[float]\nblade = 0.15\n", "", "car.toml:19:1: missing parts: [float]", {}},
        {least_scene,
         "",
         "car.toml:1:1: the file is empty",
         {"[left], [right], [float] and [gears]"}},
        {least_scene, "# nothing\n\n", "car.toml:2:1: the file describes nothing", {"[left]"}},
    };
    for (const Case& c : cases) check(c);
}

TEST_CASE("mistakes of form are put in plain words") {
    const std::vector<Case> cases = {
        {"seat = 31", "seat = 0.25 in", "car.toml:3:13: ", {"in quotes: \"0.25 in\""}},
        {"seat = 31", "seat = 31mm", "car.toml:3:10: ", {"in quotes: \"0.25 in\""}},
        {"seat = 31", "seat = 31,5", "car.toml:3:10: ", {"the decimal sign is a point"}},
        {"seat = 31", "seat = .5", "car.toml:3:8: ", {"write 0.5, not .5"}},
        {"seat = 31", "seat = 031", "car.toml:3:8: ", {"write 7, not 07"}},
        {"seat = 31", "holder_way = up", "car.toml:3:14: ", {"texts stand in quotes"}},
        {"seat = 31", "holder_way = \"up", "car.toml:3:", {"the text is not closed"}},
        {"seat = 31", "seat 31", "car.toml:3:6: ", {"write name = value"}},
        {"seat = 31", "seat: 31", "car.toml:3:5: ", {"write name = value"}},
        {"seat = 31", "seat =", "car.toml:3:7: ", {"no value after"}},
        {"seat = 31",
         "seat = 31\nseat = 32",
         "car.toml:4:1: ",
         {"\"seat\" is given a second time"}},
        {"[right]", "[left]", "car.toml:9:1: ", {"\"left\" is given a second time"}},
        {"[right]", "[right", "car.toml:9:7: ", {"[left]"}},
        {"seat = 31", "shims = [0.3, 0.2", "car.toml:4:1: ", {"[0.3, 0.2]"}},
        {"[left]", "{", "car.toml:2:1: ", {"write name = value, or [table]"}},
        {"[left]", "title = \"a\\q\"\n[left]", "car.toml:2:", {"backslash"}},
        {"seat = 31", "seat = 1e999", "car.toml:3:8: ", {"the number is too large"}},
        {"seat = 31", "seat = -1e400", "car.toml:3:8: ", {"the number is too large"}},
        {"seat = 31",
         "seat = 12345678901234567890123",
         "car.toml:3:8: ",
         {"the number is too large"}},
    };
    for (const Case& c : cases) check(c);
    // Words that begin as true, false, nan and inf do.
    for (const char* word : {"titanium-6al4v", "t", "tru", "truex", "fibre", "false-x", "nylon",
                             "no", "iron", "i", "infx"}) {
        const std::string said =
            complaint(with(least_scene, "seat = 31", "holder_way = " + std::string(word)));
        INFO(said);
        CHECK(said.find("car.toml:3:") == 0);
        CHECK(said.find("texts stand in quotes: \"up\"") != std::string::npos);
    }
    CHECK(complaint(least_scene + "[box]\nblades = [titanium]\n").find("texts stand in quotes") !=
          std::string::npos);
}

TEST_CASE("an unknown table is told which there are, those to choose from included") {
    const std::string said = complaint(least_scene + "[foo]\n");
    INFO(said);
    for (const char* table :
         {"[left]", "[fits]", "[box]", "[[box_wheel]]", "[[box_tyre]]", "[[box_axle]]", "[[goal]]",
          "[day]", "[[rule]]", "[[measured]]", " and [[own_part]]"})
        CHECK(said.find(table) != std::string::npos);
}

TEST_CASE("what belongs at the top and stands in a table is told so") {
    const std::string wrong = "; it belongs at the top, before the first table";
    for (const char* line :
         {"title = \"a\"", "note = \"a\"", "rules = \"a.toml\"", "box = \"a.toml\""}) {
        INFO(line);
        const std::string said = complaint(with(least_scene, "seat = 31", line));
        CHECK(said.find("car.toml:3:1: unknown key") == 0);
        CHECK(said.find(wrong) != std::string::npos);
        for (const char* table : {"[[goal]]", "[box]", "[[own_part]]"})
            CHECK(complaint(least_scene + table + "\n" + line + "\n").find(wrong) !=
                  std::string::npos);
    }
    CHECK(complaint(with(least_scene, "seat = 31", "titel = 3")).find(wrong) == std::string::npos);
}

TEST_CASE("nothing that a terminal would obey is repeated in a message") {
    // C1 control, right-to-left override, isolate, mark.
    for (const char* sign : {"\xC2\x9B", "\xE2\x80\xAE", "\xE2\x81\xA6", "\xE2\x80\x8F"}) {
        const std::string value = "a" + std::string(sign) + "b";
        for (const std::string& line :
             {"holder_way = \"" + value + "\"", "\"" + value + "\" = 1", "seat = " + value}) {
            const std::string said = complaint(with(least_scene, "seat = 31", line));
            INFO(said);
            CHECK(said.find("car.toml:3:") == 0);
            CHECK(said.find(sign) == std::string::npos);
        }
    }
    CHECK(shown("caf\xC3\xA9 \xE2\x82\xAC \xC2\xB1") == "caf\xC3\xA9 \xE2\x82\xAC \xC2\xB1");
}

TEST_CASE("values that cannot be true together are reported at the key concerned") {
    const std::string text = least_scene + "[axle]\nwaist = 9\n";
    const std::string message = complaint(text);
    INFO(message);
    CHECK(message.substr(0, 16) == "car.toml:23:9: t");
    CHECK(message.find("waist") != std::string::npos);
    // A default that does not go with a given value: there is no line but the table's.
    const std::string other = complaint(least_scene + "[bearing]\nbore = 10\n");
    INFO(other);
    CHECK(other.find("car.toml:23:8: ") == 0);
}

TEST_CASE("the first mistake in the text is the one reported") {
    const std::string text =
        with(with(least_scene, "spur = 76", "spur = 1"), "seat = 31", "seat = 1");
    CHECK(complaint(text).find("car.toml:3:8: ") == 0);
}
