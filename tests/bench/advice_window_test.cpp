#include <unistd.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <string>

#include "file/temporary_folder.hpp"
#include "window_driver.hpp"

// The pages beside the car's own, in the real window.
namespace fs = std::filesystem;

namespace {

fs::path demo(const std::string& name) { return fs::path(PODWRIGHT_SOURCE_DIR) / "scenes" / name; }

/// A scene of its own with the box and the rules that it names.
fs::path copied(const TemporaryFolder& folder, const std::string& name) {
    for (const char* other : {"club-box.toml", "hall-rules.toml"})
        fs::copy_file(demo(other), folder / other);
    fs::copy_file(demo(name), folder / "car.toml");
    return folder / "car.toml";
}

void open_page(WindowDriver& window, const std::string& page, const std::string& until) {
    window.click("page:" + page);
    window.wait_for(page, [&](const auto& s) { return s["places"].contains(until); });
}

}  // namespace

TEST_CASE("choose: ten builds, one shown as a ghost, one taken, undo goes back") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder, "parts-box.toml"));
    open_page(window, "Choose", "choose");
    window.click("choose");
    window.wait_for("the best ten",
                    [](const auto& s) { return s["places"].contains("answer 10"); });
    const auto before = window.now();
    const podwright::Image plain = window.screenshot();
    window.click("show answer 1");
    window.wait_for("the ghost", [](const auto& s) { return s["ghost"] == "Build 1"; });
    CHECK(window.now()["saved"] == true);
    CHECK(window.now()["readings"] == before["readings"]);
    // The ghost stands on the bench, faintly, and not only as another word on the button.
    CHECK(changed_share(plain, window.screenshot(), 20, {320, 1020, 80, 700}) > 0.005);

    window.click("take answer 1");
    window.wait_for("the build", [](const auto& s) { return s["saved"] == false; });
    // The demo's goals can all be met: within their bands.
    const auto& readings = window.now()["readings"];
    CHECK(std::abs(readings["width.overall"].get<double>() - 171.5) <= 0.1 + 1e-9);
    CHECK(std::abs(readings["gear.rollout"].get<double>() - 61.0) <= 1.0);
    CHECK(window.now()["findings"].empty());
    window.click("undo");
    window.wait_for("the car as it was", [&](const auto& s) {
        return s["saved"] == true && s["readings"] == before["readings"];
    });
    window.key("ctrl+q");
    CHECK(window.wait_for_end() == 0);
}

TEST_CASE("day: the plan is shown, a run is taken with its tyres") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder, "parts-box.toml"));
    open_page(window, "Day", "plan");
    window.click("plan");
    window.wait_for("the runs", [](const auto& s) { return s["places"].contains("run 8"); });
    window.click("take run 2");
    // The line through the measured diameters: 43.005 - 0.195 before the second run.
    window.wait_for("the second run's tyres", [](const auto& s) {
        return std::abs(s["values"]["left.tyre_diameter"].template get<double>() - 42.81) < 0.005;
    });
    window.key("ctrl+z");
    window.wait_for("the first tyres",
                    [](const auto& s) { return s["values"]["left.tyre_diameter"] == 43.0; });
    window.key("ctrl+q");
    CHECK(window.wait_for_end() == 0);
}

TEST_CASE("checks: a suspect stands on the model as what would be different") {
    const TemporaryFolder folder;
    WindowDriver window(copied(folder, "measured.toml"));
    CHECK(window.has_finding("measured.disagrees"));
    open_page(window, "Checks", "show suspect 1");
    CHECK(window.now()["places"].contains("rule 6"));
    CHECK(window.now()["places"].contains("measured 5"));
    window.click("show suspect 1");
    window.wait_for("the suspect", [](const auto& s) {
        return s["ghost"] == "left: the 0.20 mm shim is there twice" && s["view"] == "section";
    });
    open_page(window, "Effects", "effect both.holder");
    CHECK(window.now()["ghost"] == "");
    CHECK(window.now()["saved"] == true);
    window.key("ctrl+q");
    CHECK(window.wait_for_end() == 0);
}

TEST_CASE("what takes long can be stopped, and the window stays alive") {
    const TemporaryFolder folder;
    const fs::path car = copied(folder, "parts-box.toml");
    write_bytes(folder / "club-box.toml",
                "[box]\nshims = [[0.05, 5], [0.1, 5], [0.15, 5], [0.2, 5], [0.25, 5], [0.3, 5]]\n"
                "holders = [[0, 2], [0.25, 2], [0.5, 2], [0.75, 2], [1, 2], [1.25, 2]]\n"
                "pinions = [24, 26, 28, 30, 32, 34, 36, 38, 40]\nspurs = [72, 74, 76, 78, 80]\n");
    write_bytes(
        car, bytes_of(car) + "\n[[goal]]\nreading = \"clearance\"\ntarget = 1.0\nweight = 1000\n");
    WindowDriver window(car);
    open_page(window, "Choose", "choose");
    window.click("choose");
    window.wait_for("the button that stops it",
                    [](const auto& s) { return s["places"].contains("stop advice"); });
    window.key("2");
    window.wait_for("another view meanwhile", [](const auto& s) { return s["view"] == "left"; });
    window.click("stop advice");
    window.wait_for("the end of it", [](const auto& s) {
        return !s["places"].contains("stop advice") && s["places"].contains("choose");
    });
    window.key("ctrl+q");
    CHECK(window.wait_for_end() == 0);
}
