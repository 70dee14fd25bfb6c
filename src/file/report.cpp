#include "file/report.hpp"

#include <nlohmann/json.hpp>

#include "file/checks_report.hpp"
#include "file/json_text.hpp"
#include "gap/fit.hpp"

namespace podwright {

namespace {

using nlohmann::ordered_json;

ordered_json reading_json(const Reading& reading) {
    ordered_json json;
    json["value"] = json_number(reading.value);
    json["unit"] = reading.unit;
    json["status"] = word(reading.status);
    if (reading.low) json["low"] = *reading.low;
    if (reading.high) json["high"] = *reading.high;
    return json;
}

ordered_json finding_json(const Finding& finding) {
    return {{"level", word(finding.level)},
            {"code", finding.code},
            {"text", finding.text},
            {"fix", finding.fix},
            {"parts", finding.parts}};
}

ordered_json point_json(const glm::dvec3& p) { return {p.x, p.y, p.z}; }

ordered_json closeness_json(const Closeness& c, double need) {
    return {{"gap", c.gap},
            {"need", need},
            {"point_a", point_json(c.point_a)},
            {"point_b", point_json(c.point_b)},
            {"status", word(c.status)}};
}

ordered_json clearance_json(const Clearance& c) {
    ordered_json json = {{"a", c.a}, {"b", c.b}};
    json.update(closeness_json(c.now, c.need));
    json["envelope"] = closeness_json(c.worst, c.need);
    json["envelope"]["when"] = words(c.when);
    return json;
}

/// How every two parts stand to each other: as they are meant to, or what their clearance is.
ordered_json fits_json(const Evaluation& evaluation) {
    ordered_json list = ordered_json::array();
    const auto add = [&](const std::string& a, const std::string& b, std::string_view fit) {
        list.push_back({{"a", a}, {"b", b}, {"fit", fit}});
    };
    for (const MeantFit& meant : fits_of(evaluation.assembly))
        add(meant.a, meant.b, word(meant.fit));
    for (const Clearance& c : evaluation.clearances)
        if (c.b != ground_key) add(c.a, c.b, fit_word(c.now));
    return list;
}

ordered_json tolerance_json(const ToleranceStudy& study) {
    ordered_json json = {{"of", study.stack_up.title},
                         {"nominal", study.stack_up.nominal},
                         {"worst_case", study.worst},
                         {"root_sum_square", study.root_sum_square},
                         {"deviation", study.sample.deviation},
                         {"builds", study.sample.builds},
                         {"outside_share", study.sample.outside_share()},
                         {"outside_low", study.outside.low},
                         {"outside_high", study.outside.high}};
    json["contributions"] = ordered_json::object();
    for (std::size_t i = 0; i < study.contributions.size(); ++i)
        json["contributions"][study.stack_up.contributors[i].name] = study.contributions[i];
    return json;
}

/// Every length of the float's loop with its own expansion, and what the day does to it.
ordered_json temperature_json(const Setup& setup, const Warmth& warmth) {
    ordered_json json = {{"bench", setup.temperature.bench},
                         {"cold", setup.temperature.cold},
                         {"hot", setup.temperature.hot},
                         {"float_per_kelvin", warmth.float_per_kelvin},
                         {"backlash_per_kelvin", warmth.backlash_per_kelvin},
                         {"can_be_set", warmth.can_be_set()}};
    if (warmth.can_be_set()) {
        json["set_low"] = warmth.set_low;
        json["set_high"] = warmth.set_high;
    }
    json["loop"] = ordered_json::array();
    for (const LoopLength& length : warmth.loop)
        json["loop"].push_back({{"name", length.name},
                                {"length", length.length},
                                {"expansion", length.expansion},
                                {"float_per_kelvin", length.per_kelvin()}});
    return json;
}

std::string_view word(BetterAxle better) {
    switch (better) {
        case BetterAxle::first: return "first";
        case BetterAxle::second: return "second";
        case BetterAxle::depends: return "depends";
        case BetterAxle::alike: return "alike";
    }
    return "";
}

constexpr double no_speed = 1e3;  // bending speed over a top speed of 0

/// Both axles side by side, figure by figure, with the verdict.
ordered_json comparison_json(const AxleComparison& c) {
    ordered_json json = {{"first", c.first.title},
                         {"second", c.second.title},
                         {"figures", ordered_json::object()},
                         {"first_holds", c.first.holds},
                         {"second_holds", c.second.holds}};
    for (const ComparedFigure& f : compared_figures(c)) {
        const auto figure = [&](const AxleFigures& axle, double value) {
            const bool nothing = (f.name == "safety" && is_endless(axle.safety)) ||
                                 (f.name == "bending_margin" && axle.bending_margin >= no_speed);
            return nothing ? ordered_json(nullptr) : json_number(value);
        };
        json["figures"][std::string(f.name)] = {{"first", figure(c.first, f.first)},
                                                {"second", figure(c.second, f.second)},
                                                {"unit", f.unit},
                                                {"better", word(f.better)}};
    }
    json["better"] = word(c.better);
    json["verdict"] = c.verdict;
    return json;
}

}  // namespace

std::string_view version() { return PODWRIGHT_VERSION; }

std::string report_json(const Setup& setup, const Evaluation& evaluation,
                        const ReportAsked& asked) {
    ordered_json root;
    root["podwright"] = version();
    root["setup"] = setup.title;
    root["readings"] = ordered_json::object();
    for (const Reading& reading : evaluation.readings)
        root["readings"][std::string(reading.name)] = reading_json(reading);
    if (!evaluation.feel.shaft.cases.empty()) {
        root["axle"] = feel_sentences(setup, evaluation.stack, evaluation.feel, LengthUnit::mm);
        root["temperature"] = temperature_json(setup, evaluation.feel.warmth);
    }
    if (evaluation.feel.comparison)
        root["comparison"] = comparison_json(*evaluation.feel.comparison);
    if (!evaluation.feel.tolerances.empty()) root["tolerances"] = ordered_json::array();
    for (const ToleranceStudy& study : evaluation.feel.tolerances)
        root["tolerances"].push_back(tolerance_json(study));
    root["clearances"] = ordered_json::array();
    for (const Clearance& clearance : evaluation.clearances)
        root["clearances"].push_back(clearance_json(clearance));
    root["fits"] = fits_json(evaluation);
    if (auto rules = rules_json(setup, evaluation); !rules.is_null())
        root["rules"] = std::move(rules);
    if (auto measured = measured_json(setup); !measured.is_null())
        root["measured"] = std::move(measured);
    if (asked.effects) root["effects"] = effects_json(setup);
    if (asked.against) root["against"] = against_json(*asked.against, setup);
    root["findings"] = ordered_json::array();
    for (const Finding& finding : evaluation.findings)
        root["findings"].push_back(finding_json(finding));
    return json_text(std::move(root));
}

}  // namespace podwright
