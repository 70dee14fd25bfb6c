#include <sys/wait.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "file/asset.hpp"
#include "file/sample_meshes.hpp"
#include "file/temporary_folder.hpp"
#include "program_runner.hpp"

using nlohmann::json;

TEST_CASE("every demo scene shows what it promises") {
    struct Demo {
        std::string name;
        int code;
        std::vector<std::string> findings;
    };
    const std::vector<Demo> demos = {
        {"first-look.toml", 1, {"caution width.uneven"}},
        {"worn-tyres.toml", 2, {"stop ride.low"}},
        {"wide-inset.toml", 1, {"caution width.uneven"}},
        {"shoulder-binds.toml", 2, {"stop float.bind"}},
        {"short-slot.toml", 2, {"stop mesh.unreachable"}},
        {"metric-gears.toml", 0, {}},
        {"inch-parts.toml", 0, {}},
        {"own-hub.toml", 0, {}},
        {"hot-day.toml", 2, {"stop float.binds_in_day"}},
        {"parts-box.toml", 0, {}},
        {"two-axles.toml", 0, {}},
        {"measured.toml", 1, {"caution measured.disagrees"}},
    };
    for (const Demo& demo : demos) {
        INFO(demo.name);
        const Result result = run({"report", scene(demo.name), "--json"});
        CHECK(result.code == demo.code);
        CHECK(result.errors.empty());
        const json report = json::parse(result.out);
        std::vector<std::string> findings;
        for (const json& finding : report["findings"]) {
            if (finding["level"] == "note") continue;
            findings.push_back(finding["level"].get<std::string>() + " " +
                               finding["code"].get<std::string>());
            CHECK_FALSE(finding["fix"].get<std::string>().empty());
        }
        CHECK(findings == demo.findings);
        CHECK(report["readings"].size() > 20);

        const Result text = run({"report", scene(demo.name)});
        CHECK(text.code == demo.code);
        CHECK(text.out.find(report["setup"].get<std::string>()) == 0);
    }
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(scene("")))
        files += entry.path().extension() == ".toml";
    const std::size_t no_scenes = 2;  // the box and the rules that parts-box.toml names
    CHECK(files == demos.size() + no_scenes);
}

TEST_CASE("numbers of the first look") {
    // Derived: 2 x (31 + 0.9 + 28 + 4.5 + 20.5) + 1.2 + 0.5 shims + 0.15 float; (1.2 - 0.5) / 2.
    const json readings =
        json::parse(run({"report", scene("first-look.toml"), "--json"}).out)["readings"];
    CHECK(readings["width.overall"]["value"].get<double>() == Approx(171.65).margin(1e-9));
    CHECK(readings["width.shift"]["value"].get<double>() == Approx(0.35).margin(1e-9));
    CHECK(readings["float.nominal"]["value"].get<double>() == Approx(0.15).margin(1e-9));
    CHECK(readings["float.nominal"]["low"] == 0.05);
    // C = m (z1 + z2)/2, metrication.com/engineering/gears.html: (25.4/64) x (34 + 76)/2.
    CHECK(readings["mesh.standard_distance"]["value"].get<double>() ==
          Approx(21.828125).margin(1e-9));
}

TEST_CASE("every reading has its line in the report, with its unit") {
    // Derived: the text against the JSON of the same scene.
    const json readings =
        json::parse(run({"report", scene("two-axles.toml"), "--json"}).out)["readings"];
    const std::string text = run({"report", scene("two-axles.toml")}).out;
    const std::string table = text.substr(0, text.find("\nAt launch"));
    const auto lines = std::count(table.begin(), table.end(), '\n');
    std::size_t groups = 0;
    std::string group;
    for (const auto& [name, reading] : readings.items()) {
        if (name.substr(0, name.find('.')) != group) ++groups;
        group = name.substr(0, name.find('.'));
    }
    // Two lines of title; an empty one between groups.
    CHECK(lines == static_cast<long>(2 + readings.size() + groups - 1));
    for (const char* unit : {" N/mm² ", " g cm²\n", " rev/min ", " Hz\n", " arcmin ", " N·mm\n",
                             " h ", " µm ", " % ", "°\n", " N\n", " g\n"}) {
        INFO(unit);
        CHECK(table.find(unit) != std::string::npos);
    }
    // Every length of the float's loop grows by itself, and the sum is the float's.
    const json day =
        json::parse(run({"report", scene("hot-day.toml"), "--json"}).out)["temperature"];
    double sum = 0;
    for (const json& length : day["loop"]) {
        const double growth =
            length["expansion"].get<double>() * 1e-6 * length["length"].get<double>();
        CHECK(std::abs(length["float_per_kelvin"].get<double>()) == Approx(growth));
        sum += length["float_per_kelvin"].get<double>();
    }
    // The axle; on either side half of the floor, plate, lip of the holder, standout, shims and the
    // grip of the hub: 1 + 2 x 6.
    CHECK(day["loop"].size() == 13);
    CHECK(day["float_per_kelvin"].get<double>() == Approx(sum));
    CHECK(day["set_low"].get<double>() == Approx(0.03 - sum * (50 - 18)));
}

TEST_CASE("two axles stand side by side in the report, with a verdict") {
    // Derived: the figures of the first axle are the readings of the same scene, and those of the
    // second the readings of a car that has it.
    const TemporaryFolder folder;
    const json report = json::parse(run({"report", scene("two-axles.toml"), "--json"}).out);
    const json& both = report["comparison"];
    std::string text = bytes_of(scene("two-axles.toml"));
    text = text.substr(0, text.find("# The axle on the car")) +
           "[axle]\nmaterial = \"carbon-wrapped\"\nwaist = 6.35\nbore = 4.5\nshear_modulus = 12\n" +
           text.substr(text.find("\n[cases]"));
    write_bytes(folder / "tube.toml", text);
    const json tube = json::parse(run({"report", (folder / "tube.toml").string(), "--json"}).out);
    CHECK_FALSE(tube.contains("comparison"));
    for (const auto& [figures, which] :
         {std::pair{report["readings"], "first"}, std::pair{tube["readings"], "second"}}) {
        const auto reading = [&, &values = figures](const char* name) {
            return values[name]["value"].get<double>();
        };
        const auto figure = [&, &column = which](const char* name) {
            return both["figures"][name][column].get<double>();
        };
        INFO(which);
        CHECK(figure("windup") ==
              Approx(std::max(reading("shaft.windup_left"), reading("shaft.windup_right"))));
        CHECK(figure("deflection") == Approx(std::max(reading("shaft.deflection_left"),
                                                      reading("shaft.deflection_right"))));
        CHECK(figure("slope") == Approx(reading("bearing.misalignment")));
        CHECK(figure("safety") == Approx(reading("shaft.safety")));
        CHECK(figure("equivalent_mass") == Approx(reading("shaft.equivalent_mass")));
    }
    CHECK(both["better"] == "depends");
    CHECK(both["verdict"].get<std::string>().find("g lighter") != std::string::npos);
    const std::string page = run({"report", scene("two-axles.toml")}).out;
    CHECK(page.find("carbon fibre tube") != std::string::npos);
    CHECK(page.find("g lighter") != std::string::npos);

    // It is checked like the axle itself.
    const auto failed = [&](const std::string& from, const std::string& to) {
        std::string wrong = bytes_of(scene("two-axles.toml"));
        wrong.replace(wrong.find(from), from.size(), to);
        write_bytes(folder / "wrong.toml", wrong);
        return run({"report", (folder / "wrong.toml").string()});
    };
    check_failed(failed("bore = 4.5", "bore = 6.2"), "the other axle's bore must leave a wall");
    check_failed(failed("bore = 4.5", "bore = 20"), "other_axle.bore is 20; it must be 0 to 12 mm");
    check_failed(failed("\"carbon-wrapped\"", "\"glass\""), "other_axle.material is \"glass\"");
    check_failed(failed("bore = 4.5", "diameter = 8"),
                 "the other axle must fit the bearing's bore");
}

TEST_CASE("the text report in inches") {
    const Result result = run({"report", scene("first-look.toml"), "--inches"});
    CHECK(result.code == 1);
    CHECK(result.out.find("6.7579 in") != std::string::npos);  // 171.65 / 25.4, derived
    CHECK(result.out.find(" mm") == std::string::npos);
}

TEST_CASE("bad scenes fail with one line") {
    const TemporaryFolder folder;
    const auto file = [&](const std::string& bytes) {
        write_bytes(folder / "car.toml", bytes);
        return (folder / "car.toml").string();
    };
    check_failed(run({"report", file("")}), "car.toml:1:1: the file is empty");
    check_failed(run({"report", file("[left]\nseta = 3\n")}), "car.toml:2:1: unknown key \"seta\"");
    check_failed(run({"report", file("[left]\nseat = 3\n"), "--json"}),
                 "car.toml:2:8: left.seat is 3");
    check_failed(run({"report", file("[left\n")}), "car.toml:1:6: ");
    check_failed(run({"report", file(std::string("\x7F"
                                                 "ELF\0\1",
                                                 6))}),
                 "not a text file");
    check_failed(run({"report", file(std::string(3 << 20, 'a'))}), "larger than 1 MiB");
    check_failed(run({"report", file("a = " + std::string(900000, '['))}), "nested too deep");
    check_failed(run({"report", folder.path().string()}), "this is a folder");
    check_failed(run({"report", (folder / "none.toml").string()}), "there is no such file");
    check_failed(run({"report", "/dev/zero"}), "a device or a pipe");
    check_failed(run({"report", ""}), "no file name");
    check_failed(
        run({"picture", (folder / "none.toml").string(), "-o", (folder / "a.png").string()}),
        "there is no such file");
    CHECK(folder.names() == std::vector<std::string>{"car.toml"});
}

TEST_CASE("bad usage fails with one line") {
    const TemporaryFolder folder;
    const std::string png = (folder / "a.png").string();
    const std::string first = scene("first-look.toml");
    check_failed(run({"report"}), "SCENE");
    check_failed(run({"report", first, "--jsno"}), "--jsno");
    check_failed(run({"report", first, "second.toml"}), "second.toml");
    check_failed(run({"repot"}), "did you mean \"report\"?");
    check_failed(run({"repotr", first}),
                 "there is no command \"repotr\"; did you mean \"report\"?");
    check_failed(run({"repotr", "--json", first}), "did you mean \"report\"?");
    check_failed(run({"drive", first}), "there is no command \"drive\"; see podwright --help");
    check_failed(run({first, "second.toml"}), "second.toml");
    check_failed(run({"--colour"}), "--colour");
    check_failed(run({"picture", first}), "--output");
    check_failed(run({"picture", first, "-o", png, "--view", "nowhere"}), "it must be one of ");
    check_failed(run({"picture", first, "-o", png, "--view", "axel"}), "did you mean \"axle\"?");
    for (const char* size : {"63x100", "100x8193", "100", "x", "ax100", "1e3x100", "-100x100", ""})
        check_failed(run({"picture", first, "-o", png, "--size", size}), "64 to 8192");
    for (const char* explode : {"-0.1", "1.1", "nan", "a"})
        check_failed(run({"picture", first, "-o", png, "--explode", explode}), "--explode");
    check_failed(run({"picture", first, "-o", (folder / "a.jpg").string()}), ".png");
    CHECK(folder.names().empty());
}

TEST_CASE("a picture is drawn without a display, or nothing is left behind") {
    const TemporaryFolder folder;
    const std::string first = scene("first-look.toml");
    const Result drawn = run({"picture", first, "-o", (folder / "a.png").string(), "--size",
                              "160x90", "--explode", "0.5", "--cutaway"});
    INFO(drawn.errors);
    CHECK(drawn.code == 0);
    const std::string png = bytes_of(folder / "a.png");
    // PNG specification (ISO/IEC 15948), 5.2 signature, 11.2.2 IHDR: width and height, big-endian.
    REQUIRE(png.size() > 33);
    CHECK(png.substr(0, 8) == "\x89PNG\r\n\x1A\n");
    CHECK(png.substr(16, 8) == std::string("\0\0\0\xA0\0\0\0\x5A", 8));
    CHECK(folder.names() == std::vector<std::string>{"a.png"});

    // The largest words on the smallest picture, and the other way round.
    for (const char* size : {"64x64", "1600x200", "200x1600"}) {
        const Result labelled = run({"picture", first, "-o", (folder / "a.png").string(), "--size",
                                     size, "--labels", "--dark"});
        INFO(size << ": " << labelled.errors);
        CHECK(labelled.code == 0);
    }

    const std::string nowhere = (folder.path() / "none" / "a.png").string();
    check_failed(run({"picture", first, "-o", nowhere, "--size", "64x64"}), "there is no folder");
    CHECK(folder.names() == std::vector<std::string>{"a.png"});
}

TEST_CASE("a motion is recorded, the same pictures every time") {
    const TemporaryFolder folder;
    const std::string first = scene("first-look.toml");
    const auto record = [&](const std::string& name, const std::string& motion) {
        const Result made = run({"record", first, "-o", (folder / name).string(), "--motion",
                                 motion, "--size", "96x64", "--seconds", "0.3", "--rate", "10"});
        INFO(made.errors);
        CHECK(made.code == 0);
    };
    record("a.webp", "turntable");
    record("b.webp", "turntable");
    const std::string webp = bytes_of(folder / "a.webp");
    // WebP container specification, from memory: RIFF, "WEBP", one ANMF chunk a picture.
    REQUIRE(webp.size() > 100);
    CHECK(webp.substr(0, 4) == "RIFF");
    CHECK(webp.substr(8, 8) == "WEBPVP8X");
    std::size_t pictures = 0;
    for (auto at = webp.find("ANMF"); at != std::string::npos; at = webp.find("ANMF", at + 4))
        ++pictures;
    CHECK(pictures == 3);
    CHECK(webp == bytes_of(folder / "b.webp"));

    for (const std::string motion : {"explode", "float", "envelope", "load", "left.inset"}) {
        const std::string name = motion.substr(0, 4);
        record(name, motion);
        record(name + " again", motion);
        const auto picture = [&](const char* file) { return bytes_of(folder / name / file); };
        const std::string start = picture("picture-0001.png");
        CHECK(start.substr(1, 3) == "PNG");
        CHECK(start != picture("picture-0002.png"));
        for (const char* file : {"picture-0001.png", "picture-0002.png", "picture-0003.png"})
            CHECK(picture(file) == bytes_of(folder / (name + " again") / file));
        CHECK_FALSE(std::filesystem::exists(folder / name / "picture-0004.png"));
    }
    // What is there is not overwritten.
    check_failed(run({"record", first, "-o", (folder / "floa").string()}), "something here");
    check_failed(run({"record", first, "-o", "a.gif"}), ".webp");
    check_failed(run({"record", first, "-o", "x", "--motion", "turntabel"}),
                 "did you mean \"turntable\"?");
    check_failed(run({"record", first, "-o", "x", "--rate", "0"}), "--rate");
    check_failed(run({"record", first, "-o", "x", "--seconds", "nan"}), "--seconds");
}

TEST_CASE("a ghost stands behind the present where it differs, and a load bends the axle") {
    const TemporaryFolder folder;
    const std::string first = scene("first-look.toml");
    const auto picture = [&](const std::vector<std::string>& more) {
        std::vector<std::string> call{"picture", first,    "-o", (folder / "a.png").string(),
                                      "--size",  "320x200"};
        call.insert(call.end(), more.begin(), more.end());
        CHECK(run(call).code == 0);
        return bytes_of(folder / "a.png");
    };
    const std::string plain = picture({});
    CHECK(plain == picture({"--ghost", first}));
    CHECK(plain != picture({"--ghost", scene("wide-inset.toml")}));
    // Bent under a load, and said to be.
    CHECK(plain != picture({"--load", "launch"}));
    CHECK(picture({"--load", "launch"}) != picture({"--load", "launch", "--labels"}));
    check_failed(run({"picture", first, "-o", "x.png", "--load", "lunch"}),
                 "did you mean \"launch\"?");
    check_failed(run({"picture", first, "-o", "x.png", "--ghost", "none.toml"}), "none.toml");
}

TEST_CASE("an own mesh stands for a part in report and picture") {
    const TemporaryFolder folder;
    const auto car = [&](const std::string& look, const std::string& scale) {
        std::string text = bytes_of(scene("own-hub.toml"));
        const std::size_t at = text.find("look = \"aluminium\"");
        write_bytes(folder / "car.toml", text.substr(0, at) + look + scale);
        return (folder / "car.toml").string();
    };
    check_failed(run({"report", car("", "")}), "own-hub.glb: there is no such file");
    // The demo's mesh is measured with the other demos; a hub of few triangles takes a quarter of
    // the time. That without a look it has that of the part is tested where assemblies are.
    podwright::write_glb(folder / "own-hub.glb", tube_mesh(3.4F, 6, 28, 12), "hub");
    const Result report = run({"report", car("", "")});
    CHECK(report.errors.empty());
    CHECK(report.code == 0);
    CHECK(report.out.find("left hub (own mesh)") != std::string::npos);
    check_failed(run({"report", car("", "scale = 1000\n")}), "own-hub.glb\" measures 28000 mm");

    // A hub twice as large reaches into the holder and the wheel's rim.
    const Result large = run({"report", car("", "scale = 2\n"), "--json"});
    CHECK(large.code == 2);
    const json findings = json::parse(large.out)["findings"];
    CHECK(std::any_of(findings.begin(), findings.end(), [](const json& finding) {
        const std::vector<std::string> parts = finding["parts"];
        return finding["code"] == "contact" &&
               std::find(parts.begin(), parts.end(), "left.hub") != parts.end();
    }));

    const auto picture = [&](const std::string& file) {
        const std::string png = (folder / "a.png").string();
        const Result drawn = run({"picture", file, "-o", png, "--size", "320x200", "--cutaway"});
        INFO(drawn.errors);
        CHECK(drawn.code == 0);
        return bytes_of(png);
    };
    const std::string first = picture(car("", ""));
    CHECK(first != picture(car("look = \"brass\"\n", "")));
    CHECK(first != picture(car("", "scale = 0.5\n")));
}

TEST_CASE("help and version") {
    const Result help = run({"--help"});
    CHECK(help.code == 0);
    CHECK(help.errors.empty());
    for (const char* word :
         {"report", "picture", "record", "keys", "materials", "--tell", "--version"})
        CHECK(help.out.find(word) != std::string::npos);
    for (const char* command : {"report", "picture", "record", "keys", "materials"}) {
        const Result result = run({command, "--help"});
        CHECK(result.code == 0);
        CHECK(result.out.find("Usage: ") != std::string::npos);
    }
    const Result report_help = run({"report", "--help"});
    for (const char* word : {"--json", "--inches", "Exit code"})
        CHECK(report_help.out.find(word) != std::string::npos);
    const Result picture_help = run({"picture", "--help"});
    for (const char* word : {"--output", "--size", "--view", "--explode", "--cutaway", "--labels"})
        CHECK(picture_help.out.find(word) != std::string::npos);
    const Result version = run({"--version"});
    CHECK(version.code == 0);
    CHECK(version.out == "podwright 0.1.0\n");
}

TEST_CASE("keys prints the table of scenes/README.md") {
    CHECK(run({"materials"}).out.find("| `steel-4130` | ") != std::string::npos);
    const Result result = run({"keys"});
    CHECK(result.code == 0);
    REQUIRE(result.out.size() > 1000);
    CHECK(bytes_of(scene("README.md")).find(result.out) != std::string::npos);
}

TEST_CASE("output that cannot be written is a failure") {
    const std::string command = quoted(PODWRIGHT_PROGRAM) + " keys >/dev/full 2>/dev/null";
    const int status = std::system(command.c_str());
    REQUIRE(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 3);
}
