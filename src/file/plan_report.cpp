#include <nlohmann/json.hpp>

#include "core/care.hpp"
#include "core/text.hpp"
#include "file/choose_report.hpp"
#include "file/json_text.hpp"
#include "file/page.hpp"
#include "file/report.hpp"

namespace podwright {

namespace {

using nlohmann::ordered_json;

ordered_json wear_json(const Wear& wear) {
    ordered_json json = {{"start", wear.start}, {"per_run", wear.per_run}, {"fitted", wear.fitted}};
    if (wear.fitted) json["deviation"] = wear.deviation;
    return json;
}

std::string holder_word(const AxleSide& side) { return side.holder_way == Way::up ? "up" : "down"; }

ordered_json run_json(const RunPlan& run) {
    const Calculated c = calculate(run.setup);
    ordered_json json = {
        {"run", run.run},
        {"left", run.setup.left.tyre.diameter},
        {"right", run.setup.right.tyre.diameter},
        {"left_holder",
         {{"step", run.setup.left.holder_step}, {"way", holder_word(run.setup.left)}}},
        {"right_holder",
         {{"step", run.setup.right.holder_step}, {"way", holder_word(run.setup.right)}}},
        {"pinion", run.setup.gears.pinion},
        {"ride", c.stance.ride},
        {"rollout", c.drive.rollout},
        {"room", nullptr},
        {"points", run.points},
        {"changes", run.changes},
        {"broken", ordered_json::array()},
        {"steps", ordered_json::array()}};
    if (run.room) json["room"] = *run.room;
    for (int i = 0; i < limit_count; ++i)
        if (run.broken.has(static_cast<Limit>(i)))
            json["broken"].push_back(name(static_cast<Limit>(i)));
    for (const Step& step : run.steps) json["steps"].push_back(step.text);
    return json;
}

std::string wear_text(const char* side, const Wear& wear, LengthUnit unit) {
    std::string text = std::string(side) + " " + length(wear.start, unit) + ", ";
    if (wear.per_run == 0) return text + "no wear";
    text += length(wear.per_run, unit) + " a run";
    if (wear.deviation > 0)
        return text + " (fitted, standard deviation " + length(wear.deviation, unit) + ")";
    return text + (wear.fitted ? " (fitted)" : "");
}

std::string run_text(const RunPlan& run, LengthUnit unit) {
    const Calculated c = calculate(run.setup);
    const auto holder = [&](const AxleSide& side) {
        return length(side.holder_step, unit) +
               (side.holder_step > 0 ? " " + holder_word(side) : "");
    };
    const std::string head = "run " + padded(std::to_string(run.run), 2, true) + "  ";
    std::string line = "tyres " + length(run.setup.left.tyre.diameter, unit) + " / " +
                       length(run.setup.right.tyre.diameter, unit) + ", holders " +
                       holder(run.setup.left) + " / " + holder(run.setup.right) + ", pinion " +
                       std::to_string(run.setup.gears.pinion) + ": ride " +
                       length(c.stance.ride, unit) + ", rollout " + length(c.drive.rollout, unit);
    if (run.room) line += ", clearances at least " + length(*run.room, unit) + " more than needed";
    std::string text = head + wrapped(line, columns(head)) + "\n";
    const std::string space(columns(head), ' ');
    for (int i = 0; i < limit_count; ++i)
        if (run.broken.has(static_cast<Limit>(i)))
            text += space +
                    "! no choice keeps this limit: " + std::string(name(static_cast<Limit>(i))) +
                    "\n";
    for (const Step& step : run.steps)
        text += space + "- " + wrapped(harmless(step.text), columns(head) + 2) + "\n";
    return text;
}

}  // namespace

std::string plan_json(const Setup& today, const DayPlan& plan) {
    ordered_json root = {{"podwright", version()},
                         {"setup", today.title},
                         {"wear_left", wear_json(plan.left)},
                         {"wear_right", wear_json(plan.right)},
                         {"runs_asked", plan.runs_asked},
                         {"points", plan.points},
                         {"fixed_points", plan.fixed_points},
                         {"changes", plan.changes},
                         {"stopped", plan.stopped},
                         {"caveats", caveats(plan, LengthUnit::mm)},
                         {"runs", ordered_json::array()}};
    for (const RunPlan& run : plan.runs) root["runs"].push_back(run_json(run));
    return json_text(std::move(root));
}

std::string plan_text(const Setup& today, const DayPlan& plan, bool inches) {
    const LengthUnit unit = inches ? LengthUnit::inch : LengthUnit::mm;
    std::string text = wrapped(harmless(today.title), 0) + "\n\n";
    text += "Tyres: " +
            wrapped(wear_text("left", plan.left, unit) + "; " +
                        wear_text("right", plan.right, unit) + ".",
                    7) +
            "\n";
    for (const std::string& caveat : caveats(plan, unit)) text += wrapped(caveat, 0) + "\n";
    const int broken = broken_runs(plan);
    std::string head = std::to_string(plan.changes) + " change" + (plan.changes == 1 ? "" : "s") +
                       " over the day, " + fixed(plan.points, 3) +
                       " points lost outside of bands and limits";
    if (plan.fixed_points > 0)
        head += ", of them " + fixed(plan.fixed_points, 3) + " by what stays on the car";
    if (broken > 0)
        head += "; " + std::to_string(broken) + " of " + std::to_string(plan.runs.size()) +
                " runs break a limit";
    if (plan.stopped) head += "; stopped before all clearances were looked at";
    text += wrapped(head + ".", 0) + "\n\n";
    for (const RunPlan& run : plan.runs) text += run_text(run, unit);
    if (static_cast<int>(plan.runs.size()) < plan.runs_asked)
        text += "Then the tyres are down to the rim: " + std::to_string(plan.runs.size()) + " of " +
                std::to_string(plan.runs_asked) + " runs.\n";
    return text;
}

}  // namespace podwright
