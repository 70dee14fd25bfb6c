#include <catch2/catch.hpp>
#include <clocale>

#include "core/conflicts.hpp"
#include "file/scene.hpp"
#include "file/value_text.hpp"
#include "scene_samples.hpp"
#include "temporary_folder.hpp"

using namespace podwright;

TEST_CASE("numbers are written as short as they read back") {
    CHECK(number_text(0.1) == "0.1");
    CHECK(number_text(31) == "31");
    CHECK(number_text(0.1 + 0.2) == "0.30000000000000004");
    CHECK(number_text(-4.5) == "-4.5");
    CHECK(number_text(100000) == "100000");
    CHECK(number_text(0) == "0");
    CHECK(number_text(1e-9) == "1e-09");
    CHECK(number_text(1e300) == "1e+300");
    Setup setup;
    setup.motor.slot_angle = radians(10);
    CHECK(value_text(*find_parameter("motor.slot_angle"), setup) == "10");
    setup.gears.module = module_from_diametral_pitch(48);
    CHECK(value_text(*find_parameter("gears.diametral_pitch"), setup) == "48");
}

TEST_CASE("texts are written so that they read back") {
    CHECK(quoted_text("a \"b\" \\") == "\"a \\\"b\\\" \\\\\"");
    CHECK(quoted_text("a\nb") == "\"\"\"\na\nb\"\"\"");
    for (const std::string text : {"", "\n", "a\r\nb", "\"\"\"\n\"\"\"", "tab\tend\\", "\x01\x7F",
                                   "'''", "# \xE2\x82\xAC"}) {
        Setup setup;
        setup.note = text;
        CHECK(parse_scene(scene_text(setup), "s").note == text);
    }
}

TEST_CASE("a complete scene explains every key and reads back") {
    const std::string text = scene_text(Setup{});
    CHECK(same(parse_scene(text, "s"), Setup{}));
    CHECK(text.find("# Mid-plane out to the face of the holder") != std::string::npos);
    CHECK(text.find("\n# clamped_at = ") != std::string::npos);
    CHECK(text.find("\nmodule") == std::string::npos);
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\n', at);
        CHECK(end - at <= 100);
        at = end + 1;
    }
}

TEST_CASE("every table of a complete scene is introduced by one comment") {
    const std::string text = scene_text(Setup{});
    CHECK(text.find("\n\n\n") == std::string::npos);
    for (std::size_t at = text.find("\n["); at != std::string::npos;
         at = text.find("\n[", at + 1)) {
        const std::string line = text.substr(text.rfind('\n', at - 1) + 1, 1);
        INFO(text.substr(at, 20));
        CHECK(line == "#");
    }
}

TEST_CASE("random setups read back exactly from a complete scene") {
    std::mt19937 random(20250411);  // fixed seed
    int tried = 0;
    for (int run = 0; run < 300; ++run) {
        Setup setup;
        shake(setup, random, 0.5);
        if (find_conflict(setup)) continue;
        ++tried;
        const std::string text = scene_text(setup);
        const Setup again = parse_scene(text, "s");
        if (!same(again, setup)) FAIL(text);
        CHECK(scene_text(again) == text);
    }
    CHECK(tried > 100);
}

TEST_CASE("random edits of a scene read back exactly, and only edited lines change") {
    std::mt19937 random(20250412);  // fixed seed
    const std::string folder = std::string(PODWRIGHT_SOURCE_DIR) + "/scenes/";
    int tried = 0;
    for (const std::string name : {"first-look.toml", "metric-gears.toml", "inch-parts.toml", ""}) {
        std::string text = name.empty() ? "# least\n" + least_scene : bytes_of(folder + name);
        Setup setup = parse_scene(text, name);
        CHECK(scene_text(setup, text) == text);
        const auto comments = std::count(text.begin(), text.end(), '#');
        const std::string first_line = text.substr(0, text.find('\n'));
        for (int run = 0; run < 150; ++run) {
            Setup next = setup;
            shake(next, random, 0.1);
            if (find_conflict(next)) continue;
            ++tried;
            const std::string edited = scene_text(next, text);
            if (!same(parse_scene(edited, name), next)) FAIL(edited);
            CHECK(scene_text(next, edited) == edited);
            // Titles and notes of shake() bring up to one # of their own.
            CHECK(std::count(edited.begin(), edited.end(), '#') >= comments - 1);
            CHECK(edited.substr(0, edited.find('\n')) == first_line);
            text = edited;
            setup = next;
        }
    }
    CHECK(tried > 150);
}

TEST_CASE("an edit changes the value where it stands and nothing else") {
    const std::string text = R"(# my car
title = "old" # the name
[gears] # teeth
   spur = 76   # new spur
   pinion=34
   module = 0.4 # metric

[float]
blade = "0.006 in" # blade of six thou
[left]
seat = "1.22 in"
standout = 0.9
shims = [
  0.3, # first
  "0.01 in", # second
]
reach = 28
inset = -4.5
tyre_diameter = 43
tyre_width = 41
# the right side
[right]
seat = 31
standout = 0.9
reach = 28
inset = -4.5
tyre_diameter = 43
tyre_width = 41 # last line)";
    const Setup before = parse_scene(text, "s");
    CHECK(scene_text(before, text) == text);

    SECTION("a number") {
        Setup after = before;
        after.gears.spur = 78;
        CHECK(scene_text(after, text) == with(text, "spur = 76   #", "spur = 78   #"));
    }
    SECTION("a length in inches only if it changed") {
        Setup after = before;
        after.axial_float.blade = 0.2;
        CHECK(scene_text(after, text) == with(text, "\"0.006 in\"", "0.2"));
    }
    SECTION("one shim of several") {
        Setup after = before;
        after.left.shims[0] = 0.35;
        CHECK(scene_text(after, text) == with(text, "0.3,", "0.35,"));
    }
    SECTION("another number of shims") {
        Setup after = before;
        after.left.shims = {0.1};
        CHECK(scene_text(after, text) ==
              with(text, "[\n  0.3, # first\n  \"0.01 in\", # second\n]", "[0.1]"));
    }
    SECTION("a key that was left out goes to the end of its table") {
        Setup after = before;
        after.gears.dedendum = Dedendum::deep;
        after.right.shims = {0.5};
        const std::string edited = scene_text(after, text);
        CHECK(edited == with(text, "module = 0.4 # metric\n",
                             "module = 0.4 # metric\n   dedendum = \"deep\"\n") +
                            "\nshims = [0.5]\n");
    }
    SECTION("a table that was left out goes to the end") {
        Setup after = before;
        after.motor.clamped_at = 3.25;
        after.note = "two";
        const std::string edited = scene_text(after, text);
        CHECK(edited == with(text, "# the name\n", "# the name\nnote = \"two\"\n") +
                            "\n\n[motor]\nclamped_at = 3.25\n");
        CHECK(scene_text(before, edited) ==
              with(text, "# the name\n", "# the name\nnote = \"\"\n") + "\n\n[motor]\n");
    }
    SECTION("module and diametral pitch change places, the implied depth is kept") {
        Setup after = before;
        after.gears.by_diametral_pitch = true;
        after.gears.module = module_from_diametral_pitch(64);
        const std::string edited = scene_text(after, text);
        CHECK(edited == with(text, "module = 0.4 # metric\n",
                             "diametral_pitch = 64 # metric\n   dedendum = \"full-depth\"\n"));
        CHECK(same(parse_scene(edited, "s"), after));
    }
    SECTION("a float set by shoulder gets its key even at the default") {
        Setup after = before;
        after.axial_float.set_by = FloatBy::shoulder;
        const std::string edited = scene_text(after, text);
        CHECK(edited.find("set_by = \"shoulder\"\nshoulder = 64.95\n[left]") != std::string::npos);
        CHECK(same(parse_scene(edited, "s"), after));
    }
}

TEST_CASE("inline and dotted tables, marks and line ends are kept") {
    std::string text = "\xEF\xBB\xBF";
    text +=
        "left = { seat = 31, standout = 0.9, reach = 28, inset = -4.5, tyre_diameter = 43, "
        "tyre_width = 41 } # left\r\n"
        "right.seat = 31\r\nright.standout = 0.9\r\nright.reach = 28\r\nright.inset = -4.5\r\n"
        "right.tyre_diameter = 43\r\nright.tyre_width = 41 # right\r\n"
        "float = { blade = 0.15 }\r\n"
        "gears = { module = 0.4, pinion = 34, spur = 76 }\r\n"
        "motor = { clamped_at = 3, slot_length = 8 }\r\n";
    Setup setup = parse_scene(text, "s");
    CHECK(scene_text(setup, text) == text);
    setup.left.shims = {0.2};
    setup.right.shims = {0.3};
    setup.motor.clamped_at.reset();
    const std::string edited = scene_text(setup, text);
    CHECK(edited == with(with(with(text, "41 } # left", "41, shims = [0.2] } # left"),
                              "# right\r\n", "# right\r\nright.shims = [0.3]\r\n"),
                         "clamped_at = 3, ", ""));
    CHECK(same(parse_scene(edited, "s"), setup));
}

TEST_CASE("what is not a scene is replaced by a complete one") {
    CHECK(scene_text(Setup{}, "milk\neggs\n") == scene_text(Setup{}));
    CHECK(scene_text(Setup{}, "\xEF\xBB\xBF") == scene_text(Setup{}));
}
