#include "choose/choose.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "choose/blame.hpp"
#include "choose/felt.hpp"
#include "choose/room.hpp"
#include "choose/room_floor.hpp"
#include "choose/search.hpp"
#include "core/readings.hpp"

namespace podwright {

namespace {

/// For front and trades together.
Patience rest_of(Patience patience) {
    patience.compared /= 2;
    patience.begun /= 2;
    return patience;
}

/// Runs searches on one set of lists and judges whole builds.
class Chooser {
public:
    Chooser(const Setup& setup, const ChooseOptions& options)
        : today_(setup),
          options_(options),
          lists_(setup),
          floor_(setup, lists_, options.meter),
          gears_(setup, options.meter),
          search_(setup, lists_, {}, {&floor_, &gears_, options.meter}),
          patience_(options.patience),
          compares_(options.meter && has_clearance_goal(setup)) {
        if (options.meter) room_.emplace(*options.meter);
        if (options.felt) felt_.emplace(setup);
    }

    Choice run() {
        Choice choice;
        choice.combinations = lists_.combinations();
        add(run(options_.most, -1), choice.best);
        if (options_.front && !choice.best.empty()) {
            choice.front.push_back(choice.best.front());
            choice.gave_up = gave_up_;
            begin_rest();
            while (choice.front.back().changes > 0 && !stopped() && !gave_up_) {
                const auto better = run(1, choice.front.back().changes - 1);
                if (better.empty() || gave_up_) break;
                add(better, choice.front);
            }
            choice.rest_gave_up = gave_up_;
        } else {
            choice.gave_up = gave_up_;
        }
        choice.looked_at = search_.looked_at();
        choice.measured = measured();
        choice.stopped = stopped();
        return choice;
    }

    /// What of the patience with front and trades the front left over.
    Patience left_over() const {
        Patience left = patience_;
        left.compared -= std::min(left.compared, search_.looked_at() - before_.compared);
        left.begun -= std::min(left.begun, search_.begun() - before_.begun);
        return left;
    }

private:
    bool go_on() {
        if (!options_.watch.go_on) return true;
        return options_.watch.go_on("choosing: " + std::to_string(search_.looked_at()) +
                                    " builds looked at, " + std::to_string(measured()) +
                                    " measured");
    }
    std::size_t measured() const { return room_ ? room_->measured() : 0; }
    bool stopped() const { return search_.stopped() || stopped_; }

    /// Front and trades have a patience of their own.
    void begin_rest() {
        patience_ = rest_of(options_.patience);
        before_ = {0, 0, search_.looked_at(), search_.begun()};
    }

    bool enough() {
        const bool spent = (compares_ && any_would_do_ &&
                            search_.looked_at() - before_.compared >= patience_.compared) ||
                           search_.begun() - before_.begun >= patience_.begun;
        gave_up_ = gave_up_ || spent;
        return gave_up_;
    }

    std::vector<Search::Found> run(std::size_t most, int most_changes) {
        Search::Query query;
        query.most = most;
        query.most_changes = most_changes;
        query.go_on = [this] { return !stopped_ && go_on(); };
        query.enough = [this] { return enough(); };
        calculated_in_vain_ = 0;
        measured_in_vain_ = 0;
        query.judge = [this](const Setup& setup) {
            const auto points = judge(setup);
            count(points.has_value());
            return points;
        };
        if (compares_) query.probe = [this](const Setup& setup) { return probe(setup); };
        return search_.run(query);
    }

    std::optional<std::int64_t> probe(const Setup& setup) {
        stopped_ = stopped_ || !go_on();
        if (stopped_) return {};
        const auto margin = room_->at_most(setup);
        if (margin) return clearance_points(setup, *margin + probed_within);
        measured_in_vain_ += room_->effort();
        count(false);
        return {};
    }

    std::optional<std::int64_t> judge(const Setup& setup) {
        if (stopped_ || !broken(setup, calculate(setup)).empty()) return {};
        if (felt_ && !felt_->against(setup).empty()) return {};
        if (!room_) return 0;
        stopped_ = !go_on();
        if (stopped_) return {};
        const auto margin = room_->of(setup);
        measured_in_vain_ += room_->effort();
        if (!margin) return {};
        rooms_[key_of(setup)] = *margin;
        return clearance_points(setup, *margin);
    }

    /// Loses patience where nothing would do.
    void count(bool would_do) {
        any_would_do_ = any_would_do_ || would_do;
        calculated_in_vain_ = would_do ? 0 : calculated_in_vain_ + 1;
        if (would_do) measured_in_vain_ = 0;
        if (calculated_in_vain_ >= patience_.calculated || measured_in_vain_ >= patience_.measured)
            gave_up_ = gave_up_ || !stopped_;
    }

    // Two ways to the same clearance differ by no more than what the bounds leave open, mm.
    static constexpr double probed_within = 1e-6;

    /// What tells one build from another.
    static std::vector<double> key_of(const Setup& s) {
        std::vector<double> key = {s.axial_float.blade,
                                   s.axial_float.shoulder,
                                   s.axle.waist,
                                   s.axle.bore,
                                   static_cast<double>(s.gears.pinion),
                                   static_cast<double>(s.gears.spur)};
        for (const Side side : both_sides) {
            const AxleSide& at = s.side(side);
            key.insert(key.end(), {at.holder_step, static_cast<double>(at.holder_way), at.inset,
                                   at.rim_diameter, at.tyre.diameter, at.tyre.width,
                                   at.tyre.worn_diameter, at.tyre.stiffness, -1});
            key.insert(key.end(), at.shims.begin(), at.shims.end());
        }
        return key;
    }

    void add(const std::vector<Search::Found>& found, std::vector<Answer>& answers) {
        for (const Search::Found& one : found) {
            std::optional<double> room;
            if (const auto known = rooms_.find(key_of(one.setup)); known != rooms_.end())
                room = known->second;
            Answer answer = answer_of(today_, one.setup, room, options_.shown);
            answer.shims = one.cost.shims;
            answer.changes = one.cost.changes;
            answers.push_back(std::move(answer));
        }
    }

    const Setup& today_;
    const ChooseOptions& options_;
    Lists lists_;
    RoomFloor floor_;
    GearRoom gears_;
    Search search_;
    std::optional<Room> room_;
    std::optional<Felt> felt_;
    std::map<std::vector<double>, double> rooms_;
    Patience patience_, before_{0, 0, 0, 0};  ///< what there is, and where its counting begins
    bool compares_;                           ///< there is a goal on clearances
    std::size_t calculated_in_vain_ = 0, measured_in_vain_ = 0;  ///< since the last that would do
    bool any_would_do_ = false;
    bool gave_up_ = false;
    bool stopped_ = false;
};

}  // namespace

Answer answer_of(const Setup& today, const Setup& build, std::optional<double> room,
                 LengthUnit shown) {
    Answer answer;
    answer.setup = build;
    answer.room = room;
    const Calculated c = calculate(build);
    std::int64_t points = goal_points(build, c);
    if (room) points += clearance_points(build, *room);
    answer.points = static_cast<double>(points) / point;
    answer.shims = static_cast<int>(build.left.shims.size() + build.right.shims.size());
    const auto readings = readings_of(build, c.stack, c.stance, c.drive);
    for (const Goal& goal : build.choosing.goals) {
        GoalState state{goal.reading, goal.target, 0, 0};
        Setup alone = build;
        alone.choosing.goals = {goal};
        if (goal.reading == "clearance") {
            if (!room) continue;
            state.value = *room;
            state.points = static_cast<double>(clearance_points(alone, *room)) / point;
        } else {
            for (const Reading& reading : readings)
                if (reading.name == goal.reading) state.value = reading.value;
            state.points = static_cast<double>(goal_points(alone, c)) / point;
        }
        answer.goals.push_back(state);
    }
    answer.steps = steps_between(today, build, shown);
    return answer;
}

namespace {

double points_of(const Answer& answer, std::size_t goal) {
    return goal < answer.goals.size() ? answer.goals[goal].points : 0;
}

/// With one goal weighed so heavily that no other makes up for what is seen of it.
void find_trades(const Setup& setup, const ChooseOptions& options, Patience patience,
                 Choice& choice) {
    constexpr double first = 1e4;
    constexpr double seen = 1e-3;  // points
    const auto& goals = setup.choosing.goals;
    for (std::size_t i = 0; i < goals.size() && !choice.stopped; ++i) {
        const double lost = points_of(choice.best[0], i);
        if (goals.size() < 2 || lost < seen) continue;
        Setup weighed = setup;
        weighed.choosing.goals[i].weight *= first;
        ChooseOptions one = options;
        one.most = 1;
        one.front = false;
        one.patience = patience;
        Chooser chooser(weighed, one);
        Choice found = chooser.run();
        patience = chooser.left_over();
        choice.stopped = found.stopped;
        choice.rest_gave_up = choice.rest_gave_up || found.gave_up;
        choice.looked_at += found.looked_at;
        choice.measured += found.measured;
        if (found.best.empty() || found.gave_up) continue;
        Answer& answer = found.best[0];
        answer.setup.choosing = setup.choosing;
        const int changes = answer.changes;
        answer = answer_of(setup, answer.setup, answer.room, options.shown);
        answer.changes = changes;
        if (points_of(answer, i) < lost - seen)
            choice.trades.push_back({goals[i].reading, std::move(answer)});
    }
}

}  // namespace

std::vector<std::string> caveats(const Choice& choice) {
    std::vector<std::string> sentences;
    if (choice.stopped) sentences.emplace_back("Stopped before the end: there may be better ones.");
    if (choice.gave_up && choice.best.empty())
        sentences.emplace_back(
            "The search gave up, as too many builds in a row did not do: there may be others that "
            "do.");
    else if (choice.gave_up)
        sentences.push_back(
            "The search gave up before it had seen every build: what is listed is "
            "the best of the " +
            std::to_string(choice.looked_at) + " that it looked at, and there may be better ones.");
    else if (choice.rest_gave_up)
        sentences.emplace_back(
            "The best that are listed are the best of all. The search for others, with fewer "
            "changes or with one goal before all else, gave up: there may be more of them.");
    std::string names;
    for (const std::string& name : choice.unjudged) names += (names.empty() ? "" : ", ") + name;
    if (!names.empty())
        sentences.push_back("Not judged here, as it takes too long: the rules on " + names +
                            ". The report of a build says whether it keeps them.");
    return sentences;
}

Choice choose(const Setup& setup, const ChooseOptions& options) {
    Chooser chooser(setup, options);
    Choice choice = chooser.run();
    choice.unjudged = unjudged_rules(setup, options.felt);
    if (options.front && !choice.best.empty() && !choice.stopped && !choice.gave_up)
        find_trades(setup, options, chooser.left_over(), choice);
    if (choice.best.empty() && !choice.stopped && options.explain)
        choice.blame = find_blame(setup, options, choice.gave_up);
    return choice;
}

}  // namespace podwright
