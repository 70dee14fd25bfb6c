#include <algorithm>

#include "bench/advice_panels.hpp"
#include "core/care.hpp"

namespace podwright {

namespace {

std::string holder_words(const AxleSide& side, LengthUnit shown) {
    return length(side.holder_step, shown) + (side.holder_step == 0        ? ""
                                              : side.holder_way == Way::up ? " up"
                                                                           : " down");
}

/// The same on both sides is said once.
std::string both(const std::string& left, const std::string& right) {
    return left == right ? left : left + " left, " + right + " right";
}

std::string wear_words(const DayPlan& plan, LengthUnit shown) {
    const auto words = [&](const Wear& wear) {
        if (wear.per_run == 0) return std::string("nothing");
        return length(wear.per_run, shown) +
               (wear.deviation > 0 ? " \xC2\xB1" + length(wear.deviation, shown) : "");
    };
    return "Tyres lose " + both(words(plan.left), words(plan.right)) + " a run.";
}

void run_card(WindowFrame& frame, Advisor& advisor, const RunPlan& run) {
    Model& model = frame.model;
    const Setup& setup = run.setup;
    const std::string name = "run " + std::to_string(run.run);
    const bool picked = advisor.is_picked(name);
    const Calculated c = calculate(setup);
    const Card card = begin_card(frame);
    card_title(frame, card, "Run " + std::to_string(run.run),
               "ride " + length(c.stance.ride, model.shown));
    wrapped(
        frame.type.small, frame.colours().quiet,
        "Tyres " +
            both(length(setup.left.tyre.diameter, model.shown),
                 length(setup.right.tyre.diameter, model.shown)) +
            "; holders " +
            both(holder_words(setup.left, model.shown), holder_words(setup.right, model.shown)) +
            "; pinion " + std::to_string(setup.gears.pinion) + "; rollout " +
            length(c.drive.rollout, model.shown),
        card.width);
    ImGui::Dummy({0, frame.px(2)});
    for (int i = 0; i < limit_count; ++i)
        if (run.broken.has(static_cast<Limit>(i)))
            wrapped(frame.type.strong_small, frame.colours().ink,
                    "No choice keeps this limit: " +
                        std::string(podwright::name(static_cast<Limit>(i))),
                    card.width);
    for (const Step& step : run.steps) bullet(frame, card.width, step.text);
    if (run.steps.empty())
        wrapped(frame.type.small, frame.colours().quiet, "Nothing to change.", card.width);
    ImGui::Dummy({0, frame.px(grid::hair)});
    const bool take = button(frame, "take " + name, "Take it", true, picked);
    ImGui::SameLine();
    if (button(frame, "show " + name, picked ? "Let go" : "Show it")) advisor.pick(name);
    const CardState state = end_card(frame, card, name, picked);
    if (state.pressed) advisor.pick(name);
    if (take) {
        const Setup build = setup;
        take_build(model, build, name, frame.now);
        return;
    }
    advisor.offer(name, "Run " + std::to_string(run.run), setup, state.hovered);
}

/// Ride height over the runs, between its limits; a tall mark where something is changed.
void ride_plot(WindowFrame& frame, const DayPlan& plan) {
    if (plan.runs.size() < 2) return;
    const Model& model = frame.model;
    const Palette& colours = frame.colours();
    const Event& event = plan.runs.front().setup.event;
    double low = event.ride_low;
    double high = event.ride_high;
    std::vector<double> rides;
    for (const RunPlan& run : plan.runs) {
        rides.push_back(calculate(run.setup).stance.ride);
        low = std::min(low, rides.back());
        high = std::max(high, rides.back());
    }
    const double margin = std::max(0.1, 0.08 * (high - low));
    ImFont& font = *frame.type.caption;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float height = frame.px(96);
    const float foot = font.FontSize + frame.px(2);
    const auto y = [&](double ride) {
        return at.y + (height - foot) *
                          static_cast<float>((high + margin - ride) / (high - low + 2 * margin));
    };
    const float left = at.x + frame.px(grid::small);
    const auto x = [&](std::size_t i) {
        return left + (width - 2 * frame.px(grid::small)) * static_cast<float>(i) /
                          static_cast<float>(rides.size() - 1);
    };
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled({at.x, y(event.ride_high)}, {at.x + width, y(event.ride_low)}, colours.field,
                       frame.px(2));
    for (const double limit : {event.ride_low, event.ride_high}) {
        list.AddLine({at.x, y(limit)}, {at.x + width, y(limit)}, colours.quiet, frame.px(1));
        const std::string words = length(limit, model.shown);
        const bool top = limit == event.ride_high;
        list.AddText(&font, font.FontSize,
                     {at.x + frame.px(grid::hair),
                      top ? y(limit) + frame.px(1) : y(limit) - font.FontSize - frame.px(1)},
                     colours.quiet, words.c_str());
    }
    for (std::size_t i = 0; i < rides.size(); ++i) {
        if (plan.runs[i].changes > 0)
            list.AddLine({x(i), y(rides[i]) - frame.px(14)}, {x(i), y(rides[i]) + frame.px(14)},
                         colours.accent, frame.px(1));
        if (i > 0)
            list.AddLine({x(i - 1), y(rides[i - 1])}, {x(i), y(rides[i])}, colours.accent,
                         frame.px(1.5F));
        list.AddCircleFilled({x(i), y(rides[i])}, frame.px(3.5F), colours.accent, 16);
        const std::string number = std::to_string(plan.runs[i].run);
        const float half = font.CalcTextSizeA(font.FontSize, 1e9F, 0, number.c_str()).x / 2;
        list.AddText(&font, font.FontSize, {x(i) - half, at.y + height - foot}, colours.quiet,
                     number.c_str());
    }
    ImGui::Dummy({width, height + frame.px(grid::hair)});
    wrapped(frame.type.small, colours.quiet,
            "Ride height before each run, between its limits; a bar where something is changed.");
    ImGui::Dummy({0, frame.px(grid::small)});
}

}  // namespace

void day_page(WindowFrame& frame, Advisor& advisor) {
    const Model& model = frame.model;
    if (model.history.now().choosing.day.runs == 0) {
        note(frame,
             "This scene plans no day. Add [day] to its file with runs = ... and what the tyres "
             "lose, or their diameters as measured: scenes/README.md says how, "
             "scenes/parts-box.toml shows it.");
        return;
    }
    note(frame,
         "Holders and pinion for every run, with as few changes over the whole day as keep the "
         "limits and the goals' bands.");
    const bool old = advisor.plan_is_old(model);
    const auto& plan = advisor.plan();
    if (!advisor.planning() || advisor.seconds() < 0.3) {
        if (button(frame, "plan", plan ? "Plan again" : "Plan the day", true, !plan || old))
            advisor.start_planning(model);
        ImGui::Dummy({0, frame.px(grid::hair)});
    }
    progress_row(frame, advisor);
    if (!plan) return;
    if (old) note(frame, "The car is another one now: plan again.");
    if (plan->stopped) note(frame, "Stopped before all clearances were looked at.");
    note(frame, wear_words(*plan, model.shown) + " " + std::to_string(plan->changes) +
                    (plan->changes == 1 ? " part" : " parts") + " changed over the day.");
    for (const std::string& caveat : caveats(*plan, model.shown)) note(frame, caveat);
    if (const int broken = broken_runs(*plan); broken > 0)
        note(frame, std::to_string(broken) + " of " + std::to_string(plan->runs.size()) +
                        (broken == 1 ? " runs breaks a limit." : " runs break a limit."));
    ride_plot(frame, *plan);
    for (const RunPlan& run : plan->runs) run_card(frame, advisor, run);
    if (static_cast<int>(plan->runs.size()) < plan->runs_asked)
        note(frame, "Then the tyres are down to the rim: " + std::to_string(plan->runs.size()) +
                        " of " + std::to_string(plan->runs_asked) + " runs.");
    if (plan->changes > 0) note(frame, usual_care());
}

}  // namespace podwright
