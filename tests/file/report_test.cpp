#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "file/report.hpp"

using namespace podwright;

namespace {

Evaluation sample() {
    Evaluation e{};
    e.readings = {
        {"float.nominal", "float", 0.3, "mm", Status::caution, 0.05, 0.25},
        {"width.overall", "overall width", 170.95, "mm", Status::ok, std::nullopt, 172.0},
        {"mesh.contact_ratio", "contact ratio", 1.5, "", Status::ok, 1.2, std::nullopt},
        {"gear.tooth_stress", "tooth stress", 15.04, "N/mm2", Status::none, {}, {}},
        {"gear.speed", "speed", std::nan(""), "km/h", Status::none, {}, {}},
    };
    Finding loose{Level::caution,
                  "float.loose",
                  "The float of 0.30 mm is too much.",
                  "Clamp the hub against the 0.15 mm blade.",
                  {"left.hub", "carrier"},
                  {}};
    Clearance spur;
    spur.a = "spur";
    spur.b = ground_key;
    spur.need = 1.5;
    spur.now = {2.0, {0, -36, 2.5}, {0, -36, 0.5}, Status::ok};
    spur.worst = {1.0, {0, -36, 2.5}, {0, -36, 1.5}, Status::caution};
    spur.when = {0, false, true, true, radians(1)};
    e.clearances = {spur};
    e.findings = {loose, {Level::note, "gear.undercut", "A note.", "", {}, {}}};
    return e;
}

std::size_t characters(const std::string& text) {
    std::size_t count = 0;
    for (const char c : text) count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    return count;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\n', at);
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

}  // namespace

TEST_CASE("the JSON report has its fields, in their order") {
    Setup setup;
    setup.title = "a \"title\"";
    const auto json = nlohmann::ordered_json::parse(report_json(setup, sample()));
    std::vector<std::string> keys;
    for (const auto& [key, value] : json.items()) keys.push_back(key);
    CHECK(keys == std::vector<std::string>{"podwright", "setup", "readings", "clearances", "fits",
                                           "findings"});
    CHECK(json["podwright"] == std::string(version()));
    CHECK(json["setup"] == "a \"title\"");
    REQUIRE(json["clearances"].size() == 1);
    CHECK(json["clearances"][0].dump() ==
          R"({"a":"spur","b":"ground","gap":2.0,"need":1.5,"point_a":[0.0,-36.0,2.5],)"
          R"("point_b":[0.0,-36.0,0.5],"status":"ok","envelope":{"gap":1.0,"need":1.5,)"
          R"("point_a":[0.0,-36.0,2.5],"point_b":[0.0,-36.0,1.5],"status":"caution",)"
          R"("when":"worn tyres, 1.0° of roll to the right"}})");

    const auto& reading = json["readings"]["float.nominal"];
    CHECK(reading.dump() ==
          R"({"value":0.3,"unit":"mm","status":"caution","low":0.05,"high":0.25})");
    CHECK_FALSE(json["readings"]["width.overall"].contains("low"));
    CHECK(json["readings"]["width.overall"]["high"] == 172.0);
    CHECK(json["readings"]["mesh.contact_ratio"]["low"] == 1.2);
    CHECK(json["readings"]["gear.tooth_stress"]["status"] == "none");
    CHECK(json["readings"]["gear.speed"]["value"].is_null());
    CHECK(json["readings"].size() == 5);

    REQUIRE(json["findings"].size() == 2);
    CHECK(json["findings"][0].dump() ==
          R"({"level":"caution","code":"float.loose","text":"The float of 0.30 mm is too much.",)"
          R"("fix":"Clamp the hub against the 0.15 mm blade.","parts":["left.hub","carrier"]})");
}

TEST_CASE("a title that is not UTF-8 still gives JSON") {
    Setup setup;
    setup.title = "a\xFF";
    CHECK(nlohmann::json::parse(report_json(setup, sample()))["setup"] == "a\xEF\xBF\xBD");
}

TEST_CASE("the text report lines up, shows limits and status, and stays within the page") {
    Setup setup;
    setup.title = std::string(150, 'a') + "\x1B[31m\nb " + std::string(80, 'c');
    Evaluation e = sample();
    e.findings[0].text = "";
    for (int i = 0; i < 60; ++i) e.findings[0].text += "word" + std::to_string(i) + " ";
    const std::vector<std::string> lines = lines_of(report_text(setup, e, false));
    for (std::size_t i = 1; i < lines.size(); ++i) {
        INFO(lines[i]);
        CHECK(characters(lines[i]) <= 100);
        CHECK((lines[i].empty() || lines[i].back() != ' '));
    }
    CHECK(report_text(setup, e, false).find('\x1B') == std::string::npos);
}

TEST_CASE("a title cannot command the terminal or turn the direction of reading") {
    Setup setup;
    setup.title =
        "a\xC2\x9B"
        "b\xE2\x80\xAE"
        "c\xE2\x81\xA9"
        "d\xE2\x80\x8E"
        "e \xC3\xA9";
    CHECK(lines_of(report_text(setup, sample(), false))[0] == "a b c d e \xC3\xA9");
}

TEST_CASE("builds that scatter widely stay within the page") {
    Evaluation e = sample();
    ToleranceStudy study;
    study.stack_up.title = "overall width";
    study.stack_up.nominal = 170.95;
    study.low = 170;
    study.worst = 12.34;
    study.root_sum_square = 10.25;
    study.outside = {0.99995, 1};
    study.sample.builds = 1;
    study.sample.below = 1;
    e.feel.tolerances = {study};
    for (const bool inches : {false, true}) {
        const std::string text = report_text(Setup{}, e, inches);
        CHECK(text.find("outside 100.00 %") != std::string::npos);
        for (const std::string& line : lines_of(text)) {
            INFO(line);
            CHECK(characters(line) <= 100);
        }
    }
}

TEST_CASE("the text report in mm and in inches") {
    const std::string mm = report_text(Setup{}, sample(), false);
    CHECK(mm == R"(Untitled

float  float            0.30 mm     0.05 to 0.25    caution

width  overall width  170.95 mm     at most 172.00  ok

mesh   contact ratio    1.50        at least 1.20   ok

gear   tooth stress     15.0 N/mm²
       speed             nan km/h

clearance  spur / ground  2.00 mm   worst 1.00 mm, needs 1.50 mm  caution

caution  The float of 0.30 mm is too much. (float.loose)
         fix: Clamp the hub against the 0.15 mm blade.
note     A note. (gear.undercut)

Before hands go near: battery out and the motor's lead off. Gears and wheels that turn pinch, blades
cut, a motor that has run is hot; tyre dust and solvents ask for a mask and fresh air. The event's
rules, the maker's manual and local law come first.
)");
    const std::string inches = report_text(Setup{}, sample(), true);
    CHECK(inches.find("6.7303 in") != std::string::npos);         // 170.95 / 25.4, derived
    CHECK(inches.find("0.0020 to 0.0098") != std::string::npos);  // 0.05 and 0.25 mm, derived
    Evaluation quiet = sample();
    quiet.findings.clear();
    CHECK(report_text(Setup{}, quiet, false).find("No findings.\n") != std::string::npos);
}
