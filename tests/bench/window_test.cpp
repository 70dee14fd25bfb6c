#include <unistd.h>

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "window_driver.hpp"

namespace fs = std::filesystem;

namespace {

/// A scene of its own to open and save, gone at the end.
class SceneCopy {
public:
    explicit SceneCopy(const std::string& name) {
        std::string pattern = (fs::temp_directory_path() / "podwright-window-XXXXXX").string();
        REQUIRE(mkdtemp(pattern.data()) != nullptr);
        folder_ = pattern;
        fs::copy_file(fs::path(PODWRIGHT_SOURCE_DIR) / "scenes" / name, path());
    }
    ~SceneCopy() { fs::remove_all(folder_); }
    SceneCopy(const SceneCopy&) = delete;
    SceneCopy& operator=(const SceneCopy&) = delete;
    fs::path path() const { return folder_ / "car.toml"; }
    std::string text() const {
        std::ifstream file(path(), std::ios::binary);
        return {std::istreambuf_iterator<char>(file), {}};
    }

private:
    fs::path folder_;
};

}  // namespace

TEST_CASE("the first look: find the caution, drag, undo, mend, save, close") {
    const SceneCopy scene("first-look.toml");
    WindowDriver window(scene.path());
    const std::string before_text = scene.text();
    const auto start = window.now();
    REQUIRE(start["findings"].size() == 1);
    CHECK(window.has_finding("width.uneven"));
    CHECK(start["saved"] == true);
    const podwright::Image first = window.screenshot();

    // The picture is there: the bench in the middle holds many colours, not one blank field.
    double darkest = 1e9;
    double brightest = 0;
    for (int x = 320; x < 1020; x += 3)
        for (int y = 80; y < 700; y += 3) {
            const auto* p = first.at(x, y);
            const double grey = (p[0] + p[1] + p[2]) / 3.0;
            darkest = std::min(darkest, grey);
            brightest = std::max(brightest, grey);
        }
    CHECK(darkest < 60);
    CHECK(brightest > 230);

    // Drag an adjuster: the inset of both sides goes to the outboard end and the car grows too
    // wide.
    const double width = start["readings"]["width.overall"];
    window.drag_track("left.inset", 0.35, 0.05);
    window.release();
    window.wait_for("the wider car", [&](const auto& s) {
        return s["readings"]["width.overall"].template get<double>() > width + 1 &&
               s["saved"] == false;
    });
    CHECK(window.has_finding("width.over"));
    const double left = window.now()["values"]["left.inset"];
    CHECK(window.now()["values"]["right.inset"] == left);  // the sides are linked
    CHECK(changed_share(first, window.screenshot(), 40) > 0.01);

    // One undo takes the whole drag back.
    window.click("undo");
    window.wait_for("the undone drag", [&](const auto& s) {
        return s["readings"]["width.overall"].template get<double>() == width;
    });
    CHECK_FALSE(window.has_finding("width.over"));
    CHECK(window.now()["saved"] == true);

    // Mend the caution with its own fix.
    window.click("fix width.uneven");
    window.wait_for("the mended car", [](const auto& s) { return s["findings"].empty(); });
    CHECK(std::abs(window.now()["readings"]["width.shift"].get<double>()) <= 0.25);

    // Save: the file changes where the value changed and keeps its comments; then close.
    window.key("ctrl+s");
    window.wait_for("the saved file", [](const auto& s) { return s["saved"] == true; });
    const std::string after_text = scene.text();
    CHECK(after_text != before_text);
    CHECK(after_text.substr(0, after_text.find('\n')) ==
          before_text.substr(0, before_text.find('\n')));
    window.key("ctrl+q");
    CHECK(window.wait_for_end() == 0);
}

TEST_CASE("the mouse turns the bench, picks a part, and keys choose views") {
    const SceneCopy scene("first-look.toml");
    WindowDriver window(scene.path());
    const double azimuth = window.now()["camera"]["azimuth"];
    window.press(700, 620);
    for (int i = 1; i <= 10; ++i) window.move(700 + 12 * i, 620);
    window.release();
    window.wait_for("the turned camera", [&](const auto& s) {
        return std::abs(s["camera"]["azimuth"].template get<double>() - azimuth) > 0.3;
    });
    CHECK(window.now()["view"] == "");

    window.key("2");
    window.wait_for("the left view", [](const auto& s) { return s["view"] == "left"; });
    // In the middle of the left view stands some part of the left end.
    window.press(700, 525);
    window.release();
    window.wait_for("a picked part",
                    [](const auto& s) { return s["picked"].template get<std::string>() != ""; });
    CHECK(window.now()["picked"] == window.now()["hovered"]);
    window.key("Escape");
    window.wait_for("nothing picked", [](const auto& s) { return s["picked"] == ""; });

    window.key("ctrl+q");
    CHECK(window.wait_for_end() == 0);
}

TEST_CASE(
    "room: a pair is looked at, parts take the colour of their clearance, the envelope runs") {
    const SceneCopy scene("first-look.toml");
    WindowDriver window(scene.path());
    const auto start = window.now();
    REQUIRE(start["clearances"].contains("axle|motor"));
    window.click("room axle|motor");
    window.wait_for("the gap", [&](const auto& s) {
        return s["looked_at"] == "axle|motor" &&
               s["camera"]["distance"].template get<double>() <
                   start["camera"]["distance"].template get<double>() / 2;
    });
    window.key("1");
    window.wait_for("the axle view", [](const auto& s) { return s["looked_at"] == ""; });
    const podwright::Image plain = window.screenshot();
    window.key("k");
    window.wait_for("the colours at rest", [&](const auto& s) { return s["view"] == "axle"; });
    sleep(1);
    CHECK(changed_share(plain, window.screenshot(), 40) > 0.03);

    // The axle slid to the right end of its float: there the hub is as near its bearing as it gets.
    window.drag_track("pose.along", 1, 0);
    window.release();
    window.wait_for("the axle at the right end", [&](const auto& s) {
        const auto& pair = s["clearances"]["left.bearing|left.hub"];
        const double now = pair[0];
        const double worst = pair[1];
        return s["pose"]["along"] == -1.0 && std::abs(now - worst) < 0.005;
    });
    CHECK(window.now()["saved"] == true);
    window.key("ctrl+q");
    CHECK(window.wait_for_end() == 0);
}

TEST_CASE("the page of what the axle feels: load cases, another axle, builds") {
    const SceneCopy scene("first-look.toml");
    WindowDriver window(scene.path(), 1360, 1600);
    CHECK(window.now()["page"] == "Car");
    // Every reading of the report has its row.
    for (const auto& [name, value] : window.now()["readings"].items()) {
        INFO(name);
        CHECK(window.now()["places"].contains("reading " + name));
    }
    CHECK(window.now()["readings"].contains("float.outside_share"));
    window.key("e");
    window.wait_for("the page", [](const auto& s) { return s["page"] == "Feel"; });
    const podwright::Image straight = window.screenshot();

    // A load case is shown on the model, and taken away again.
    window.click("case launch");
    window.wait_for("the launch", [](const auto& s) {
        return s["load_case"] == "launch" && s["load"].template get<double>() == 1;
    });
    CHECK(changed_share(straight, window.screenshot(), 40) > 0.01);
    window.key("b");  // the next one
    window.wait_for("the kerb", [](const auto& s) {
        return s["load_case"] == "kerb-left" && s["load"].template get<double>() == 1;
    });
    window.click("case kerb-left");
    window.wait_for("nothing", [](const auto& s) { return s["load_case"] == ""; });

    // Another axle is named, changed, saved, put on the car, and let go.
    CHECK_FALSE(window.now()["values"].contains("other_axle.material"));
    window.click("compare");
    window.wait_for("the other axle", [](const auto& s) {
        return s["values"].contains("other_axle.material") && s["places"].contains("swap axles");
    });
    window.drag_track("other_axle.bore", 0.33, 0.2);
    window.release();
    // A slow window still follows the hand when it has let go: what is saved is where it ends.
    window.wait_for("its bore", [](const auto& s) {
        return s["values"].contains("other_axle.bore") &&
               s["values"]["other_axle.bore"].template get<double>() < 3.5;
    });
    window.key("ctrl+s");
    window.wait_for("the saved file", [](const auto& s) { return s["saved"] == true; });
    const double bore = window.now()["values"]["other_axle.bore"];
    CHECK(scene.text().find("[other_axle]") != std::string::npos);
    const double own = window.now()["values"]["axle.bore"];
    window.click("swap axles");
    window.wait_for("the swapped axles", [&](const auto& s) {
        return s["values"]["axle.bore"] == bore && s["values"]["other_axle.bore"] == own;
    });
    window.click("undo");
    window.wait_for("the axles as before",
                    [&](const auto& s) { return s["values"]["axle.bore"] == own; });
    window.click("drop axle");
    window.wait_for("one axle", [](const auto& s) {
        return !s["values"].contains("other_axle.material") && s["places"].contains("compare");
    });

    // The builds of another length, in the picture below the choice of it.
    CHECK(window.now()["builds_of"] == "float");
    const podwright::Image of_float = window.screenshot();
    window.click("builds:backlash");
    window.wait_for("the other builds", [](const auto& s) { return s["builds_of"] == "backlash"; });
    const auto first = window.now()["places"]["builds:float"].get<std::array<double, 4>>();
    const auto last = window.now()["places"]["builds:backlash"].get<std::array<double, 4>>();
    const int foot = static_cast<int>(first[1] + first[3]);
    const PixelRegion histogram{static_cast<int>(first[0]), static_cast<int>(last[0] + last[2]),
                                foot + 10, foot + 110};
    CHECK(changed_share(of_float, window.screenshot(), 40, histogram) > 0.05);
    window.key("e");
    window.wait_for("the findings", [](const auto& s) {
        return s["page"] == "Car" && s["places"].contains("fix width.uneven");
    });
}

TEST_CASE("one switch turns the whole window to inches, and what is typed with it") {
    const SceneCopy scene("first-look.toml");
    WindowDriver window(scene.path());
    const auto start = window.now();
    const podwright::Image in_mm = window.screenshot();
    window.click("unit:in");
    window.move(700, 780);
    window.settle();
    const podwright::Image in_inches = window.screenshot();
    // Adjusters at the left, readings at the right and the words on the model are others; the car
    // is the same.
    const int panel = 300, bench_end = 1040;
    CHECK(changed_share(in_mm, in_inches, 40, {0, panel, 80, 780}) > 0.005);
    CHECK(changed_share(in_mm, in_inches, 40, {panel, bench_end, 80, 700}) > 0.001);
    CHECK(changed_share(in_mm, in_inches, 40, {bench_end, 1360, 80, 780}) > 0.005);
    CHECK(window.now()["readings"] == start["readings"]);
    CHECK(window.now()["saved"] == true);

    // A typed number is one of inches: 0.1 in are 2.54 mm.
    window.click("value left.inset");
    window.type("0.1");
    window.key("Return");
    window.wait_for("the typed inset", [](const auto& s) {
        return std::abs(s["values"]["left.inset"].template get<double>() - 2.54) < 1e-9;
    });
    // So is one that is refused, and the sentence that says so.
    window.click("value left.inset");
    window.type("99");
    window.key("Return");
    window.wait_for("the refusal", [](const auto& s) { return s["message"] != ""; });
    const std::string message = window.now()["message"];
    INFO(message);
    CHECK(message.find(" in") != std::string::npos);
    CHECK(message.find(" mm") == std::string::npos);
    CHECK(window.now()["places"].dump().find(" mm") == std::string::npos);
}

TEST_CASE("a finding's parts are shown, and let go again") {
    const SceneCopy scene("first-look.toml");
    WindowDriver window(scene.path());
    const auto start = window.now();
    const auto camera = [](const auto& s) {
        return std::array<double, 3>{s["camera"]["azimuth"], s["camera"]["elevation"],
                                     s["camera"]["distance"]};
    };
    const podwright::Image before = window.screenshot();
    window.click("show width.uneven");
    window.wait_for("the camera at the parts", [&](const auto& s) {
        return std::abs(camera(s)[2] - camera(start)[2]) > 0.05 * camera(start)[2];
    });
    // Nothing of the car has changed, but what the finding is about stands in another light.
    window.settle();
    CHECK(window.now()["values"] == start["values"]);
    CHECK(window.now()["saved"] == true);
    const podwright::Image shown = window.screenshot();
    const PixelRegion bench{320, 1020, 80, 700};
    CHECK(changed_share(before, shown, 40, bench) > 0.05);
    // Let go, the parts are as they were, while the camera stays.
    const auto there = camera(window.now());
    window.click("show width.uneven");
    window.move(700, 780);
    window.settle();
    const podwright::Image after = window.screenshot();
    CHECK(camera(window.now()) == there);
    CHECK(changed_share(shown, after, 40, bench) > 0.001);
}

TEST_CASE("closing with unsaved changes asks, and may be called off") {
    const SceneCopy scene("first-look.toml");
    WindowDriver window(scene.path());
    const std::string before = scene.text();
    window.click("left.holder_way:up");
    window.wait_for("the turned holder", [](const auto& s) { return s["saved"] == false; });
    CHECK(window.now()["values"]["motor.clamped_at"].is_number());
    window.key("ctrl+q");
    window.wait_for("the question",
                    [](const auto& s) { return s["places"].contains("leave cancel"); });
    window.click("leave cancel");
    window.wait_for("the bench again",
                    [](const auto& s) { return !s["places"].contains("leave cancel"); });
    window.key("ctrl+q");
    window.wait_for("the question",
                    [](const auto& s) { return s["places"].contains("leave discard"); });
    window.click("leave discard");
    CHECK(window.wait_for_end() == 0);
    CHECK(scene.text() == before);
}

TEST_CASE("a window opens within a small screen") {
    const SceneCopy scene("first-look.toml");
    const WindowDriver window(scene.path(), 1000, 600);
    const auto [x, y, width, height] = window.opened();
    CHECK(x >= 0);
    CHECK(y >= 0);
    CHECK(x + width <= 1000);
    CHECK(y + height <= 600);
    CHECK(width >= 900);
}

TEST_CASE("a window at rest costs no processor") {
    const SceneCopy scene("first-look.toml");
    WindowDriver window(scene.path());
    window.move(10, 810);
    sleep(2);
    const double before = window.processor_seconds();
    sleep(3);
    // A frame on the software renderer costs tens of milliseconds; at rest there is none.
    CHECK(window.processor_seconds() - before < 0.03);
}
