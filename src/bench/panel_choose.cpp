#include <algorithm>
#include <cctype>

#include "bench/advice_panels.hpp"
#include "core/care.hpp"

namespace podwright {

namespace {

std::string count_of(std::size_t count, const char* what) {
    return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

/// "ride height 4.00 mm"
std::string goal_words(const Model& model, const GoalState& goal) {
    if (goal.reading == "clearance")
        return "clearances at least " + length(goal.value, model.shown) + " more than needed";
    const Reading* reading = model.evaluation.reading(goal.reading);
    if (!reading) return goal.reading;
    const bool is_length = reading->unit == "mm";
    return std::string(reading->label) + " " +
           (is_length ? length(goal.value, model.shown)
                      : fixed(goal.value, 2) + (reading->unit == "deg" ? "\xC2\xB0" : ""));
}

std::string goals_words(const Model& model, const Answer& answer) {
    std::string text;
    for (const GoalState& goal : answer.goals)
        text += (text.empty() ? "" : ", ") + goal_words(model, goal);
    return text;
}

/// What to change from now, as far as there is room for it.
void steps_of(WindowFrame& frame, const Card& card, const std::vector<Step>& steps, bool all) {
    constexpr std::size_t few = 3;
    if (steps.empty()) {
        bullet(frame, card.width, "The car stands like this now.");
        return;
    }
    const std::size_t shown = all || steps.size() <= few + 1 ? steps.size() : few;
    for (std::size_t i = 0; i < shown; ++i) bullet(frame, card.width, steps[i].text);
    if (shown < steps.size())
        wrapped(frame.type.small, frame.colours().quiet,
                "and " + count_of(steps.size() - shown, "step") + " more", card.width);
}

void answer_card(WindowFrame& frame, Advisor& advisor, const Answer& answer,
                 const std::string& name, const std::string& title) {
    Model& model = frame.model;
    const bool picked = advisor.is_picked(name);
    const std::vector<Step> steps = steps_to(model, answer.setup);
    const Card card = begin_card(frame);
    card_title(frame, card, title,
               answer.points == 0 ? "on target" : fixed(answer.points, 2) + " points off");
    wrapped(frame.type.small, frame.colours().quiet, goals_words(model, answer), card.width);
    ImGui::Dummy({0, frame.px(2)});
    steps_of(frame, card, steps, picked);
    ImGui::Dummy({0, frame.px(grid::hair)});
    const bool take = button(frame, "take " + name, "Take it", !steps.empty(), picked);
    ImGui::SameLine();
    if (button(frame, "show " + name, picked ? "Let go" : "Show it")) advisor.pick(name);
    const CardState state = end_card(frame, card, name, picked);
    if (state.pressed) advisor.pick(name);
    if (take) {
        const Setup build = answer.setup;
        take_build(model, build, title, frame.now);
        if (advisor.is_picked(name)) advisor.pick(name);
        return;
    }
    advisor.offer(name, title, answer.setup, state.hovered);
}

void blame_card(WindowFrame& frame, Advisor& advisor, const Blame& blame, bool gave_up) {
    const Card card = begin_card(frame);
    card_title(frame, card, gave_up ? "Nothing found" : "Nothing fits", "");
    for (const Blame::Obstacle& obstacle : blame.obstacles)
        bullet(frame, card.width, "In the way: " + obstacle.text);
    for (const std::string& sentence : found_out(blame)) bullet(frame, card.width, sentence);
    if (blame.addition)
        bullet(frame, card.width, "Buy or borrow " + blame.addition->text + ": then this fits.");
    end_card(frame, card, "blame", false);
    if (blame.addition)
        answer_card(frame, advisor, blame.addition->answer, "addition",
                    "With " + blame.addition->text);
}

}  // namespace

void choose_page(WindowFrame& frame, Advisor& advisor) {
    const Model& model = frame.model;
    if (model.history.now().choosing.box == PartsBox{}) {
        note(frame,
             "This scene has no parts box. Add [box] to its file, or box = \"FILE.toml\" for one "
             "that scenes share, and [[goal]] for what is wanted: scenes/README.md says how, "
             "scenes/parts-box.toml shows it.");
        return;
    }
    note(frame, "Every build that the box allows, and of those that keep all limits the best.");
    const bool old = advisor.choice_is_old(model);
    const auto& choice = advisor.choice();
    if (!advisor.choosing() || advisor.seconds() < 0.3) {
        if (button(frame, "choose", choice ? "Choose again" : "Choose from the box", true,
                   !choice || old))
            advisor.start_choosing(model);
        ImGui::Dummy({0, frame.px(grid::hair)});
    }
    progress_row(frame, advisor);
    if (!choice) return;
    if (old) note(frame, "The car is another one now: the order may be, too.");
    for (const std::string& caveat : caveats(*choice)) note(frame, caveat);
    if (choice->blame) blame_card(frame, advisor, *choice->blame, choice->gave_up);
    for (std::size_t i = 0; i < choice->best.size(); ++i)
        answer_card(frame, advisor, choice->best[i], "answer " + std::to_string(i + 1),
                    "Build " + std::to_string(i + 1));
    if (choice->front.size() > 1) {
        section_title(frame, "With fewer changes");
        ImGui::Dummy({0, frame.px(grid::hair)});
    }
    for (std::size_t i = 1; i < choice->front.size(); ++i)
        answer_card(frame, advisor, choice->front[i], "front " + std::to_string(i),
                    count_of(static_cast<std::size_t>(choice->front[i].changes), "change"));
    if (!choice->trades.empty()) {
        section_title(frame, "If one goal came before all else");
        ImGui::Dummy({0, frame.px(grid::hair)});
    }
    for (const Trade& trade : choice->trades) {
        const Reading* reading = model.evaluation.reading(trade.reading);
        std::string title = reading ? std::string(reading->label) : "clearances";
        title.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(title.front())));
        answer_card(frame, advisor, trade.answer, "trade " + trade.reading, title + " first");
    }
    if (!choice->best.empty() || (choice->blame && choice->blame->addition))
        note(frame, usual_care());
}

}  // namespace podwright
