#include <catch2/catch.hpp>
#include <cmath>

#include "evaluate/evaluate.hpp"
#include "file/scene.hpp"
#include "random_setup.hpp"
#include "scene_samples.hpp"
#include "temporary_folder.hpp"

// The parts box, goals, rules, the day and what was measured, in scenes and in files of their own.
// All of it is invented.
using namespace podwright;

namespace {

const std::string sections = R"(
[box]
shims = [[0.1, 6], [0.25, 2]]   # two sorts
holders = [[0.5, 2], [1.0, 2]]
pinions = [32, 33]
spurs = [76]
blades = [0.1, 0.15]

[[box_wheel]]
name = "wide dish"
inset = -4.5
rim_diameter = 30
count = 3

[[box_tyre]]
name = "fresh"
diameter = 43
width = 40.5
worn = 40
stiffness = 25
wheel = "wide dish"

[[box_axle]]
name = "tube"
waist = 6
bore = 4.5
material = "carbon-wrapped"
shoulder = 64.9

[[goal]]
reading = "ride.rear"
target = 4.0
band = 0.2
weight = 3

[[rule]]
of = "width.overall"
high = 172
from = "invented sheet, 2.1"

[day]
runs = 5
wear_left = 0.2
right = [43.0, 42.8]

[[measured]]
reading = "width.left"
value = 85.5
uncertainty = 0.02
gauge = "caliper"
)";

Choosing random_choosing(RandomSetups& random) {
    Choosing c;
    const auto number = [&](double low, double high) {
        return std::round(random.between(low, high) * 100) / 100;
    };
    for (int i = random.whole(0, 4); i > 0; --i)
        c.box.shims.push_back({0.1 * i, random.whole(1, 9)});
    for (int i = random.whole(0, 3); i > 0; --i)
        c.box.holders.push_back({0.5 * i, random.whole(1, 4)});
    for (int i = random.whole(0, 4); i > 0; --i) c.box.pinions.push_back(30 + i);
    for (int i = random.whole(0, 3); i > 0; --i) c.box.spurs.push_back(70 + i);
    for (int i = random.whole(0, 3); i > 0; --i) c.box.blades.push_back(0.05 * i);
    for (int i = random.whole(0, 2); i > 0; --i)
        c.box.wheels.push_back({"wheel \"" + std::to_string(i) + "\" \\ \xC3\xA9", number(-6, 3),
                                random.whole(0, 1) ? std::optional(number(25, 35)) : std::nullopt,
                                random.whole(1, 4)});
    for (int i = random.whole(0, 2); i > 0; --i) {
        TyreKind tyre;
        tyre.name = "tyre " + std::to_string(i);
        tyre.diameter = number(40, 46);
        if (random.whole(0, 1)) tyre.width = number(30, 42);
        if (random.whole(0, 1)) tyre.stiffness = number(5, 40);
        c.box.tyres.push_back(tyre);
    }
    if (random.whole(0, 1)) c.box.axles.push_back({"a", 6, 4, random.whole(0, 3), 64.9});
    for (int i = random.whole(0, 3); i > 0; --i)
        c.goals.push_back({goal_readings()[static_cast<std::size_t>(random.whole(0, 10))],
                           number(0, 170), number(0, 1), number(0.1, 5)});
    for (int i = random.whole(0, 2); i > 0; --i)
        c.rules.push_back({"ride.rear", number(2, 4), number(4, 6), "page " + std::to_string(i)});
    if (random.whole(0, 1)) {
        c.day.runs = random.whole(1, 12);
        if (random.whole(0, 1)) c.day.wear_left = number(0, 0.5);
        if (random.whole(0, 1)) c.day.right = {number(42, 43), number(41, 42)};
    }
    for (int i = random.whole(0, 2); i > 0; --i)
        c.measured.push_back({"width.overall", number(170, 172), 0.02, i == 1 ? "caliper" : ""});
    return c;
}

}  // namespace

TEST_CASE("every section of what to choose from is read") {
    const Choosing c = parse_scene(least_scene + sections, "car.toml").choosing;
    CHECK(c.box.shims == std::vector<ShimKind>{{0.1, 6}, {0.25, 2}});
    CHECK(c.box.holders == std::vector<HolderKind>{{0.5, 2}, {1.0, 2}});
    CHECK(c.box.pinions == std::vector<int>{32, 33});
    CHECK(c.box.spurs == std::vector<int>{76});
    CHECK(c.box.blades == std::vector<double>{0.1, 0.15});
    REQUIRE(c.box.wheels.size() == 1);
    CHECK(c.box.wheels[0] == WheelKind{"wide dish", -4.5, 30.0, 3});
    REQUIRE(c.box.tyres.size() == 1);
    CHECK(c.box.tyres[0] == TyreKind{"fresh", 43, 40.5, 40.0, 25.0, "wide dish", 2});
    REQUIRE(c.box.axles.size() == 1);
    CHECK(c.box.axles[0].shoulder == 64.9);
    CHECK(c.goals == std::vector<Goal>{{"ride.rear", 4.0, 0.2, 3}});
    REQUIRE(c.rules.size() == 1);
    CHECK(c.rules[0] == EventRule{"width.overall", std::nullopt, 172.0, "invented sheet, 2.1"});
    CHECK(c.day == RaceDay{5, 0.2, std::nullopt, {}, {43.0, 42.8}});
    CHECK(c.measured == std::vector<Measured>{{"width.left", 85.5, 0.02, "caliper"}});
}

TEST_CASE("mistakes in these sections are told with their place") {
    const auto at = [](const std::string& from, const std::string& to) {
        const std::string text = sections;
        const std::size_t where = text.find(from);
        REQUIRE(where != std::string::npos);
        return complaint(least_scene + with(text, from, to));
    };
    const auto holds = [](const std::string& said, const std::string& part) {
        INFO(said);
        CHECK(said.find(part) != std::string::npos);
        CHECK(said.find('\n') == std::string::npos);
        CHECK(said.compare(0, 9, "car.toml:") == 0);
    };
    holds(at("shims = [[0.1, 6]", "shims = [[0.1, 0]"), "box.shims");
    holds(at("pinions = [32, 33]", "pinions = [32, 33.5]"), "box.pinions");
    holds(at("spurs", "spur"), "did you mean \"spurs\"?");
    holds(at("diameter = 43\n", ""), "lacks diameter");
    holds(at("ride.rear", "ride.raer"), "did you mean \"ride.rear\"?");
    holds(at("of = \"width.overall\"", "of = \"width.overal\""), "did you mean");
    holds(at("from = \"invented sheet, 2.1\"", ""), "lacks from");
    holds(at("uncertainty = 0.02", "uncertainty = 0"), "measured.uncertainty");
    holds(at("runs = 5", "runs = 5.5"), "day.runs");
    holds(at("carbon-wrapped", "carbon-wraped"), "did you mean");
    // No axle is made of these.
    for (const char* material : {"brass", "carbon-plate", "pom"}) {
        const std::string said = at("carbon-wrapped", material);
        holds(said, "it must be steel-4130, ");
        CHECK(said.find("brass,") == std::string::npos);
    }
    CHECK(at("carbon-wrapped", "steel-4130") == "no error");
}

TEST_CASE("every reading can be ruled and measured") {
    Asked asked;
    asked.builds = {100, 100};
    const auto readings = evaluate(Setup{}, asked).readings;
    CHECK(readings.size() >= 69);
    for (const Reading& reading : readings) {
        const std::string name(reading.name);
        INFO(name);
        CHECK(complaint(least_scene + "[[rule]]\nof = \"" + name +
                        "\"\nlow = 0\nfrom = \"made-up sheet\"\n") == "no error");
        // A share of builds is nothing that a gauge shows.
        if (name != "float.outside_share")
            CHECK(complaint(least_scene + "[[measured]]\nreading = \"" + name +
                            "\"\nvalue = 0\nuncertainty = 0.1\n") == "no error");
    }
}

TEST_CASE("a scene with these sections that is saved unchanged stays as it is, byte for byte") {
    const TemporaryFolder folder;
    const std::string text = least_scene + sections;
    write_bytes(folder / "car.toml", text);
    const Setup setup = read_scene(folder / "car.toml");
    save_scene(setup, folder / "car.toml");
    CHECK(bytes_of(folder / "car.toml") == text);
}

TEST_CASE("a change in one section leaves the others and their comments alone") {
    const TemporaryFolder folder;
    write_bytes(folder / "car.toml", least_scene + sections);
    Setup setup = read_scene(folder / "car.toml");
    setup.choosing.goals[0].target = 4.4;
    setup.choosing.measured.push_back({"ride.left", 3.9, 0.05, ""});
    save_scene(setup, folder / "car.toml");
    CHECK(read_scene(folder / "car.toml").choosing == setup.choosing);
    CHECK(bytes_of(folder / "car.toml").find("# two sorts") != std::string::npos);
}

TEST_CASE("whatever is to choose from is written and read back the same") {
    RandomSetups random(51);
    Setup setup = parse_scene(least_scene, "car.toml");
    std::string before;
    for (int i = 0; i < 200; ++i) {
        setup.choosing = random_choosing(random);
        const std::string fresh = scene_text(setup);
        INFO(fresh);
        CHECK(parse_scene(fresh, "car.toml").choosing == setup.choosing);
        // Over what stood there before, too.
        if (!before.empty()) {
            const std::string edited = scene_text(setup, before);
            CHECK(parse_scene(edited, "car.toml").choosing == setup.choosing);
        }
        before = fresh;
    }
}

TEST_CASE("a box and rules in files of their own are read, named, and left alone") {
    const TemporaryFolder folder;
    write_bytes(folder / "box.toml", "[box]\nblades = [0.1]\n");
    write_bytes(folder / "rules.toml", "[[rule]]\nof = \"ride.rear\"\nlow = 3\nfrom = \"2.3\"\n");
    const std::string text = "box = \"box.toml\"\nrules = \"rules.toml\"\n" + least_scene;
    write_bytes(folder / "car.toml", text);
    Setup setup = read_scene(folder / "car.toml");
    CHECK(setup.choosing.box.blades == std::vector<double>{0.1});
    REQUIRE(setup.choosing.rules.size() == 1);
    CHECK(setup.choosing.rules[0].low == 3.0);
    setup.left.shims = {0.1};
    save_scene(setup, folder / "car.toml");
    CHECK(bytes_of(folder / "box.toml") == "[box]\nblades = [0.1]\n");
    CHECK(bytes_of(folder / "car.toml").find("box = \"box.toml\"") != std::string::npos);
    CHECK(bytes_of(folder / "car.toml").find("blades") == std::string::npos);
    CHECK(read_scene(folder / "car.toml").choosing.box == setup.choosing.box);

    write_bytes(folder / "box.toml", "[box]\nblades = [0.1, 99]\n");
    try {
        read_scene(folder / "car.toml");
        FAIL("a wrong box was read");
    } catch (const FileError& error) {
        CHECK(std::string(error.what()).find("box.toml:2:") != std::string::npos);
    }
}
