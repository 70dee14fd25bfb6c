#include <algorithm>
#include <queue>
#include <utility>

#include "choose/search.hpp"

// How builds are taken from the lists, the cheapest first.
namespace podwright {

namespace {

constexpr int any_budget = 1 << 28;
constexpr std::size_t most_remembered = 1'000'000;  // holders of opened stacks: some 80 MB

}  // namespace

class Search::Run {
public:
    Run(Search& search, const Query& query) : search_(search), query_(query) {
        if (query.most_changes >= 0) sort_by_changes();
        begin();
    }

    std::vector<Found> all() {
        for (std::size_t taken = 0; !queue_.empty() && result_.size() < query_.most; ++taken) {
            if (taken % 256 == 255 && query_.go_on && !query_.go_on()) {
                search_.stopped_ = true;
                break;
            }
            const Item item = queue_.top();
            queue_.pop();
            take(item);
        }
        return std::move(result_);
    }

private:
    /// In the queue: a stack yet to be opened, a whole build yet to be looked at, one that was
    /// probed and put back, or a judged one.
    struct Item {
        Cost cost;
        enum class Kind { stack, build, probed, judged } kind;
        std::size_t at;     ///< wheels, opened or seen
        std::size_t k;      ///< of the stream; place among the holders
        std::size_t gears;  ///< place among the gears
        int changes;        ///< of the stream; -1: any
    };
    /// A whole build, with how many points for what only a whole build shows its cost holds.
    struct Seen {
        Build build;
        Cost cost;
        std::int64_t floor;
    };

    Stream& stream_of(const Wheels& wheels, int changes) {
        Kin& kin = search_.kin_[wheels.kin];
        return changes < 0 ? kin.any : kin.by_changes[static_cast<std::size_t>(changes)];
    }

    int budget_of(const Wheels& wheels, int changes) const {
        return changes < 0 ? any_budget : query_.most_changes - wheels.cost.changes - changes;
    }

    void sort_by_changes() {
        const auto most = static_cast<std::size_t>(query_.most_changes);
        for (Kin& kin : search_.kin_) {
            if (!kin.by_changes.empty() && kin.by_changes.size() > most) continue;
            kin.by_changes.assign(most + 1, {});
            for (const Stacked& stacked : kin.stacks)
                if (stacked.cost.changes <= query_.most_changes)
                    kin.by_changes[static_cast<std::size_t>(stacked.cost.changes)].rest.push_back(
                        stacked);
            for (Stream& stream : kin.by_changes)
                std::make_heap(stream.rest.begin(), stream.rest.end(), Later{});
        }
    }

    /// The first stack of every pair of wheels.
    void begin() {
        inside_.resize(search_.wheels_.size());
        for (std::size_t at = 0; at < search_.wheels_.size(); ++at) {
            const Wheels& wheels = search_.wheels_[at];
            for (int changes = query_.most_changes < 0 ? -1 : 0;
                 changes <= std::max(-1, query_.most_changes - wheels.cost.changes); ++changes) {
                inside_[at].resize(static_cast<std::size_t>(changes) + 2);
                inside_[at].back() = search_.least_inside(wheels, budget_of(wheels, changes));
                if (inside_[at].back()) push_stack(at, 0, changes);
            }
        }
    }

    void push_stack(std::size_t at, std::size_t k, int changes) {
        const Wheels& wheels = search_.wheels_[at];
        const Cost& inside = *inside_[at][static_cast<std::size_t>(changes) + 1];
        if (const Stacked* stacked = stream_of(wheels, changes).at(k))
            queue_.push(
                {wheels.cost + stacked->cost + inside, Item::Kind::stack, at, k, 0, changes});
    }

    bool push_build(std::size_t at, std::size_t held, std::size_t from) {
        const Opened& o = opened_[at];
        const Wheels& wheels = search_.wheels_[o.wheels];
        const auto gears = search_.next_gears(o, held, from);
        if (gears)
            queue_.push({wheels.cost + o.stack.cost + o.held[held].cost +
                             search_.geared_[wheels.gears][*gears].cost,
                         Item::Kind::build, at, held, *gears, 0});
        return gears.has_value();
    }

    /// The holders from `held` on, up to the first with which any gears go.
    void push_first(std::size_t at, std::size_t held) {
        while (held < opened_[at].held.size() && !push_build(at, held, 0)) ++held;
    }

    /// Holders of stacks are forgotten where there are too many to hold, and found again.
    void remember(Opened& opened) {
        if (remembered_ > most_remembered) {
            for (Opened& old : opened_)
                if (&old != &opened) std::vector<Held>().swap(old.held);
            remembered_ = 0;
        }
        remembered_ += opened.held.size();
    }

    const Opened& recall(std::size_t at) {
        Opened& opened = opened_[at];
        if (opened.held.empty()) {
            opened = search_.open(opened.wheels, opened.stack, opened.budget);
            remember(opened);
        }
        return opened;
    }

    void put_back(const Seen& seen, Item::Kind kind) {
        queue_.push({seen.cost, kind, seen_.size(), 0, 0, 0});
        seen_.push_back(seen);
    }

    /// What it costs in the end; into the result at once where it costs no more than was known.
    void judge(Seen seen, Setup setup) {
        const auto more = query_.judge(setup);
        if (!more) return;
        seen.cost.points += *more - seen.floor;
        if (*more <= seen.floor)
            result_.push_back({seen.build, seen.cost, std::move(setup)});
        else
            put_back(seen, Item::Kind::judged);
    }

    void take(const Item& item) {
        const bool is_new = item.kind == Item::Kind::stack || item.kind == Item::Kind::build;
        if (is_new && !search_.cut_short_) search_.cut_short_ = query_.enough && query_.enough();
        if (is_new && search_.cut_short_) return;
        switch (item.kind) {
            case Item::Kind::stack: return take_stack(item);
            case Item::Kind::build: return take_build(item);
            case Item::Kind::probed: return take_probed(seen_[item.at]);
            case Item::Kind::judged: {
                const Seen& seen = seen_[item.at];
                result_.push_back({seen.build, seen.cost, search_.lists_.setup(seen.build)});
            }
        }
    }

    void take_stack(const Item& item) {
        const Wheels& wheels = search_.wheels_[item.at];
        const Stacked stacked = *stream_of(wheels, item.changes).at(item.k);
        // And so are all further stacks of these wheels.
        if (search_.sunk(item.at, stacked)) return;
        push_stack(item.at, item.k + 1, item.changes);
        opened_.push_back(search_.open(item.at, stacked, budget_of(wheels, item.changes)));
        remember(opened_.back());
        push_first(opened_.size() - 1, 0);
    }

    void take_build(const Item& item) {
        const Opened& opened = recall(item.at);
        push_build(item.at, item.k, item.gears + 1);
        // The next holders enter with the first gears that go with these.
        if (search_.next_gears(opened, item.k, 0) == item.gears) push_first(item.at, item.k + 1);
        ++search_.looked_at_;
        Seen seen{search_.build_of(opened, item.k, item.gears), item.cost,
                  opened.stack.floor + opened.held[item.k].floor};
        Setup setup = search_.lists_.setup(seen.build);
        const auto least = query_.probe ? query_.probe(setup) : seen.floor;
        if (!least) return;
        if (*least <= seen.floor) return judge(seen, std::move(setup));
        seen.cost.points += *least - seen.floor;
        seen.floor = *least;
        put_back(seen, Item::Kind::probed);
    }

    void take_probed(const Seen& seen) {
        if (search_.cut_short_ && judged_late_++ >= query_.last_judged) return;
        judge(seen, search_.lists_.setup(seen.build));
    }

    Search& search_;
    const Query& query_;
    std::priority_queue<Item, std::vector<Item>, Later> queue_;
    std::vector<std::vector<std::optional<Cost>>> inside_;  ///< by wheels and 1 + changes
    std::vector<Opened> opened_;
    std::vector<Seen> seen_;
    std::vector<Found> result_;
    std::size_t remembered_ = 0;   ///< holders of opened stacks
    std::size_t judged_late_ = 0;  ///< since it was enough
};

std::vector<Search::Found> Search::run(const Query& query) {
    cut_short_ = false;
    return Run(*this, query).all();
}

}  // namespace podwright
