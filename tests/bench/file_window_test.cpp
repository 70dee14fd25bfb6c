#include <array>
#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <filesystem>
#include <string>
#include <thread>

#include "file/temporary_folder.hpp"
#include "window_driver.hpp"

// Opening and saving in the real window, and typing into it.
namespace fs = std::filesystem;

namespace {

/// The demo as car.toml, and another as hot.toml.
fs::path copied(const TemporaryFolder& folder) {
    const fs::path scenes = fs::path(PODWRIGHT_SOURCE_DIR) / "scenes";
    fs::copy_file(scenes / "hot-day.toml", folder / "hot.toml");
    fs::copy_file(scenes / "first-look.toml", folder / "car.toml");
    return folder / "car.toml";
}

void wait_for_place(WindowDriver& window, const std::string& place) {
    window.wait_for(place, [&](const auto& s) { return s["places"].contains(place); });
}

void wait_without(WindowDriver& window, const std::string& place) {
    window.wait_for("no " + place, [&](const auto& s) { return !s["places"].contains(place); });
}

void change(WindowDriver& window, const std::string& way = "up") {
    window.click("left.holder_way:" + way);
    window.wait_for("the changed car", [](const auto& s) { return s["saved"] == false; });
}

/// Over what stands in the field that has the keyboard. The field has it a frame after it is shown,
/// which a slow machine takes long over; nobody types that fast.
void type_over(WindowDriver& window, const std::string& text) {
    std::this_thread::sleep_for(std::chrono::seconds(2));
    window.key("ctrl+a");
    window.type(text);
    window.key("Return");
}

}  // namespace

TEST_CASE("another scene replaces a changed one only when the question is answered so") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder));
    CHECK(window.now()["file"] == "car.toml, saved");
    CHECK(window.title() == "car.toml - Podwright");
    const std::string before = bytes_of(folder / "car.toml");
    change(window);
    CHECK(window.now()["file"] == "car.toml, changed");
    CHECK(window.title() == "car.toml, changed - Podwright");

    // A name is clicked and Return opens it; Esc answers the question with Stay.
    window.key("ctrl+o");
    wait_for_place(window, "file hot.toml");
    window.click("file hot.toml");
    window.key("Return");
    wait_for_place(window, "leave cancel");
    window.key("Escape");
    wait_without(window, "leave cancel");
    CHECK(window.now()["file"] == "car.toml, changed");
    CHECK(window.now()["values"]["left.holder_way"] == 0);

    window.key("ctrl+o");
    wait_for_place(window, "file hot.toml");
    window.click("file hot.toml");
    window.click("accept");
    wait_for_place(window, "leave discard");
    window.click("leave discard");
    window.wait_for("the other scene",
                    [](const auto& s) { return s["file"] == "hot.toml, saved"; });
    CHECK(bytes_of(folder / "car.toml") == before);

    // Without changes there is no question; with them it can save on the way.
    change(window);
    window.key("ctrl+o");
    wait_for_place(window, "file car.toml");
    window.click("file car.toml");
    window.key("Return");
    wait_for_place(window, "leave save");
    window.click("leave save");
    window.wait_for("the first scene",
                    [](const auto& s) { return s["file"] == "car.toml, saved"; });
    CHECK(bytes_of(folder / "hot.toml").find("holder_way = \"up\"") != std::string::npos);
    window.key("ctrl+o");
    wait_for_place(window, "file hot.toml");
    window.click("file hot.toml");
    window.key("Return");
    window.wait_for("hot.toml", [](const auto& s) { return s["file"] == "hot.toml, saved"; });
}

TEST_CASE("save as asks before it replaces another file, and brings its own comments") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder));
    const std::string own = bytes_of(folder / "car.toml"), other = bytes_of(folder / "hot.toml");
    change(window);
    window.key("ctrl+shift+s");
    wait_for_place(window, "accept");
    type_over(window, "hot");
    wait_for_place(window, "replace");
    // Return is no yes; the keyboard goes back to the name.
    window.key("Return");
    wait_for_place(window, "accept");
    CHECK(bytes_of(folder / "hot.toml") == other);
    // What cannot be saved says why, and the name is there to be mended.
    type_over(window, "none/car");
    window.wait_for("the reason", [](const auto& s) {
        return s["message"].template get<std::string>().find("no folder") != std::string::npos;
    });
    type_over(window, "hot.toml");
    wait_for_place(window, "replace");
    window.click("replace");
    window.wait_for("the saved scene",
                    [](const auto& s) { return s["file"] == "hot.toml, saved"; });
    CHECK(bytes_of(folder / "car.toml") == own);
    const std::string saved = bytes_of(folder / "hot.toml");
    CHECK(saved.substr(0, saved.find('\n')) == own.substr(0, own.find('\n')));

    // Its own file is no other file.
    change(window, "down");
    window.key("ctrl+shift+s");
    wait_for_place(window, "accept");
    window.key("Return");
    window.wait_for("the saved scene",
                    [](const auto& s) { return s["file"] == "hot.toml, saved"; });
}

TEST_CASE("a saved scene stands behind the car as a ghost, and the car stays as it is") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder));
    const auto before = window.now();
    window.key("ctrl+o");
    wait_for_place(window, "file hot.toml");
    window.click("file hot.toml");
    wait_for_place(window, "as ghost");
    window.click("as ghost");
    window.wait_for("the ghost", [](const auto& s) { return s["ghost"] != ""; });
    CHECK(window.now()["file"] == "car.toml, saved");
    CHECK(window.now()["values"] == before["values"]);
    CHECK(window.now()["places"].contains("drop ghost"));
}

TEST_CASE("the camera moves and parts are picked with the keyboard alone") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder));
    const auto start = window.now()["camera"];
    window.key("ctrl+Left");
    window.wait_for("a turn", [&](const auto& s) {
        return std::abs(s["camera"]["azimuth"].template get<double>() -
                        start["azimuth"].template get<double>() - 0.26) < 1e-6;
    });
    window.key("ctrl+minus");
    window.wait_for("the way back", [&](const auto& s) {
        return s["camera"]["distance"].template get<double>() >
               1.2 * start["distance"].template get<double>();
    });
    window.key("period");
    window.wait_for("a part", [](const auto& s) { return s["picked"] != ""; });
    const std::string first = window.now()["picked"];
    window.key("period");
    window.wait_for("the next", [&](const auto& s) { return s["picked"] != first; });
    window.key("comma");
    window.wait_for("the first", [&](const auto& s) { return s["picked"] == first; });
    // Tab hides the panels and brings them back.
    window.key("Tab");
    wait_without(window, "value left.inset");
    window.key("Tab");
    wait_for_place(window, "value left.inset");
}

TEST_CASE("a Return that is held is one answer") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder), 1360, 820, true);
    window.key("ctrl+shift+s");
    wait_for_place(window, "accept");
    type_over(window, "hot");
    wait_for_place(window, "replace");
    // It keeps the file; repeated in the name it would ask again.
    window.key("Return", 1500);
    window.wait_for("the name", [](const auto& s) {
        return s["places"].contains("accept") && !s["places"].contains("replace");
    });
    window.type("x");
    window.key("Return");
    window.wait_for("the saved scene", [](const auto& s) {
        return s["file"].template get<std::string>().ends_with("x.toml, saved");
    });
}

TEST_CASE("values are typed as people write them, and Space does one thing") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder));
    const auto is = [&](const char* key, double value) {
        window.wait_for(key, [&](const auto& s) {
            return std::abs(s["values"][key].template get<double>() - value) < 1e-9;
        });
    };
    window.click("value left.inset");
    type_over(window, "-3,5");
    is("left.inset", -3.5);
    window.click("value left.inset");
    type_over(window, "0.1 in");
    is("left.inset", 2.54);
    window.click("value left.inset");
    type_over(window, "wide");
    window.wait_for("the reason", [](const auto& s) {
        return s["message"].template get<std::string>().find("not a number") != std::string::npos;
    });
    window.click("value gears.spur");
    type_over(window, "77");
    is("gears.spur", 77);

    // With the keyboard on the value Space opens its box, and the axle stays where it is.
    window.key("Left");
    const auto before = window.now();
    window.key("space");
    window.type("78");
    window.key("Return");
    window.wait_for("what was typed",
                    [&](const auto& s) { return s["values"] != before["values"]; });
    CHECK(window.now()["pose"] == before["pose"]);
}

TEST_CASE("the picked part has one card, and its buttons are not the model") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder));
    window.key("2");
    window.wait_for("the left view", [](const auto& s) { return s["view"] == "left"; });
    window.move(700, 525);
    wait_for_place(window, "hover card");
    window.press(700, 525);
    window.release();
    window.wait_for("a picked part", [](const auto& s) { return s["picked"] != ""; });
    CHECK(window.now()["hovered"] == window.now()["picked"]);
    CHECK_FALSE(window.now()["places"].contains("hover card"));
    // Another part has its card at the pointer, but not through the buttons.
    window.move(520, 525);
    wait_for_place(window, "hover card");
    CHECK(window.now()["hovered"] != window.now()["picked"]);
    const auto box = window.now()["places"]["part see-through"].get<std::array<double, 4>>();
    window.move(box[0] + box[2] / 2, box[1] + box[3] / 2);
    wait_without(window, "hover card");
    CHECK(window.now()["hovered"] == "");
}
