#pragma once

#include <optional>
#include <string>
#include <vector>

#include "choose/build.hpp"
#include "choose/choose.hpp"
#include "choose/wear.hpp"

// Holders and pinion for every run of a day on which the tyres shrink.
namespace podwright {

struct RunPlan {
    int run = 1;
    Setup setup;                 ///< with the diameters before this run
    std::vector<Step> steps;     ///< from the run before; from the setup of today for the first
    int changes = 0;             ///< holders and pinions changed before it
    double points = 0;           ///< lost outside of bands; a thousand for each unit beyond a limit
    Limits broken;               ///< limits that no choice keeps
    std::optional<double> room;  ///< smallest margin of the clearances; nothing if not measured
};

struct DayPlan {
    Wear left, right;
    std::vector<RunPlan> runs;
    double points = 0;
    double fixed_points = 0;  ///< of them those for what stays: shims, wheels, what sets the float
    int changes = 0;
    int runs_asked = 0;    ///< more than runs.size() if the tyres are down to the rim before
    bool stopped = false;  ///< cut short by the watch: clearances of some runs were not looked at
};

/// The best plan over the whole day, from setup.choosing: first the fewest points lost outside of
/// the goals' bands and of the limits over all runs, then the fewest changes, then the least
/// distance from the targets. Holders and pinions are those of the box; all else stays. A choice
/// whose clearances do not hold is only made where no other does.
DayPlan plan_day(const Setup& setup, const ChooseOptions& options = {});

/// What the user must know of a plan before they trust it, in sentences; none if nothing.
std::vector<std::string> caveats(const DayPlan& plan, LengthUnit shown);

/// How many of its runs break a limit.
int broken_runs(const DayPlan& plan);

/// What a plan is compared by.
struct PlanCost {
    std::int64_t points = 0;  ///< millionths
    std::int64_t changes = 0;
    std::int64_t distance = 0;  ///< from the targets, in millionths of a point
    // The check sees the 0 with which a compared order is compared.
    auto operator<=>(const PlanCost&) const = default;  // NOLINT(modernize-use-nullptr)
    PlanCost operator+(const PlanCost& o) const {
        return {points + o.points, changes + o.changes, distance + o.distance};
    }
};

/// The choices of a day and what each costs on each run, without clearances.
class DayTable {
public:
    DayTable(const Setup& setup, const Wear& left, const Wear& right, int runs);

    std::size_t states() const { return lists_.holders[0].size() * right_count() * gear_count(); }
    int runs() const { return static_cast<int>(costs_.size()); }
    const PlanCost& cost(int run, std::size_t state) const;
    void forbid(int run, std::size_t state);
    /// Points in the cost of every state of that run, for what no choice changes.
    std::int64_t fixed(int run) const { return fixed_[static_cast<std::size_t>(run) - 1]; }
    /// Parts that differ, 0 to 3.
    int changes(std::size_t from, std::size_t to) const;
    int changes_from_today(std::size_t state) const;
    /// The setup of that run (from 1).
    Setup setup(int run, std::size_t state) const;

    /// One state for each run, of the least sum of costs and changes; by dynamic programming.
    std::vector<std::size_t> best() const;

private:
    std::size_t right_count() const { return lists_.holders[1].size(); }
    std::size_t gear_count() const { return lists_.gears.size(); }
    void fill(int run);

    Setup today_;
    Wear left_, right_;
    Lists lists_;
    std::vector<std::int64_t> fixed_;           ///< by run - 1
    std::vector<std::vector<PlanCost>> costs_;  ///< by run - 1 and state
};

}  // namespace podwright
