#include "file/choose_report.hpp"
#include "file/json_text.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "core/care.hpp"
#include "core/parameters.hpp"
#include "core/text.hpp"
#include "file/page.hpp"
#include "file/report.hpp"

namespace podwright {

namespace {

using nlohmann::ordered_json;

/// Every key that differs, with the value of the answer.
ordered_json edits_json(const Answer& answer) {
    ordered_json json = ordered_json::object();
    for (const Step& step : answer.steps)
        for (const Change& change : step.changes) {
            const Parameter& p = *find_parameter(change.key);
            if (p.kind == ValueKind::list)
                json[change.key] = change.list;
            else if (p.kind == ValueKind::choice)
                json[change.key] = p.options[static_cast<std::size_t>(change.number)];
            else
                json[change.key] = change.number;
        }
    return json;
}

ordered_json answer_json(const Answer& answer) {
    ordered_json json = {{"points", answer.points},        {"shims", answer.shims},
                         {"changes", answer.changes},      {"room", nullptr},
                         {"goals", ordered_json::array()}, {"steps", ordered_json::array()},
                         {"edits", edits_json(answer)}};
    if (answer.room) json["room"] = *answer.room;
    for (const GoalState& goal : answer.goals)
        json["goals"].push_back({{"reading", goal.reading},
                                 {"target", goal.target},
                                 {"value", goal.value},
                                 {"points", goal.points}});
    for (const Step& step : answer.steps) json["steps"].push_back(step.text);
    return json;
}

std::string count_text(double count) {
    return count < 1e6 ? fixed(count, 0)
                       : fixed(count / std::pow(10, std::floor(std::log10(count))), 1) + "e" +
                             fixed(std::floor(std::log10(count)), 0);
}

std::string number_of(std::size_t count, const char* what) {
    return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

/// `over`: the least that any clearance has beyond its need.
std::string clearance_text(double over, LengthUnit unit) {
    return "clearances at least " + length(over, unit) + " more than needed";
}

std::string goal_text(const GoalState& goal, bool inches) {
    const bool length_goal = goal.reading != "ride.roll" && goal.reading != "ride.rake" &&
                             goal.reading != "gear.final_drive";
    const LengthUnit unit = inches ? LengthUnit::inch : LengthUnit::mm;
    if (goal.reading == "clearance") return clearance_text(goal.value, unit);
    return goal.reading + " " + (length_goal ? length(goal.value, unit) : fixed(goal.value, 2));
}

std::string trade_name(const Trade& trade) {
    return trade.reading == "clearance" ? "clearances" : trade.reading;
}

std::string answer_text(const std::string& head, const Answer& answer, bool inches) {
    std::string line = fixed(answer.points, 3) + " points, " +
                       number_of(static_cast<std::size_t>(answer.shims), "shim") + ", " +
                       number_of(static_cast<std::size_t>(answer.changes), "change");
    for (const GoalState& goal : answer.goals) line += "; " + goal_text(goal, inches);
    const bool told = std::any_of(answer.goals.begin(), answer.goals.end(),
                                  [](const auto& goal) { return goal.reading == "clearance"; });
    if (answer.room && !told)
        line += "; " + clearance_text(*answer.room, inches ? LengthUnit::inch : LengthUnit::mm);
    const std::size_t indent = columns(head);
    std::string text = head + wrapped(harmless(line), indent) + "\n";
    const std::string space(indent, ' ');
    if (answer.steps.empty()) text += space + "- as the car stands now\n";
    for (const Step& step : answer.steps)
        text += space + "- " + wrapped(harmless(step.text), indent + 2) + "\n";
    return text;
}

const char* additions_word(Blame::Additions additions) {
    switch (additions) {
        case Blame::Additions::none_helps: return "none helps";
        case Blame::Additions::not_tried: return "not tried";
        case Blame::Additions::not_found_out: return "not found out";
    }
    return "";
}

std::string blame_text(const Blame& blame, bool gave_up, bool inches) {
    std::string text = gave_up ? "No build was found that keeps every limit.\n"
                               : "Nothing that the box allows keeps every limit.\n";
    for (const Blame::Obstacle& obstacle : blame.obstacles)
        text += "in the way: " + wrapped(harmless(obstacle.text), 12) + "\n";
    for (const std::string& sentence : found_out(blame)) text += wrapped(sentence, 0) + "\n";
    if (!blame.addition) return text;
    return text + "buy or borrow: " + wrapped(harmless(blame.addition->text), 15) + "; then\n" +
           answer_text("    ", blame.addition->answer, inches);
}

}  // namespace

std::string choice_json(const Setup& today, const Choice& choice) {
    ordered_json root = {{"podwright", version()},
                         {"setup", today.title},
                         {"combinations", choice.combinations},
                         {"looked_at", choice.looked_at},
                         {"measured", choice.measured},
                         {"stopped", choice.stopped},
                         {"gave_up", choice.gave_up},
                         {"rest_gave_up", choice.rest_gave_up},
                         {"unjudged", choice.unjudged},
                         {"best", ordered_json::array()},
                         {"front", ordered_json::array()},
                         {"trades", ordered_json::array()}};
    for (const Answer& answer : choice.best) root["best"].push_back(answer_json(answer));
    for (const Answer& answer : choice.front) root["front"].push_back(answer_json(answer));
    for (const Trade& trade : choice.trades)
        root["trades"].push_back(
            {{"reading", trade.reading}, {"answer", answer_json(trade.answer)}});
    if (choice.blame) {
        ordered_json blame = {{"obstacles", ordered_json::array()},
                              {"unknown", ordered_json::array()},
                              {"gave_up", choice.blame->gave_up || !choice.blame->unknown.empty()},
                              {"additions", additions_word(choice.blame->additions)},
                              {"addition", nullptr}};
        for (const Blame::Obstacle& obstacle : choice.blame->obstacles)
            blame["obstacles"].push_back(
                {{"limit", name(obstacle.limit)}, {"text", obstacle.text}});
        for (const Limit limit : choice.blame->unknown) blame["unknown"].push_back(name(limit));
        if (choice.blame->addition)
            blame["addition"] = {{"text", choice.blame->addition->text},
                                 {"answer", answer_json(choice.blame->addition->answer)}};
        root["blame"] = std::move(blame);
    }
    return json_text(std::move(root));
}

std::string choice_text(const Setup& today, const Choice& choice, bool inches) {
    std::string text = wrapped(harmless(today.title), 0) + "\n\n";
    text += "The box allows " + count_text(choice.combinations) + " builds; " +
            std::to_string(choice.looked_at) + " were looked at, of " +
            std::to_string(choice.measured) + " the clearances were measured" + ".\n";
    for (const std::string& caveat : caveats(choice)) text += wrapped(harmless(caveat), 0) + "\n";
    text += "\n";
    const std::string care = "\n" + wrapped(usual_care(), 0) + "\n";
    if (choice.blame)
        return text + blame_text(*choice.blame, choice.gave_up, inches) +
               (choice.blame->addition ? care : "");
    if (choice.best.empty()) return text + "No answer yet.\n";
    text += choice.gave_up ? "The best of those, in order:\n" : "The best, in order:\n";
    for (std::size_t i = 0; i < choice.best.size(); ++i)
        text += answer_text(padded(std::to_string(i + 1), 2, true) + "  ", choice.best[i], inches);
    if (choice.front.size() > 1) {
        text += "\nWith fewer changes:\n";
        for (std::size_t i = 1; i < choice.front.size(); ++i)
            text += answer_text("    ", choice.front[i], inches);
    }
    for (const Trade& trade : choice.trades)
        text += "\nIf " + trade_name(trade) + " came before all else:\n" +
                answer_text("    ", trade.answer, inches);
    return text + care;
}

}  // namespace podwright
