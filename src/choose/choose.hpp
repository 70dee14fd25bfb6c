#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "choose/limit.hpp"
#include "choose/steps.hpp"
#include "core/setup.hpp"
#include "core/text.hpp"
#include "gap/clearance.hpp"

// The best builds that the parts box of a setup allows.
namespace podwright {

/// A goal of the setup and where a build stands to it.
struct GoalState {
    std::string reading;
    double target = 0;
    double value = 0;
    double points = 0;  ///< lost
};

/// One build from the box.
struct Answer {
    Setup setup;
    double points = 0;  ///< lost against the goals; 0 is on target in everything
    int shims = 0;      ///< pieces
    int changes = 0;    ///< parts put in, taken out or turned over, from the build of today
    std::optional<double> room;  ///< smallest margin of all clearances, mm; nothing if not measured
    std::vector<GoalState> goals;
    std::vector<Step> steps;  ///< from the build of today, in order
};

/// Why nothing fits, and what would help.
struct Blame {
    struct Obstacle {
        Limit limit = Limit::width;
        std::string
            text;       ///< "ride height: 5.40 mm at best, 0.40 mm more than the 5.00 mm allowed"
        Setup nearest;  ///< the build that comes nearest to it and keeps all other limits
    };
    std::vector<Obstacle> obstacles;  ///< each alone is to blame; empty if none was found to be
    /// Those of which it was not found out, as too much failed that only a whole build shows.
    std::vector<Limit> unknown;
    bool gave_up = false;  ///< the search for a build had given up itself
    struct Addition {
        std::string text;  ///< "2 x 1.50 mm holder"
        Answer answer;     ///< the best build with it
    };
    std::optional<Addition> addition;  ///< the smallest to the box with which something fits
    /// What is known of additions where there is none.
    enum class Additions { none_helps, not_tried, not_found_out } additions = Additions::none_helps;
};

/// The best build if one goal came before all others, which then only decide between equals: an end
/// of the front over the separate goals.
struct Trade {
    std::string reading;  ///< whose goal comes first
    Answer answer;        ///< its points are those of all goals as they are weighed
};

struct Choice {
    std::vector<Answer> best;    ///< at most ten, the best first
    std::vector<Answer> front;   ///< the best for ever fewer changes: no other has both fewer
                                 ///< changes and fewer points
    std::vector<Trade> trades;   ///< for each goal that the best does not meet, where another build
                                 ///< meets it better; in the order of the goals
    std::optional<Blame> blame;  ///< if there is no answer
    double combinations = 0;     ///< builds that the box allows
    std::size_t looked_at = 0;   ///< whole builds that were calculated
    std::size_t measured = 0;    ///< of which clearances were measured
    bool stopped = false;        ///< cut short: what is listed is right, but there may be more
    bool gave_up =
        false;  ///< for want of patience not all was seen: the best are those of what was
    bool rest_gave_up = false;  ///< not all was seen that front and trades are picked from
    /// What rules are about that no build was held against (see Felt): it may break them.
    std::vector<std::string> unjudged;
};

/// When a search gives up; counted in builds and not by the clock, so that it gives up at the same
/// one on every machine. All builds of a box of usual size are a few seconds' work.
struct Patience {
    /// After so many whole builds in a row of which none would do, for reasons that only a whole
    /// build shows. Those that are more work to measure count for more (Room::effort).
    std::size_t calculated = 50'000;
    std::size_t measured = 5'000;
    /// After so many whole builds, where a goal on clearances is asked for and any of them would
    /// do: with a goal that cannot be met every build might be the best. Front and trades together
    /// have half as many.
    std::size_t compared = 2'000;
    /// After so many stacks with holders, counting each of their pairs: that many can be begun
    /// without any that is cheap enough to be made whole.
    std::size_t begun = 4'000'000;
};

struct Watch {
    /// Told now and then what is being done; false stops.
    std::function<bool(const std::string& doing)> go_on;
};

struct ChooseOptions {
    Meter* meter = nullptr;  ///< without one clearances are not looked at
    LengthUnit shown = LengthUnit::mm;
    std::size_t most = 10;
    bool front = true;    ///< look for front and trades, too
    bool felt = true;     ///< builds that axle, bearings or warmth forbid are no answers
    bool explain = true;  ///< find the blame where nothing fits
    Patience patience;
    Watch watch;
};

/// The best builds from setup.choosing.box by setup.choosing.goals. Every build that the box allows
/// counts, and an answer breaks no limit (see Limit). Order: points, then fewest shims, then fewest
/// changes from `setup`, then the order of the box. `setup` must be free of conflicts.
Choice choose(const Setup& setup, const ChooseOptions& options = {});

/// What was found out about what is in the way where nothing fits, but for the obstacles and the
/// addition themselves, in sentences.
std::vector<std::string> found_out(const Blame& blame);

/// What the user must know of a choice before they trust it, in sentences; none if nothing.
std::vector<std::string> caveats(const Choice& choice);

/// The answer that `build` is, seen from `today`.
Answer answer_of(const Setup& today, const Setup& build, std::optional<double> room,
                 LengthUnit shown);

}  // namespace podwright
