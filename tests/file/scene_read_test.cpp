#include <catch2/catch.hpp>

#include "file/scene.hpp"
#include "file/value_text.hpp"
#include "scene_samples.hpp"

using namespace podwright;

TEST_CASE("the least scene has the values that it gives and the defaults for the rest") {
    const Setup setup = parse_scene(least_scene, "s");
    CHECK(setup.left.seat == 31);
    CHECK(setup.right.inset == -4.5);
    CHECK(setup.axial_float.blade == 0.15);
    CHECK(setup.gears.by_diametral_pitch);
    CHECK(setup.gears.module == 25.4 / 64);  // m = 25.4/P, definition of the inch (ISO 31-1)
    CHECK(setup.gears.dedendum == Dedendum::fine_pitch);
    CHECK(setup.left.shims.empty());
    CHECK(setup.pod.bore_height == Setup{}.pod.bore_height);
    CHECK_FALSE(setup.motor.clamped_at);
}

TEST_CASE("lengths are read in mm and in inches") {
    // 1 in = 25.4 mm exactly (ISO 31-1).
    CHECK(parse_length("0.25 in") == 6.35);
    CHECK(parse_length("0.25in") == 6.35);
    CHECK(parse_length(" 1 inch ") == 25.4);
    CHECK(parse_length("0.375\"") == 9.525);
    CHECK(parse_length("6.35 mm") == 6.35);
    CHECK(parse_length("-4.5mm") == -4.5);
    CHECK(parse_length("+4.5 mm") == 4.5);
    for (const char* wrong :
         {"", "6.35", "6.35 cm", "in", "mm 6", "6,35 mm", "1/4 in", "0.25 in in"})
        CHECK_FALSE(parse_length(wrong));
    const Setup setup = parse_scene(
        with(with(least_scene, "seat = 31", "shims = [\"0.01 in\", 0.3]\nseat = \"1.25 in\""),
             "reach = 28", "reach = \"28 mm\""),
        "s");
    CHECK(setup.left.seat == 31.75);
    CHECK(setup.left.reach == 28);
    CHECK(setup.left.shims == std::vector<double>{0.254, 0.3});
}

TEST_CASE("angles are read in degrees, choices by name") {
    const Setup setup = parse_scene(
        with(least_scene, "seat = 31", "seat = 31\nholder_way = \"up\"") +
            "pressure_angle = 20\n[motor]\nslot_angle = 12.5\n[axle]\nmaterial = \"carbon-tube\"\n",
        "s");
    CHECK(setup.left.holder_way == Way::up);
    CHECK(setup.right.holder_way == Way::down);
    CHECK(setup.motor.slot_angle == radians(12.5));
    CHECK(setup.gears.pressure_angle == radians(20));
    CHECK(setup.axle.material == Material::carbon_tube);
}

TEST_CASE("the usual tooth depth follows from the size of the teeth") {
    // Fine pitch begins at 20 teeth per inch: Mott, Machine Elements in Mechanical Design, table
    // 8-4.
    const auto depth = [](const std::string& size) {
        Gears gears;
        gears.by_diametral_pitch = size.find("pitch") != std::string::npos;
        const double number = std::stod(size.substr(size.find('=') + 1));
        gears.module = gears.by_diametral_pitch ? module_from_diametral_pitch(number) : number;
        return usual_dedendum(gears);
    };
    CHECK(depth("diametral_pitch = 64") == Dedendum::fine_pitch);
    CHECK(depth("diametral_pitch = 20") == Dedendum::fine_pitch);
    CHECK(depth("diametral_pitch = 19") == Dedendum::full_depth);
    CHECK(depth("module = 0.4") == Dedendum::full_depth);
    const std::string by_module = with(least_scene, "diametral_pitch = 64", "module = 0.4");
    const Setup setup = parse_scene(by_module, "s");
    CHECK_FALSE(setup.gears.by_diametral_pitch);
    CHECK(setup.gears.module == 0.4);
    CHECK(setup.gears.dedendum == Dedendum::full_depth);
    CHECK(parse_scene(by_module + "dedendum = \"deep\"\n", "s").gears.dedendum == Dedendum::deep);
}

TEST_CASE("other forms of TOML are read alike") {
    const Setup plain = parse_scene(least_scene, "s");
    const std::string windows = [] {
        std::string text = "\xEF\xBB\xBF";
        for (const char c : least_scene)
            text += c == '\n' ? std::string("\r\n") : std::string(1, c);
        return text;
    }();
    CHECK(same(parse_scene(windows, "s"), plain));
    const std::string inlined = R"(
left = { seat = 31, standout = 0.9, reach = 28, inset = -4.5, tyre_diameter = 43, tyre_width = 41 }
right.seat = 31.0
right.standout = 9e-1
right."reach" = 28
right.inset = -4.5
right.tyre_diameter = 0x2B
right.tyre_width = 41
float.blade = 0.15
gears.diametral_pitch = 64
gears.pinion = 34.0
gears.spur = 76)";
    CHECK(same(parse_scene(inlined, "s"), plain));
}
