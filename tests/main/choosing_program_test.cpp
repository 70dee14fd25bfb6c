#include <signal.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>
#include <thread>

#include "core/parameters.hpp"
#include "file/scene.hpp"
#include "program_runner.hpp"

// `choose`, `plan` and what `report` says of rules and measurements, end to end on real files.
using nlohmann::json;
using podwright::FileError;

namespace {

/// The scene with the edits that an answer names.
podwright::Setup edited(podwright::Setup setup, const json& edits) {
    for (const auto& [key, value] : edits.items()) {
        const podwright::Parameter& p = *podwright::find_parameter(key);
        if (p.kind == podwright::ValueKind::list) {
            p.set_list(setup, value.get<std::vector<double>>());
        } else if (p.kind == podwright::ValueKind::choice) {
            const auto at = std::find(p.options.begin(), p.options.end(), value.get<std::string>());
            p.set(setup, static_cast<double>(at - p.options.begin()));
        } else {
            p.set(setup, value.get<double>());
        }
    }
    return setup;
}

/// A copy of the demo with its box and rules, in a folder of its own.
void copy_demo(const TemporaryFolder& folder) {
    for (const char* name : {"parts-box.toml", "club-box.toml", "hall-rules.toml"})
        std::filesystem::copy_file(scene(name), folder / name);
}

std::string with(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

/// The text with its words one space apart, wherever its lines end.
std::string in_one_line(const std::string& text) {
    std::istringstream words(text);
    std::string line, word;
    while (words >> word) line += (line.empty() ? "" : " ") + word;
    return line;
}

}  // namespace

TEST_CASE("choose: every answer, saved as a scene and reported anew, keeps its promise") {
    const TemporaryFolder folder;
    copy_demo(folder);
    const Result result = run({"choose", (folder / "parts-box.toml").string(), "--json"});
    INFO(result.errors);
    REQUIRE(result.code == 0);
    CHECK(result.errors.empty());
    const json choice = json::parse(result.out);
    REQUIRE(choice["best"].size() == 10);
    CHECK(choice["stopped"] == false);
    CHECK(choice["combinations"].get<double>() > 1e6);
    CHECK(choice["front"].size() >= 1);
    double before = -1;
    for (const json& answer : choice["best"]) {
        CHECK(answer["points"].get<double>() >= before);
        before = answer["points"];
        CHECK(answer["steps"].size() >= (answer["changes"] == 0 ? 0U : 1U));
        const podwright::Setup build =
            edited(podwright::read_scene(folder / "parts-box.toml"), answer["edits"]);
        podwright::save_scene(build, folder / "answer.toml");
        const Result report = run({"report", (folder / "answer.toml").string(), "--json"});
        CHECK(report.code == 0);  // nothing but notes
        const json told = json::parse(report.out);
        const json& readings = told["readings"];
        for (const json& goal : answer["goals"])
            CHECK(readings[goal["reading"].get<std::string>()]["value"].get<double>() ==
                  Approx(goal["value"].get<double>()).margin(1e-9));
        for (const json& rule : told["rules"]) CHECK(rule["state"] == "met");
    }
    const Result text = run({"choose", (folder / "parts-box.toml").string(), "--inches"});
    CHECK(text.code == 0);
    CHECK(text.out.find("The best, in order:") != std::string::npos);
    CHECK(text.out.find(" mm") == std::string::npos);
    CHECK(text.out == run({"choose", (folder / "parts-box.toml").string(), "--inches"}).out);
}

TEST_CASE("choose ends on clearances that cannot be had, in the trade's words and with care") {
    const TemporaryFolder folder;
    copy_demo(folder);
    const std::string file = (folder / "parts-box.toml").string();
    write_bytes(file, bytes_of(file) + "\n[[goal]]\nreading = \"clearance\"\ntarget = 3.0\n");
    const Result result = run({"choose", file});
    REQUIRE(result.code == 0);
    for (const char* part : {"gave up", "clearances at least ", " more than needed",
                             "fit the wheel \"flat dish\" of -4.00 mm inset", "battery out",
                             "The event's rules, the maker's manual and local law come first."})
        CHECK(in_one_line(result.out).find(part) != std::string::npos);
    for (const char* part : {" room", " margin"}) CHECK(result.out.find(part) == std::string::npos);
    CHECK(run({"choose", file}).out == result.out);
}

TEST_CASE("plan: diameters that grow, no wear at all, and what is broken whatever is changed") {
    const TemporaryFolder folder;
    copy_demo(folder);
    const std::string file = (folder / "parts-box.toml").string();
    const std::string demo = bytes_of(file);
    const std::size_t measured = demo.rfind("left = [43.0");
    REQUIRE(measured != std::string::npos);
    write_bytes(file, demo.substr(0, measured) + "left = [42, 43, 44]\nwear_right = 0.2\n");
    std::string text = run({"plan", file}).out;
    CHECK(text.find("left 43.00 mm, no wear; right 43.00 mm, 0.20 mm a run.") != std::string::npos);
    CHECK(text.find("does not shrink from run to run") != std::string::npos);
    write_bytes(file, demo.substr(0, measured));
    text = run({"plan", file}).out;
    CHECK(text.find("Without wear every run is the same.") != std::string::npos);
    CHECK(text.find("wear_left and wear_right") != std::string::npos);
    // A shift of 0.1 mm where 0.05 is allowed: 50 points in each of eight runs.
    write_bytes(file, with(with(demo, "shims = [0.3, 0.2]", "shims = [0.3, 0.2, 0.2]"),
                           "shift_max = 0.25", "shift_max = 0.05"));
    const Result result = run({"plan", file});
    CHECK(result.code == 1);
    CHECK(in_one_line(result.out).find("8 of 8 runs break a limit") != std::string::npos);
    CHECK(json::parse(run({"plan", file, "--json"}).out)["points"].get<double>() > 8 * 50);
    CHECK(run({"plan", file}).out.find("0.000 points lost") == std::string::npos);
}

TEST_CASE("choose: where nothing fits it says what is in the way and what would help") {
    const TemporaryFolder folder;
    copy_demo(folder);
    const std::string file = (folder / "parts-box.toml").string();
    // Tyres of 43 and holders to 1 mm down make 21.5 - 17 = 4.5 mm of ride height at most.
    write_bytes(file, with(with(bytes_of(file), "ride_low = 3.0", "ride_low = 4.8"),
                           "ride_high = 5.0", "ride_high = 5.0"));
    const Result result = run({"choose", file, "--json"});
    CHECK(result.code == 1);
    const json choice = json::parse(result.out);
    CHECK(choice["best"].empty());
    REQUIRE(choice["blame"]["obstacles"].size() == 1);
    CHECK(choice["blame"]["obstacles"][0]["limit"] == "ride height");
    CHECK(choice["blame"]["obstacles"][0]["text"] ==
          "ride height: 4.50 mm at best, 0.30 mm less than the 4.80 mm allowed");
    CHECK(choice["blame"]["addition"]["text"] == "2 x 1.50 mm holder");  // 21.5 - 16.5 = 5.0
    CHECK(run({"choose", file}).out.find("buy or borrow: 2 x 1.50 mm holder") != std::string::npos);
}

TEST_CASE("choose: what no part of the box can change is blamed without a search") {
    const TemporaryFolder folder;
    copy_demo(folder);
    const std::string file = (folder / "parts-box.toml").string();
    write_bytes(file, with(bytes_of(file), "can_diameter = 35.8", "can_diameter = 36.8"));
    const Result result = run({"choose", file, "--json"});
    CHECK(result.code == 1);
    const json choice = json::parse(result.out);
    CHECK(choice["looked_at"] == 0);
    CHECK(choice["gave_up"] == false);
    REQUIRE(choice["blame"]["obstacles"].size() == 1);
    CHECK(choice["blame"]["obstacles"][0]["text"].get<std::string>().find("can diameter") !=
          std::string::npos);
}

TEST_CASE(
    "choose: a car that is too wide is told so, and which wheels would make it narrow enough") {
    const TemporaryFolder folder;
    copy_demo(folder);
    const std::string file = (folder / "parts-box.toml").string();
    write_bytes(file, with(bytes_of(file), "width_max = 172.0", "width_max = 168.0"));
    const json choice = json::parse(run({"choose", file, "--json"}).out);
    REQUIRE(choice["blame"]["obstacles"].size() == 1);
    CHECK(choice["blame"]["obstacles"][0]["limit"] == "overall width");
    // Derived: 2 x (31 + 0.9 + 28 + 4 + 20.5) of the wheels at hand, 0.1 of the thinnest blade, and
    // shims. A hub must keep 0.3 mm from its bearing's flange, which stands 0.0144 mm farther out
    // than the inner ring: on either side 0.3144, of which the box's shims make 0.4 at the least.
    const std::string text = choice["blame"]["obstacles"][0]["text"];
    CHECK(std::stod(text.substr(text.find(": ") + 2)) ==
          Approx(168.8 + 0.1 + 2 * 0.4).margin(0.005));
    const json& addition = choice["blame"]["addition"];
    CHECK(addition["text"].get<std::string>().rfind("2 x wheel of ", 0) == 0);
    podwright::save_scene(edited(podwright::read_scene(file), addition["answer"]["edits"]),
                          folder / "with.toml");
    const Result report = run({"report", (folder / "with.toml").string(), "--json"});
    CHECK(report.code == 0);
    CHECK(json::parse(report.out)["readings"]["width.overall"]["value"].get<double>() <=
          168.0 + 1e-9);
}

TEST_CASE("plan: a run a line, each with its diameters and what to change") {
    const Result result = run({"plan", scene("parts-box.toml"), "--json"});
    INFO(result.errors);
    REQUIRE(result.code == 0);
    const json plan = json::parse(result.out);
    REQUIRE(plan["runs"].size() == 8);
    CHECK(plan["wear_left"]["fitted"] == true);
    // Least squares through 43.0, 42.81, 42.63, 42.41 by hand: slope = (-1.5 x 43 - 0.5 x 42.81 +
    // 0.5 x 42.63 + 1.5 x 42.41) / 5.
    CHECK(plan["wear_left"]["per_run"].get<double>() == Approx(0.195).margin(1e-9));
    int changes = 0;
    for (const json& run_json : plan["runs"]) {
        CHECK(run_json["broken"].empty());
        CHECK(run_json["left"].get<double>() == Approx(plan["wear_left"]["start"].get<double>() -
                                                       0.195 * (run_json["run"].get<int>() - 1))
                                                    .margin(1e-9));
        CHECK(run_json["ride"].get<double>() >= 3.0);
        changes += run_json["changes"].get<int>();
    }
    CHECK(plan["changes"] == changes);
    const Result text = run({"plan", scene("parts-box.toml")});
    CHECK(text.code == 0);
    CHECK(text.out.find("run  8  ") != std::string::npos);
}

TEST_CASE("choose and plan say what a scene lacks") {
    check_failed(run({"choose", scene("first-look.toml")}), "has no parts box; add [box]");
    check_failed(run({"plan", scene("first-look.toml")}), "has no day to plan; add [day]");
    check_failed(run({"choose", "none.toml"}), "there is no such file");
    check_failed(run({"choose", scene("parts-box.toml"), "--jsno"}), "--jsno");
}

TEST_CASE("report: rules with margins, what was measured, effects, and what follows from what") {
    const json report = json::parse(run({"report", scene("measured.toml"), "--json", "--effects",
                                         "--against", scene("parts-box.toml")})
                                        .out);
    REQUIRE(report["rules"].size() == 6);
    CHECK(report["rules"][0]["of"] == "width.overall");
    // Derived: 172 - 170.95 mm.
    CHECK(report["rules"][0]["margin"].get<double>() == Approx(1.05).margin(1e-9));
    CHECK(report["rules"][0]["from"] == "invented hall sheet, 2.1");

    const json& measured = report["measured"];
    CHECK(measured["disagrees"] == true);
    CHECK(measured["explained"] == true);
    REQUIRE(measured["compared"].size() == 5);
    // sqrt(0.03^2 + 0.01^2)
    CHECK(measured["compared"][1]["uncertainty"].get<double>() ==
          Approx(std::sqrt(0.001)).margin(1e-12));
    CHECK(measured["suspects"][0]["text"] == "left: the 0.20 mm shim is there twice");
    CHECK(measured["further"]["reading"] == "left.shims");
    double sum = measured["no_mistake"];
    for (const json& suspect : measured["suspects"]) sum += suspect["likelihood"].get<double>();
    CHECK(sum == Approx(1).margin(1e-9));

    CHECK(report["effects"]["both.shims"]["readings"]["width.overall"].get<double>() ==
          Approx(0.2).margin(1e-9));
    CHECK(report["against"]["from"] == "Parts box: what to fit, Quillmere hall");
    const json plain = json::parse(run({"report", scene("first-look.toml"), "--json"}).out);
    for (const char* key : {"rules", "measured", "effects", "against"})
        CHECK_FALSE(plain.contains(key));

    const Result text =
        run({"report", scene("measured.toml"), "--effects", "--against", scene("worn-tyres.toml")});
    CHECK(text.code == 1);
    for (const char* part :
         {"the event's own rulebook decides", "1.05 mm of margin",
          "left tyre face: 85.68 mm measured", "left: the 0.20 mm shim is there twice",
          "measure the left shims together", "both: a 0.10 mm shim more",
          "farther above the ground -> car"})
        CHECK(text.out.find(part) != std::string::npos);
    for (std::size_t from = text.out.find("\nThe rules"), to = 0;
         (to = text.out.find('\n', from)) != std::string::npos; from = to + 1) {
        std::size_t columns = 0;
        for (std::size_t i = from; i < to; ++i)
            columns += (static_cast<unsigned char>(text.out[i]) & 0xC0) != 0x80 ? 1 : 0;
        CHECK(columns <= 100);
    }
    check_failed(run({"report", scene("first-look.toml"), "--against", "none.toml"}), "none.toml");
}

TEST_CASE("choose stops on an interrupt, says so, and gives what it has") {
    // A goal that outweighs all others and cannot be met: every build is as good as another, so
    // there is much to measure.
    const TemporaryFolder folder;
    copy_demo(folder);
    const std::string file = (folder / "parts-box.toml").string();
    std::string box =
        "[box]\nshims = [[0.05, 4], [0.1, 4], [0.13, 4], [0.15, 4], [0.2, 4], [0.25, 4], [0.3, 4], "
        "[0.4, 4], [0.5, 4], [0.75, 4]]\n"
        "holders = [[0, 2], [0.25, 2], [0.5, 2], [0.75, 2], [1, 2], [1.25, 2], [1.5, 2]]\n"
        "pinions = [26, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40]\n"
        "spurs = [70, 71, 72, 73, 74, 75, 76, 77, 78, 79, 80, 81, 82]\n";
    for (int i = 0; i < 6; ++i)
        box += "[[box_wheel]]\nname = \"wheel " + std::to_string(i) +
               "\"\ninset = " + std::to_string(-4.5 + 0.25 * i) + "\n[[box_tyre]]\nname = \"tyre " +
               std::to_string(i) + "\"\ndiameter = " + std::to_string(43.0 - 0.2 * i) + "\n";
    write_bytes(folder / "club-box.toml", box);
    write_bytes(file, bytes_of(file) +
                          "\n[[goal]]\nreading = \"clearance\"\ntarget = 1.0\nweight = 1000\n");
    const std::string out = (folder / "out").string();
    const std::string errors = (folder / "errors").string();
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        if (!freopen(out.c_str(), "w", stdout) || !freopen(errors.c_str(), "w", stderr)) _exit(99);
        execl(PODWRIGHT_PROGRAM, PODWRIGHT_PROGRAM, "choose", file.c_str(), "--json",
              static_cast<char*>(nullptr));
        _exit(98);
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(1500));
    kill(child, SIGINT);
    int status = 0;
    waitpid(child, &status, 0);
    REQUIRE(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 3);
    CHECK(bytes_of(errors) == "podwright: stopped before the end\n");
    CHECK(json::parse(bytes_of(out))["stopped"] == true);
}
