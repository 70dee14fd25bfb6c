#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/care.hpp"
#include "core/readings.hpp"
#include "core/text.hpp"
#include "core/units.hpp"
#include "file/checks_report.hpp"
#include "file/page.hpp"
#include "file/report.hpp"
#include "gap/clearance_findings.hpp"
#include "gap/fit.hpp"

namespace podwright {

namespace {

struct Row {
    std::string group, label, value, unit, limits, status;
};

std::vector<Row> rows_of(const Evaluation& evaluation, bool inches) {
    std::vector<Row> rows;
    for (const Reading& reading : evaluation.readings) {
        const LengthUnit unit = inches ? LengthUnit::inch : LengthUnit::mm;
        const Written shown = written_as(reading.unit, unit);
        rows.push_back({std::string(reading.name.substr(0, reading.name.find('.'))),
                        std::string(reading.label), number_as(shown, reading.value), shown.unit,
                        limits_text(reading, unit),
                        reading.status == Status::none ? "" : std::string(word(reading.status))});
    }
    return rows;
}

std::size_t widest(const std::vector<Row>& rows, std::string Row::*column) {
    std::size_t width = 0;
    for (const Row& row : rows) width = std::max(width, columns(row.*column));
    return width;
}

std::string without_end_spaces(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

std::string table(const std::vector<Row>& rows) {
    const std::size_t group = widest(rows, &Row::group);
    const std::size_t label = widest(rows, &Row::label);
    const std::size_t value = widest(rows, &Row::value);
    const std::size_t unit = widest(rows, &Row::unit);
    const std::size_t limit = widest(rows, &Row::limits);
    std::string text;
    std::string before;
    for (const Row& row : rows) {
        const bool opens = row.group != before;
        if (opens && !before.empty()) text += "\n";
        before = row.group;
        const std::string head = padded(opens ? row.group : "", group) + "  " +
                                 padded(row.label, label) + "  " + padded(row.value, value, true) +
                                 padded((row.unit == "°" ? "" : " ") + row.unit, unit + 1) + "  ";
        const std::size_t used = columns(head);
        std::string rest = padded(row.limits, limit) + "  " + row.status;
        if (row.status.empty() || used + columns(rest) > page_width)
            rest = wrapped(row.limits + (row.status.empty() ? "" : ", " + row.status), used);
        text += without_end_spaces(head + rest) + "\n";
    }
    return text;
}

/// The pairs with the least room, as they stand and at their worst.
std::string clearances_text(const Evaluation& evaluation, bool inches) {
    constexpr std::size_t most = 8;
    const LengthUnit unit = inches ? LengthUnit::inch : LengthUnit::mm;
    std::vector<Row> rows;
    for (const Clearance& c : evaluation.clearances) {
        if (c.need == 0 && c.worst.status == Status::none) continue;
        if (rows.size() == most) break;
        rows.push_back({"clearance",
                        spoken(evaluation.assembly, c.a) + " / " + spoken(evaluation.assembly, c.b),
                        length(c.now.gap, unit), "",
                        "worst " + length(c.worst.gap, unit) + ", needs " + length(c.need, unit),
                        std::string(word(c.worst.status))});
    }
    return rows.empty() ? std::string() : table(rows) + "\n";
}

/// Which parts are meant to touch, by their fits.
std::string fits_text(const Evaluation& evaluation) {
    std::string text;
    for (const Fit fit : {Fit::fixed, Fit::sliding, Fit::touching, Fit::meshing}) {
        std::string pairs;
        for (const MeantFit& meant : fits_of(evaluation.assembly)) {
            const std::string pair =
                spoken(evaluation.assembly, meant.a) + " / " + spoken(evaluation.assembly, meant.b);
            if (meant.fit == fit) pairs += (pairs.empty() ? "" : ", ") + pair;
        }
        if (pairs.empty()) continue;
        const std::string head = padded(std::string(word(fit)), 11) + "  ";
        text += head + wrapped(harmless(pairs), columns(head)) + "\n";
    }
    return text.empty() ? text : text + "\n";
}

/// The share outside the window with its confidence interval.
std::string outside_text(const ToleranceStudy& study) {
    const auto per_cent = [](double share) { return fixed(100 * share, 2); };
    return per_cent(study.sample.outside_share()) + " % (" + per_cent(study.outside.low) + " to " +
           per_cent(study.outside.high) + ")";
}

/// How every length of the float's loop grows.
std::string warmth_text(const Warmth& warmth, LengthUnit unit) {
    constexpr double um_per_mm = 1000;
    constexpr double nothing = 0.0005;  // µm/K
    std::vector<Row> rows;
    const auto add = [&](const std::string& name, double per_kelvin, const std::string& why) {
        rows.push_back(
            {"warmth", name, fixed(um_per_mm * per_kelvin, 3), "µm/K of float", why, ""});
    };
    for (const LoopLength& part : warmth.loop)
        if (std::abs(um_per_mm * part.per_kelvin()) >= nothing)
            add(part.name, part.per_kelvin(),
                length(part.length, unit) + " x " + fixed(part.expansion, 1) + "e-6/K");
    if (rows.empty()) return {};
    add("all together", warmth.float_per_kelvin, "");
    return table(rows) + "\n";
}

/// The lengths that the scatter of a result comes from, the largest three shares.
std::string shares_text(const ToleranceStudy& study) {
    std::vector<std::size_t> order(study.contributions.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return study.contributions[a] > study.contributions[b] + 1e-9;
    });
    constexpr std::size_t most = 3;
    std::string text;
    for (std::size_t i = 0; i < std::min(most, order.size()); ++i) {
        const double share = study.contributions[order[i]];
        if (!(share > 0)) break;
        text += (text.empty() ? "" : ", ") + fixed(100 * share, 0) + " % " +
                study.stack_up.contributors[order[i]].name;
    }
    return text;
}

/// How builds scatter within their tolerances, and which lengths are to blame.
std::string builds_text(const std::vector<ToleranceStudy>& studies, LengthUnit unit) {
    if (studies.empty()) return {};
    const auto bare = [&](double mm) {
        return unit == LengthUnit::inch ? fixed(mm / mm_per_inch, 4) : fixed(mm, 2);
    };
    std::vector<Row> builds, shares;
    for (const ToleranceStudy& study : studies) {
        const bool window = study.low || study.high;
        builds.push_back({"builds", study.stack_up.title, length(study.stack_up.nominal, unit), "",
                          "worst ±" + bare(study.worst) + ", rss ±" + bare(study.root_sum_square) +
                              (window ? ", outside " + outside_text(study) : ""),
                          ""});
        shares.push_back({"scatter", study.stack_up.title, "", "", shares_text(study), ""});
    }
    return wrapped("Of " + std::to_string(studies.front().sample.builds) +
                       " builds drawn within their tolerances so many lie outside the window; in "
                       "brackets the share's interval of 95 % confidence.",
                   0) +
           "\n\n" + table(builds) + "\n" + table(shares) + "\n";
}

/// What the readings of the axle mean, and what tolerances make of the lengths.
std::string feel_text(const Setup& setup, const Evaluation& evaluation, LengthUnit unit) {
    std::string text;
    for (const std::string& sentence :
         feel_sentences(setup, evaluation.stack, evaluation.feel, unit))
        text += wrapped(harmless(sentence), 0) + "\n";
    if (!text.empty()) text += "\n";
    if (!evaluation.feel.shaft.cases.empty()) text += warmth_text(evaluation.feel.warmth, unit);
    return text + builds_text(evaluation.feel.tolerances, unit);
}

/// Both axles side by side, figure by figure, with the verdict.
std::string comparison_text(const Evaluation& evaluation, LengthUnit unit) {
    if (!evaluation.feel.comparison) return {};
    const AxleComparison& c = *evaluation.feel.comparison;
    std::string text = wrapped(harmless("axles  today's: " + c.first.title), 16) + "\n" +
                       wrapped(harmless("       other:   " + c.second.title), 16) + "\n\n";
    constexpr std::size_t wide = 10;  // both columns of numbers end where their heads end
    std::vector<Row> rows = {{"axles", "", "today's", "", padded("other", wide, true), ""}};
    for (const ComparedFigure& f : compared_figures(c))
        rows.push_back({"axles", std::string(f.label), shown_figure(f, f.first, unit), "",
                        padded(shown_figure(f, f.second, unit), wide, true),
                        f.better == BetterAxle::first    ? "today's is better"
                        : f.better == BetterAxle::second ? "the other is better"
                                                         : ""});
    rows.push_back({"axles", "within all limits", c.first.holds ? "yes" : "no", "",
                    padded(c.second.holds ? "yes" : "no", wide, true), ""});
    return text + table(rows) + "\n" + wrapped(harmless(c.verdict), 0) + "\n\n";
}

std::string findings_text(const std::vector<Finding>& findings) {
    if (findings.empty()) return "No findings.\n";
    std::string text;
    for (const Finding& finding : findings) {
        const std::string head = padded(std::string(word(finding.level)), 7) + "  ";
        text += head + wrapped(harmless(finding.text + " (" + finding.code + ")"), columns(head)) +
                "\n";
        if (!finding.fix.empty()) {
            const std::string fix = std::string(columns(head), ' ') + "fix: ";
            text += fix + wrapped(harmless(finding.fix), columns(fix)) + "\n";
        }
    }
    return text + "\n" + wrapped(usual_care(), 0) + "\n";
}

}  // namespace

std::string report_text(const Setup& setup, const Evaluation& evaluation, bool inches,
                        const ReportAsked& asked) {
    const LengthUnit unit = inches ? LengthUnit::inch : LengthUnit::mm;
    return wrapped(harmless(setup.title), 0) + "\n\n" + table(rows_of(evaluation, inches)) + "\n" +
           feel_text(setup, evaluation, unit) + comparison_text(evaluation, unit) +
           clearances_text(evaluation, inches) + fits_text(evaluation) +
           rules_text(setup, evaluation, unit) + measured_text(setup, unit) +
           (asked.effects ? effects_text(setup, unit) : "") +
           (asked.against ? against_text(*asked.against, setup, unit) : "") +
           findings_text(evaluation.findings);
}

}  // namespace podwright
