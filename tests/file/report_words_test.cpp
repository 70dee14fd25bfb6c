#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "core/text.hpp"
#include "file/choose_report.hpp"
#include "file/json_text.hpp"
#include "file/report.hpp"
#include "file/scene.hpp"
#include "scene_samples.hpp"

// What a report says of numbers, units and texts, whatever the scene holds.
using namespace podwright;

namespace {

struct Said {
    Setup setup;
    Evaluation evaluation;
};

/// The least scene with `more` at its end, evaluated.
Said evaluated(const std::string& more, const std::string& side = "") {
    std::string text = least_scene + more;
    for (const char* table : {"[left]", "[right]"}) text = with(text, table, table + ("\n" + side));
    Setup setup = parse_scene(text, "s");
    Evaluation evaluation = evaluate(setup);
    return {std::move(setup), std::move(evaluation)};
}

std::string text_of(const Said& w) { return report_text(w.setup, w.evaluation, false); }

nlohmann::json json_of(const Said& w) {
    return nlohmann::json::parse(report_json(w.setup, w.evaluation));
}

/// The line of `text` that holds `part`.
std::string line_with(const std::string& text, const std::string& part) {
    const std::size_t at = text.find(part);
    if (at == std::string::npos) return {};
    const std::size_t begin = text.rfind('\n', at) + 1;
    return text.substr(begin, text.find('\n', at) - begin);
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::size_t widest_line(const std::string& text) {
    std::size_t widest = 0, width = 0;
    for (const char c : text) {
        if (c == '\n') width = 0;
        if (c != '\n' && (static_cast<unsigned char>(c) & 0xC0U) != 0x80U)
            widest = std::max(widest, ++width);
    }
    return widest;
}

const std::string odd = "a\\u001B[31m\\u009B2J\\u202E\\u0007\\u007F\\n\\r\\u2028 b";

}  // namespace

TEST_CASE("a unit is written one way wherever it stands in a report") {
    const Said w = evaluated(
        "[[rule]]\nof = \"shaft.stress\"\nhigh = 300\nfrom = \"sheet\"\n"
        "[[rule]]\nof = \"fit.axle_low\"\nlow = 1\nfrom = \"sheet\"\n"
        "[[rule]]\nof = \"shaft.inertia\"\nlow = 1\nfrom = \"sheet\"\n"
        "[[rule]]\nof = \"motor.torque\"\nlow = 1\nfrom = \"sheet\"\n"
        "[[rule]]\nof = \"temperature.hot\"\nlow = 1\nfrom = \"sheet\"\n"
        "[[rule]]\nof = \"ride.rake\"\nhigh = 0.01\nfrom = \"sheet\"\n"
        "[[measured]]\nreading = \"shaft.stress\"\nvalue = 30.5\nuncertainty = 0.5\n");
    const std::string text = text_of(w);
    for (const char* wrong :
         {"N/mm2", " um", "cm2", "N mm", " deg", "degC", " \xC2\xB0 ", " \xC2\xB0\n"}) {
        INFO(wrong);
        CHECK_FALSE(holds(text, wrong));
    }
    CHECK(holds(line_with(text, "motor torque"), "60 N·mm, at least 1 N·mm"));
    CHECK(holds(line_with(text, "hottest: "), "35 °C, at least 1 °C"));
    CHECK(holds(line_with(text, "broken   rake"), "°, at most 0.01°"));
    // The same number in the table and in the line of the rule.
    const std::string row = line_with(text, "stress of the axle  ");
    const std::string rule = line_with(text, "stress of the axle: ");
    const std::size_t begin = rule.find(": ") + 2;
    CHECK(holds(row, " " + rule.substr(begin, rule.find(',') - begin) + " "));
    // For programs units stay as they were.
    const nlohmann::json json = json_of(w);
    CHECK(json["readings"]["shaft.stress"]["unit"] == "N/mm2");
    CHECK(json["readings"]["ride.rake"]["unit"] == "deg");
    CHECK(json["rules"][1]["unit"] == "um");
}

TEST_CASE("a limit is shown with the decimals that it needs") {
    // Derived: windows of 0.05 to 0.25 and 0.03 to 0.12 mm, wider by 0.005 mm in cold and heat.
    const std::string text = text_of(evaluated(""));
    CHECK(holds(line_with(text, "float, coldest"), " 0.045 to 0.255"));
    CHECK(holds(line_with(text, "backlash, hottest"), " 0.025 to 0.125"));
    CHECK(holds(line_with(text, "float        "), " 0.05 to 0.25 "));
    CHECK(limit_decimals(0.25, 2) == 2);
    CHECK(limit_decimals(0.045, 2) == 3);
    CHECK(limit_decimals(1.0 / 3, 2) == 2);  // no three decimals make it exact
    CHECK(limit_decimals(306.6666667, 1) == 1);
    CHECK(limit_decimals(7.25, 1) == 2);
    CHECK(limit_decimals(0.00177, 4) == 4);
    const std::string rule =
        text_of(evaluated("[[rule]]\nof = \"float.nominal\"\nhigh = 0.155\nfrom = \"sheet\"\n"));
    CHECK(holds(rule, "at most 0.155 mm"));
}

TEST_CASE("without load or speed nothing meaningless is printed") {
    const Said w = evaluated(
        "[motor]\nspeed = 0\ntorque = 0\n[[rule]]\nof = \"bearing.life\"\nlow = 50\n"
        "from = \"sheet\"\n[[rule]]\nof = \"shaft.safety\"\nlow = 2\nfrom = \"sheet\"\n"
        "[other_axle]\nmaterial = \"carbon-tube\"\n",
        "tyre_load = 0\n");
    const std::string text = text_of(w);
    CHECK(holds(line_with(text, "basic rating life  "), "over 100000 h "));
    CHECK(holds(line_with(text, "safety of the axle  "), "over 100 "));
    CHECK(holds(line_with(text, "static safety"), "over 100 "));
    CHECK(holds(text, "basic rating life: over 100000 h, at least 50 h (sheet)"));
    CHECK(holds(text, "safety of the axle: over 100, at least 2 (sheet)"));
    for (const char* wrong : {"00000000", "99.0", "stressed most", "At launch", "-0.00"}) {
        INFO(wrong);
        CHECK_FALSE(holds(text, wrong));
    }
    const nlohmann::json json = json_of(w);
    for (const char* name : {"bearing.life", "shaft.safety", "bearing.static_safety"}) {
        INFO(name);
        CHECK(json["readings"][name]["value"].is_null());
        CHECK(json["readings"][name]["status"] == "ok");
    }
    for (const auto& rule : json["rules"]) {
        CHECK(rule["value"].is_null());
        CHECK(rule["margin"].is_null());
        CHECK(rule["state"] == "met");
    }
    CHECK(json["comparison"]["figures"]["safety"]["first"].is_null());
    CHECK(json["comparison"]["figures"]["bending_margin"]["second"].is_null());

    // A real one beside it: derived, half the speed is twice the hours (ISO 281, life in turns).
    const auto life = [&](const std::string& speed) {
        return json_of(evaluated("[motor]\nspeed = " + speed +
                                 "\n"))["readings"]["bearing.life"]["value"]
            .get<double>();
    };
    CHECK(life("10000") == Approx(2 * life("20000")));
}

TEST_CASE("no number of the JSON report is a negative zero") {
    nlohmann::ordered_json json = {{"a", -0.0}, {"b", {-0.0, 1.5, {{"c", -0.0}}}}, {"d", -0.5}};
    const std::string text = json_text(json);
    CHECK_FALSE(holds(text, "-0.0"));
    CHECK(holds(text, "-0.5"));
    CHECK(nlohmann::json::parse(text)["b"][2]["c"] == 0.0);
    // Derived: a holder's bore and a bearing of the same size fit with 0 of clearance.
    const Said w = evaluated("[fits]\nholder = \"H7/h6\"\n");
    const nlohmann::json value = json_of(w)["readings"]["fit.holder_low"]["value"];
    CHECK(value == 0.0);
    CHECK_FALSE(std::signbit(value.get<double>()));
}

TEST_CASE("no text of a scene reaches a terminal as a command") {
    // Texts that can hold anything: title and note. Names are refused where they hold such signs.
    Said w = evaluated(
        "[[rule]]\nof = \"ride.rear\"\nlow = 9\nfrom = \"sheet\"\n"
        "[[measured]]\nreading = \"width.left\"\nvalue = 86\n"
        "uncertainty = 0.02\ngauge = \"caliper\"\n");
    w.setup = parse_scene("title = \"" + odd + "\"\nnote = \"" + odd + "\"\n" + least_scene, "s");
    w.setup.choosing.rules = {
        {"ride.rear", 9.0, {}, parse_scene("title = \"" + odd + "\"\n" + least_scene, "s").title}};
    w.setup.choosing.measured = {{"width.left", 86, 0.02, w.setup.title}};
    w.evaluation = evaluate(w.setup);
    ReportAsked asked;
    const Setup other = w.setup;
    asked.against = &other;
    asked.effects = true;
    const std::string text = report_text(w.setup, w.evaluation, false, asked);
    const std::string json = report_json(w.setup, w.evaluation, asked);
    const std::string plan = plan_text(w.setup, {}, false) + plan_json(w.setup, {});
    for (const std::string& said : {text, json, plan})
        for (const char* sign :
             {"\x1B", "\x07", "\x7F", "\r", "\xC2\x9B", "\xE2\x80\xAE", "\xE2\x80\xA8"})
            CHECK_FALSE(holds(said, sign));
    const nlohmann::json parsed = nlohmann::json::parse(json);
    CHECK(parsed["setup"] == w.setup.title);
    CHECK(parsed["rules"][0]["from"] == w.setup.title);
    CHECK(parsed["measured"]["compared"][0]["gauge"] == w.setup.title);
    CHECK(nlohmann::json::parse(plan_json(w.setup, {}))["setup"] == w.setup.title);

    // Every character of the basic plane that there is, and one beyond.
    std::string all;
    for (unsigned code = 1; code < 0x10000; code += code < 0x3000 ? 1 : 0x101) {
        if (code >= 0xD800 && code < 0xE000) continue;
        if (code < 0x80)
            all += static_cast<char>(code);
        else if (code < 0x800)
            all += {static_cast<char>(0xC0U | code >> 6U), static_cast<char>(0x80U | (code & 63U))};
        else
            all += {static_cast<char>(0xE0U | code >> 12U),
                    static_cast<char>(0x80U | (code >> 6U & 63U)),
                    static_cast<char>(0x80U | (code & 63U))};
    }
    all += "\xF0\x9F\x9B\x9E";
    CHECK(nlohmann::json::parse(json_text({{"a", all}}))["a"] == all);
}

TEST_CASE("no line of a report is wider than the page") {
    Said w = evaluated("");
    const std::string part = "right wheel screws (own mesh)";
    Clearance near;
    near.a = part;
    near.b = part;
    near.need = 0.3;
    near.now = {0.123, {}, {}, Status::caution};
    near.worst = {0.1, {}, {}, Status::caution};
    w.evaluation.clearances = {near};
    ToleranceStudy study;
    study.stack_up.title = "overall width of the car from tyre to tyre";
    study.stack_up.nominal = 170.95;
    study.high = 172;
    study.worst = 12.34;
    study.root_sum_square = 10.25;
    study.outside = {0.99995, 1};
    study.sample.builds = 1;
    study.sample.below = 1;
    w.evaluation.feel.tolerances = {study};
    for (const bool inches : {false, true}) {
        const std::string text = report_text(w.setup, w.evaluation, inches);
        INFO(text);
        CHECK(widest_line(text) <= 100);
        CHECK(holds(text, "caution"));
    }
    DayPlan plan;
    plan.changes = 12;
    plan.points = 123.456;
    plan.stopped = true;
    CHECK(widest_line(plan_text(w.setup, plan, false)) <= 100);
}
