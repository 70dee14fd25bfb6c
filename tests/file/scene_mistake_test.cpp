#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "file/scene.hpp"
#include "scene_samples.hpp"

// Where a mistake stands and what is said of it, beyond the usual ones.
using namespace podwright;

namespace {

/// What is said about the least scene with `line` in place of its line 3, `seat = 31`.
std::string about_line(const std::string& line) {
    return complaint(with(least_scene, "seat = 31", line));
}

/// What is said about the least scene with `lines` at its end, from line 22 on.
std::string about_end(const std::string& lines) { return complaint(least_scene + lines); }

void check(const std::string& said, const std::string& begins, const std::string& holds) {
    INFO(said);
    CHECK(said.rfind("car.toml:" + begins, 0) == 0);
    CHECK(said.find(holds) != std::string::npos);
    CHECK(said.find('\n') == std::string::npos);
}

std::string repeated(const std::string& sign, std::size_t times) {
    std::string text;
    for (std::size_t i = 0; i < times; ++i) text += sign;
    return text;
}

}  // namespace

TEST_CASE("a length with its unit is taken only where the value is a length") {
    check(about_end("[[goal]]\nreading = \"ride.roll\"\ntarget = \"0.1 in\"\n"),
          "24:10: goal.target is a text;", "a number, -1000 to 1000 deg, the unit of ride.roll");
    check(about_end("[[goal]]\nreading = \"ride.roll\"\ntarget = 0\nband = \"0.1 in\"\n"),
          "25:8: goal.band is a text;", "0 to 100 deg");
    check(about_end("[[goal]]\nreading = \"gear.final_drive\"\ntarget = \"1 mm\"\n"),
          "24:10: ", "without a unit as in gear.final_drive");
    check(about_end("[[measured]]\nvalue = \"1 in\"\nreading = \"ride.roll\"\nuncertainty = 0.1\n"),
          "23:9: measured.value is a text;", "the unit of ride.roll");
    check(
        about_end("[[measured]]\nreading = \"shaft.stress\"\nvalue = 1\nuncertainty = \"1 in\"\n"),
        "25:15: measured.uncertainty is a text;", "N/mm2, the unit of shaft.stress");
    check(about_end("[[rule]]\nof = \"car.mass\"\nhigh = \"1 in\"\nfrom = \"sheet\"\n"),
          "24:8: rule.high is a text;", "kg, the unit of car.mass");
    check(about_end("[[rule]]\nof = \"float.outside_share\"\nlow = \"1 in\"\nfrom = \"sheet\"\n"),
          "24:7: rule.low is a text;", "%, the unit of float.outside_share");
    // A teeth count has no unit, and is no length.
    check(about_end("[[rule]]\nof = \"gears.spur\"\nhigh = \"3 in\"\nfrom = \"sheet\"\n"),
          "24:8: rule.high is a text;", "without a unit");
    // What is named wrongly is what is complained of, wherever it stands.
    check(about_end("[[goal]]\ntarget = \"0.1 in\"\nreading = \"ride.raer\"\n"),
          "24:11: ", "did you mean \"ride.rear\"?");
    check(about_end("[[goal]]\ntarget = \"0.1 in\"\n"), "22:1: [[goal]] lacks reading;", "");
    check(about_end("[[goal]]\ntarget = \"0.1 cm\"\nreading = \"ride.rear\"\n"),
          "23:10: ", "which is not a length");

    // 25.4 mm an inch (ISO 80000-3).
    const Choosing c =
        parse_scene(least_scene +
                        "[[goal]]\nreading = \"ride.rear\"\ntarget = \"0.15 in\"\nband = \"1 mm\"\n"
                        "[[goal]]\nreading = \"clearance\"\ntarget = \"0.01 in\"\n"
                        "[[rule]]\nof = \"left.tyre_width\"\nhigh = \"1.5 in\"\nfrom = \"sheet\"\n"
                        "[[measured]]\nreading = \"left.shims\"\nvalue = \"0.02 in\"\n"
                        "uncertainty = \"0.001 in\"\n",
                    "s")
            .choosing;
    CHECK(c.goals.at(0).target == Approx(3.81));
    CHECK(c.goals.at(0).band == 1.0);
    CHECK(c.goals.at(1).target == Approx(0.254));
    CHECK(*c.rules.at(0).high == Approx(38.1));
    CHECK(c.measured.at(0).value == Approx(0.508));
    CHECK(c.measured.at(0).uncertainty == Approx(0.0254));
}

TEST_CASE("the limits of texts count characters, and an empty text is told so") {
    const std::string rule = "[[rule]]\nof = \"ride.rear\"\nhigh = 4\nfrom = \"";
    const std::string alpha = "\xCE\xB1";
    CHECK(about_end(rule + repeated(alpha, 200) + "\"\n") == "no error");
    check(about_end(rule + repeated(alpha, 201) + "\"\n"),
          "25:8: rule.from is 201 characters long;", "1 to 200 characters");
    check(about_end(rule + "\"\n"), "25:8: rule.from is empty;", "1 to 200 characters");
    check(about_end(rule + "a\\u0007\"\n"), "25:8: rule.from is \"a?\"", "character");
    const std::string wheel = "[[box_wheel]]\ninset = 0\nname = \"";
    CHECK(about_end(wheel + repeated(alpha, 60) + "\"\n") == "no error");
    check(about_end(wheel + repeated(alpha, 61) + "\"\n"),
          "24:8: box_wheel.name is 61 characters long;", "1 to 60 characters");
    check(about_end(wheel + "\"\n"), "24:8: box_wheel.name is empty;", "1 to 60 characters");
    // What is repeated in a message is cut after so many characters, not bytes.
    const std::string said = about_line("holder_way = \"" + repeated(alpha, 50) + "\"");
    CHECK(said.find("\"" + repeated(alpha, 40) + "...\"") != std::string::npos);
}

TEST_CASE("a key that is given twice is shown where it stands again") {
    check(about_line("seat = 31\n  seat = 32"), "4:3: ", "\"seat\" is given a second time");
    check(about_line("seat = 31 # a = b\nseat\t=\t32"), "4:1: ", "\"seat\" is given");
    check(about_line("\"seat\" = 31\n\"seat\" = 32"), "4:1: ", "\"seat\" is given");
}

TEST_CASE("a number that is written wrongly is shown where it begins") {
    for (const char* number : {"031", "-031", "+07", "00.5", "0_1"})
        check(about_line("seat = " + std::string(number)), "3:8: ", "write 7, not 07");
    for (const char* number : {"1e999", "99999999999999999999", "-1e400"})
        check(about_line("seat = " + std::string(number)), "3:8: ", "the number is too large");
    check(about_line("shims = [0.3, 02]"), "3:15: ", "write 7, not 07");
    check(about_line("shims = [0.3, 1e999]"), "3:15: ", "the number is too large");
    for (const char* line : {"seat = 31.", "seat = 31. # mm", "seat = 31.e3"})
        check(about_line(line), "3:8: ", "write 31.0 or 31, not 31.");
    check(about_line("shims = [0.3, 1.]"), "3:15: ", "write 31.0 or 31, not 31.");
    check(about_line("seat = 1__0"), "3:8: ", "underscore");
}

TEST_CASE("a wrong element of a list is counted, with its own range") {
    check(about_line("shims = [0.3, 0.001]"), "3:15: shim 2 of left.shims is 0.001;",
          "it must be 0.02 to 5 mm");
    check(about_end("[box]\nblades = [0.1, 0.2, 99]\n"), "23:21: blade 3 of box.blades is 99;",
          "it must be 0.02 to 1 mm");
    check(about_end("[box]\npinions = [32, 33.5]\n"), "23:16: pinion 2 of box.pinions is 33.5;",
          "a whole number, 8 to 80 teeth");
    check(about_end("[box]\nshims = [[0.1, 6], [0.25, 0]]\n"),
          "23:27: how many there are of shim 2 of box.shims is 0;", "a whole number, 1 to 99");
    check(about_end("[box]\nshims = [[0.1, 6], 0.25]\n"), "23:20: shim 2 of box.shims is a number;",
          "[0.5, 4]");
    check(about_end("[day]\nruns = 3\nleft = [43, 4]\n"), "24:13: value 2 of day.left is 4;",
          " mm");
}

TEST_CASE("what stands behind a value is told in plain words") {
    check(about_line("holder_way = \"up\","), "3:18: ", "a comma after the value");
    check(about_line("seat = 31,"), "3:10: ", "a comma after the value");
    check(about_line("seat = 31,5"), "3:10: ", "the decimal sign is a point");
    check(about_line("shims = [0.3] 0.2"), "3:15: ", "the value is followed by something else");
    check(about_line("holder_way = \"up\" \"down\""), "3:19: ", "followed by something else");
}

TEST_CASE("no mistake of form is told in the parser's words") {
    check(about_end("[car]\nmass"), "23:", "the file ends in the middle of a line");
    check(about_end("[car]\nmass = -"), "23:8: ", "the file ends in the middle of a line");
    check(about_line("["), "3:2: ", "not well formed");
    for (const char* value : {"3:.0", "31e.0", "40.0:", "3\xC3\xA9", "0.2.", "2020-13-01", "0b2"})
        check(about_line("seat = " + std::string(value)), "3:", "; ");
    std::mt19937 random(20251126);  // fixed seed
    const std::string start = scene_text(Setup{});
    for (int run = 0; run < 1000; ++run) {
        std::string text = start;
        static const std::string odd = "[]{}\"'=.,#\n\\0e+-9a: _";
        const auto at = std::uniform_int_distribution<std::size_t>(0, text.size() - 1)(random);
        switch (run % 4) {
            case 0: text[at] = odd[at % odd.size()]; break;
            case 1: text.insert(at, 1, odd[at % odd.size()]); break;
            case 2: text.erase(at, 1 + at % 12); break;
            default: text.erase(at);
        }
        if (text.empty()) continue;
        const std::string said = complaint(text);
        INFO(said);
        CHECK(said.find("this is not TOML") == std::string::npos);
    }
}

TEST_CASE("texts of another encoding or with other line breaks are told what would be right") {
    std::string old = least_scene.substr(1);
    for (char& c : old)
        if (c == '\n') c = '\r';
    check(complaint(old), "1:7: ", "LF or CR LF");
    std::string dos;
    for (const char c : least_scene) dos += c == '\n' ? "\r\n" : std::string(1, c);
    CHECK(complaint(dos) == "no error");

    std::string little, big;
    for (const char c : least_scene) {
        little += std::string(1, c) + '\0';
        big += std::string(1, '\0') + c;
    }
    for (const std::string& wide : {little, big}) check(complaint(wide), "1:1: ", "UTF-16");
    check(complaint(little), "1:1: ", "UTF-8");
}
