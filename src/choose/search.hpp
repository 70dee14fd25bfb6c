#pragma once

#include <functional>
#include <initializer_list>
#include <optional>
#include <utility>
#include <vector>

#include "choose/build.hpp"
#include "choose/gear_room.hpp"
#include "choose/key_rules.hpp"
#include "choose/limit.hpp"
#include "choose/room_floor.hpp"

namespace podwright {

/// What is known of the clearances that a search's judge looks at.
struct KnownRoom {
    const RoomFloor* floor = nullptr;  ///< what shims say of it
    const GearRoom* gears = nullptr;   ///< gears with which something comes too close
    Meter* meter = nullptr;            ///< sees which wheels come too close to the ground
};

/// Best first over everything that the lists can make. A build's cost is a sum of shares: wheels
/// and tyres; shims and what sets the float; holders; gears. The shares of the stack and of the
/// gears are exact once the wheels are known; that of the holders is bounded from below over every
/// stack until the stack is known, too. So what is taken from the queue never costs more than what
/// is still in it, and the first builds that are taken whole are the best, in order.
class Search {
public:
    /// `today`, `lists` and what `rooms` points at must outlive the search. `soft` limits cost
    /// instead of forbidding.
    Search(const Setup& today, const Lists& lists, Limits soft = {}, KnownRoom rooms = {});

    struct Found {
        Build build;
        Cost cost;
        Setup setup;
    };
    /// What only a whole build shows: points that it costs in addition (>= 0), or nothing if it is
    /// forbidden.
    using Judge = std::function<std::optional<std::int64_t>(const Setup&)>;
    /// No more than the judge will ask of the build, or nothing if that will forbid it; cheaper to
    /// know.
    using Probe = std::function<std::optional<std::int64_t>(const Setup&)>;

    struct Query {
        std::size_t most = 10;
        int most_changes = -1;  ///< of an answer; < 0: any
        Judge judge;
        Probe probe;                  ///< may be empty
        std::function<bool()> go_on;  ///< asked often; false stops
        /// Once it is true nothing new is looked at: what was seen so far is put in order, of which
        /// no more than `last_judged` builds are judged yet. May be empty.
        std::function<bool()> enough;
        std::size_t last_judged = 300;
    };
    /// The cheapest builds in order; fewer where there are no more, or where it was stopped. Where
    /// it was enough, the cheapest of those that were seen.
    std::vector<Found> run(const Query& query);

    bool stopped() const { return stopped_; }
    std::size_t looked_at() const { return looked_at_; }  ///< whole builds
    std::size_t begun() const { return begun_; }          ///< stacks with each of their holders

private:
    /// Of a heap with the cheapest on top.
    struct Later {
        template <class T>
        bool operator()(const T& a, const T& b) const {
            return b.cost < a.cost;
        }
    };
    /// A pair of wheels with tyres.
    struct Wheels {
        std::size_t left, right;
        std::size_t kin;    ///< those with the same insets and widths
        std::size_t grip;   ///< holders that suit its tyres
        std::size_t gears;  ///< gears in the order that suits its tyres
        Cost cost;
    };
    struct Stacked {
        Cost cost;  ///< with the floor
        std::uint32_t pair, setting;
        std::int64_t floor;  ///< with a level axle
    };
    /// Stacks in order, sorted as far as they were asked for.
    struct Stream {
        std::vector<Stacked> sorted, rest;
        const Stacked* at(std::size_t k);
    };
    /// Wheels that make the same stacks.
    struct Kin {
        Rolling left, right;
        std::vector<Stacked> stacks;
        Stream any;
        std::vector<Stream> by_changes;
        double track_low = 0, track_high = 0, right_low = 0, right_high = 0;
        double float_low = 0, float_high = 0;
    };
    struct Held {
        Cost cost;
        std::size_t left, right;
        int level;           ///< index of its height where both sides are alike, else -1
        double axle_z;       ///< at the gears; known only once the stack is
        double lean;         ///< of the axle in the pod, rad, without sign
        std::int64_t floor;  ///< in the cost: what the lean takes off the stack's, <= 0
    };
    struct Geared {
        Cost cost;
        std::size_t gears;
    };
    struct Gearing {
        double distance;
        double spur;  ///< outside diameter
        std::int64_t points;
    };
    /// One stack on one pair of wheels, with its holders in order.
    struct Opened {
        std::size_t wheels;
        Stacked stack;
        std::vector<Held> held;  ///< see recall()
        int budget;
    };
    class Run;

    void judge_singles(const KeyRules& rules);
    void judge_gears(const KeyRules& rules);
    double most_lean() const;
    void list_wheels();
    void fill(Kin& kin);
    std::size_t grip_of(const Wheels& wheels);
    std::size_t gears_of(double diameters, double worn);
    bool reaches(const Held& held, std::size_t gears) const;
    std::optional<Cost> least_inside(const Wheels& wheels, int budget) const;
    Stack stack_of_sums(const Kin& kin, const Stacked& stacked) const;
    Opened open(std::size_t at, const Stacked& stacked, int budget);
    /// The first gears from `from` on that go with the holders.
    std::optional<std::size_t> next_gears(const Opened& opened, std::size_t at,
                                          std::size_t from) const;
    Build build_of(const Opened& opened, std::size_t held, std::size_t gears) const;

    /// Whether one of these wheels comes too close to the ground with whatever else is built.
    bool sunk(std::size_t at, const Stacked& stacked);

    const Ask& ask(Term term) const { return asks_[static_cast<std::size_t>(term)]; }
    /// Points of all of them together; nothing if a limit forbids one.
    std::optional<std::int64_t> points_of(
        std::initializer_list<std::pair<Term, double>> values) const;

    const Setup& today_;
    const Lists& lists_;
    Limits soft_;
    KnownRoom rooms_;
    double most_lean_ = 0;  ///< of the axle in the pod with holders that the limit on roll allows
    std::vector<Ask> asks_;
    std::vector<bool> good_rolling_[2], good_holder_[2], good_setting_;
    std::vector<std::optional<Gearing>> gearing_;  ///< nothing: forbidden
    std::vector<double> levels_;                   ///< heights of the axle in the pod
    std::vector<std::vector<bool>> reach_;         ///< by level and gears
    std::vector<Wheels> wheels_;
    std::vector<std::optional<bool>> sunk_;  ///< by wheels, as far as it was asked for
    std::vector<Kin> kin_;
    std::vector<std::vector<Held>> grips_;
    std::vector<std::vector<Geared>> geared_;
    bool stopped_ = false;
    bool cut_short_ = false;  ///< the last run, as it was enough
    std::size_t looked_at_ = 0;
    std::size_t begun_ = 0;
};

}  // namespace podwright
