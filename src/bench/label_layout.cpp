#include "bench/label_layout.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

namespace podwright {

namespace {

constexpr float apart = 3;             // between labels, units of layout
constexpr float longest_touching = 6;  // a label this near its anchor needs no leader
// Labels of two dimensions side by side would read as one.
constexpr float side_by_side = 8;
// By how much a label is nearer to its own dimension line than to any other; where it stood last,
// by less, so that it does not come and go.
constexpr float own_by = 2.5F, own_by_still = 1;
constexpr float at_line = 4;  // this near to a line a label reads as its value, leader or not

// Costs, in units of "one seat further down the list".
constexpr float cost_of_leader = 2;
constexpr float cost_of_way = 0.05F;         // a unit of leader length
constexpr float cost_of_cover = 14;          // all of the label lies on what is better not covered
constexpr float cost_of_cover_at_line = 24;  // the same for a dimension's, which says nothing of it
constexpr float cost_of_line = 0.12F;        // a unit of line under the label
constexpr float cost_of_line_at_line = 0.25F;  // for a dimension's: it stands beyond that line
constexpr float cost_of_anchor = 5;            // what another label speaks of lies under it
constexpr float staying = 3;                   // what another place must be better by
constexpr float staying_at_line = 6;           // the same for a dimension's label
constexpr float step_at_line = 0.5F;           // from one of its seats, which are many, to the next
constexpr float most_cover_on_leader = 0.7F;
constexpr float cost_near_other = 12;  // it touches what another dimension measures
constexpr float near_other = 16;       // from there on it costs nothing
constexpr float line_kept = 20;        // of a line that its own label breaks

/// One way in which a label might stand.
struct Candidate {
    PixelBox box;
    std::optional<Segment> leader;
    float cost = 0;
};

class Table {
public:
    Table(std::span<const LabelWish> wishes, const LabelGround& ground, const LabelMemory& memory)
        : wishes_(wishes), ground_(ground), memory_(memory), placed_(wishes.size()) {}

    /// Places one label as well as the others allow; true if it stands.
    bool seat(std::size_t i) {
        placed_[i] = {};
        if (!line_is_free(i)) return false;
        for (std::size_t size = 0; size < wishes_[i].sizes.size(); ++size) {
            std::optional<Candidate> best;
            try_seats(i, size, best);
            if (wishes_[i].roams && (!best || best->cost > worth_roaming)) try_rings(i, size, best);
            if (!best && wishes_[i].roams) try_grid(i, size, best);
            if (!best) continue;
            placed_[i] = {true, size, best->box, best->leader};
            return true;
        }
        return false;
    }

    const std::vector<PlacedLabel>& placed() const { return placed_; }
    void take_away(std::size_t i) { placed_[i] = {}; }
    void put_back(std::size_t i, const PlacedLabel& label) { placed_[i] = label; }

private:
    static constexpr float worth_roaming = 6;

    float px(float units) const { return units * ground_.unit; }

    void try_seats(std::size_t i, std::size_t size, std::optional<Candidate>& best) const {
        const LabelWish& wish = wishes_[i];
        const auto last = memory_.find(wish.name);
        if (last != memory_.end()) {
            // Where it stood: nothing but a clearly better place moves it.
            const ImVec2 centre = wish.anchor + last->second;
            const float bonus = wish.line ? staying_at_line : staying;
            bool leader = true;
            float cost = 0;
            if (const auto seat = seat_near(wish, centre); seat != wish.seats.end()) {
                leader = seat->leader;
                cost =
                    static_cast<float>(seat - wish.seats.begin()) * (wish.line ? step_at_line : 1);
                consider(i, size, seat->centre, leader, cost - bonus, best);
            } else if (wish.roams) {
                cost = static_cast<float>(wish.seats.size());
                consider(i, size, centre, leader, cost - bonus, best);
            }
        }
        const float step = wish.line ? step_at_line : 1;
        float cost = 0;
        for (const Seat& seat : wish.seats) {
            consider(i, size, seat.centre, seat.leader, cost, best);
            cost += step;
        }
    }

    std::vector<Seat>::const_iterator seat_near(const LabelWish& wish, ImVec2 centre) const {
        const auto away = [&](const Seat& seat) { return size_of(seat.centre - centre); };
        const auto nearest =
            std::min_element(wish.seats.begin(), wish.seats.end(),
                             [&](const Seat& a, const Seat& b) { return away(a) < away(b); });
        if (nearest == wish.seats.end() || away(*nearest) > px(14)) return wish.seats.end();
        return nearest;
    }

    /// Round the anchor, ever farther.
    void try_rings(std::size_t i, std::size_t size, std::optional<Candidate>& best) const {
        const LabelWish& wish = wishes_[i];
        constexpr int around = 16;
        const ImVec2 half = wish.sizes[size] * 0.5F;
        const auto base = static_cast<float>(wish.seats.size());
        for (float reach : {22.0F, 40.0F, 64.0F, 96.0F, 140.0F, 200.0F})
            for (int k = 0; k < around; ++k) {
                const float angle = -1.5707963F + 6.2831853F * static_cast<float>(k) / around;
                const ImVec2 way{std::cos(angle), std::sin(angle)};
                const ImVec2 off{way.x * (half.x + px(reach)), way.y * (half.y + px(reach))};
                consider(i, size, wish.anchor + off, true, base, best);
            }
    }

    /// Anywhere: the last resort, on a full picture.
    void try_grid(std::size_t i, std::size_t size, std::optional<Candidate>& best) const {
        const ImVec2 whole = wishes_[i].sizes[size];
        const ImVec2 room = ground_.frame.size() - whole;
        if (room.x < 0 || room.y < 0) return;
        const int columns = 1 + static_cast<int>(room.x / std::max(px(12), whole.x / 4));
        const int rows = 1 + static_cast<int>(room.y / (whole.y / 2));
        const auto base = static_cast<float>(wishes_[i].seats.size());
        for (int row = 0; row <= rows; ++row)
            for (int column = 0; column <= columns; ++column) {
                const ImVec2 low =
                    ground_.frame.low +
                    ImVec2{room.x * static_cast<float>(column) / static_cast<float>(columns),
                           room.y * static_cast<float>(row) / static_cast<float>(rows)};
                consider(i, size, low + whole * 0.5F, true, base, best);
            }
    }

    void consider(std::size_t i, std::size_t size, ImVec2 centre, bool leader, float cost,
                  std::optional<Candidate>& best) const {
        if (best && cost >= best->cost) return;  // it only grows from here
        const LabelWish& wish = wishes_[i];
        Candidate candidate{box_about(centre, wish.sizes[size]), {}, cost};
        if (!ground_.frame.holds(candidate.box) || covers_fixed(candidate.box)) return;
        if (leader) add_leader(wish, candidate);
        if (best && candidate.cost >= best->cost) return;
        if (collides(i, candidate)) return;
        // On a leader a dimension's label keeps off the model: better none.
        if (wish.line && candidate.leader && ground_.cover &&
            ground_.cover->share(candidate.box) > most_cover_on_leader)
            return;
        candidate.cost += cover(i, candidate.box);
        if (!best || candidate.cost < best->cost) best = candidate;
    }

    void add_leader(const LabelWish& wish, Candidate& candidate) const {
        const ImVec2 end = candidate.box.nearest(wish.anchor);
        const ImVec2 way = end - wish.anchor;
        const float length = size_of(way);
        if (length < wish.anchor_clear + px(longest_touching)) return;
        candidate.leader = Segment{wish.anchor + unit(way) * wish.anchor_clear, end};
        candidate.cost += cost_of_leader + cost_of_way * length / ground_.unit;
    }

    bool covers_fixed(const PixelBox& box) const {
        return std::any_of(ground_.fixed.begin(), ground_.fixed.end(),
                           [&](const PixelBox& f) { return f.overlaps(box); });
    }

    /// How much nearer to its own line than to another's it must stand.
    float clearly(const LabelWish& wish) const {
        return px(memory_.contains(wish.name) ? own_by_still : own_by);
    }

    /// Whether a label of `wish` in that box, on that leader, would be taken for one of `other`.
    bool is_mistaken(const LabelWish& wish, const PixelBox& box,
                     const std::optional<Segment>& leader, const LabelWish& other) const {
        if (!wish.line || !other.line) return false;
        if (leader && cross_each_other(*leader, *other.line)) return true;
        if (length_inside(box, *other.line) > 0) return true;
        // A leader tells where it belongs, unless it stands right at another's line.
        const float own = leader ? px(at_line) : distance_between(box, *wish.line);
        return distance_between(box, other.measured) < own + clearly(wish);
    }

    /// Whether no label that stands would be taken for this one's.
    bool line_is_free(std::size_t i) const {
        if (!wishes_[i].line) return true;
        for (std::size_t j = 0; j < placed_.size(); ++j)
            if (j != i && placed_[j].shown &&
                is_mistaken(wishes_[j], placed_[j].box, placed_[j].leader, wishes_[i]))
                return false;
        return true;
    }

    /// What another label has to keep off.
    PixelBox wide(std::size_t i, std::size_t j, const PixelBox& box) const {
        const bool both = wishes_[i].line && wishes_[j].line;
        const ImVec2 air{px(both ? side_by_side : apart), px(apart)};
        return {box.low - air, box.high + air};
    }

    bool collides(std::size_t i, const Candidate& c) const {
        if (c.leader)
            for (const PixelBox& f : ground_.fixed)
                if (length_inside(f, *c.leader) > 0) return true;
        for (std::size_t j = 0; j < placed_.size(); ++j) {
            const PlacedLabel& other = placed_[j];
            if (j == i || !other.shown) continue;
            if (wide(i, j, c.box).overlaps(other.box)) return true;
            if (is_mistaken(wishes_[i], c.box, c.leader, wishes_[j])) return true;
            if (c.leader && length_inside(other.box.grown(px(1)), *c.leader) > 0) return true;
            if (!other.leader) continue;
            if (length_inside(c.box.grown(px(1)), *other.leader) > 0) return true;
            if (c.leader && cross_each_other(*c.leader, *other.leader)) return true;
        }
        return false;
    }

    float cover(std::size_t i, const PixelBox& box) const {
        const LabelWish& wish = wishes_[i];
        float cost = ground_.cover ? (wish.line ? cost_of_cover_at_line : cost_of_cover) *
                                         ground_.cover->share(box)
                                   : 0;
        if (wish.line)
            for (std::size_t j = 0; j < wishes_.size(); ++j)
                if (j != i && wishes_[j].line)
                    cost += cost_near_other *
                            std::max(0.0F, 1 - distance_between(box, wishes_[j].measured) /
                                                   px(near_other));
        const PixelBox about = box.grown(px(apart));
        for (std::size_t j = 0; j < wishes_.size(); ++j)
            if (j != i && about.holds(wishes_[j].anchor)) cost += cost_of_anchor;
        const float line_cost = wish.line ? cost_of_line_at_line : cost_of_line;
        for (const Segment& line : ground_.lines)
            cost += line_cost * length_inside(box, line) / ground_.unit;
        // That it breaks its own line does no harm while enough of that remains.
        if (const auto& own = wish.line) {
            const float broken = length_inside(box, *own);
            if (broken < size_of(own->to - own->from) - px(line_kept))
                cost -= line_cost * broken / ground_.unit;
        }
        return cost;
    }

    std::span<const LabelWish> wishes_;
    const LabelGround& ground_;
    const LabelMemory& memory_;
    std::vector<PlacedLabel> placed_;
};

/// Where a label found no room, a less important one that stands is taken away for it, if both
/// find room then.
void make_room(Table& table, const std::vector<std::size_t>& order, std::size_t late) {
    const std::size_t i = order[late];
    for (std::size_t before = late; before-- > 0;) {
        const std::size_t other = order[before];
        if (!table.placed()[other].shown) continue;
        const PlacedLabel kept = table.placed()[other];
        table.take_away(other);
        if (table.seat(i) && table.seat(other)) return;
        table.take_away(i);
        table.put_back(other, kept);
    }
}

/// Those that found no room, in order.
std::vector<std::size_t> left_out_of(const Table& table, const std::vector<std::size_t>& order) {
    std::vector<std::size_t> out;
    for (std::size_t i : order)
        if (!table.placed()[i].shown) out.push_back(i);
    return out;
}

/// Seats all. Where some find no room, the first of them chooses before all others instead, a few
/// times over: more may fit then. No more important label goes for it.
std::vector<PlacedLabel> seat_all(std::span<const LabelWish> wishes, const LabelGround& ground,
                                  const LabelMemory& memory, std::vector<std::size_t> order) {
    constexpr int most_tries = 14;
    std::vector<PlacedLabel> best;
    std::vector<std::size_t> least;
    for (int attempt = 0; attempt < most_tries; ++attempt) {
        Table table(wishes, ground, memory);
        for (std::size_t late = 0; late < order.size(); ++late)
            if (!table.seat(order[late])) make_room(table, order, late);
        const std::vector<std::size_t> out = left_out_of(table, order);
        const auto rank_of = [&](const std::vector<std::size_t>& some) {
            int rank = std::numeric_limits<int>::max();
            for (std::size_t i : some) rank = std::min(rank, wishes[i].rank);
            return rank;
        };
        if (best.empty() || (out.size() < least.size() && rank_of(out) >= rank_of(least))) {
            best = table.placed();
            least = out;
        }
        if (out.empty()) break;
        const auto first = std::find(order.begin(), order.end(), out.front());
        std::rotate(order.begin(), first, first + 1);
        // The others in another order each time, so that not the same ones stand in the way again.
        if (attempt > 0 && order.size() > 2)
            std::rotate(order.begin() + 1, order.begin() + 2, order.end());
    }
    return best;
}

}  // namespace

LabelLayout lay_out(std::span<const LabelWish> wishes, const LabelGround& ground,
                    LabelMemory& memory) {
    std::vector<std::size_t> order(wishes.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return wishes[a].rank < wishes[b].rank; });
    LabelLayout layout;
    layout.labels = seat_all(wishes, ground, memory, std::move(order));
    LabelMemory next;
    for (std::size_t i = 0; i < wishes.size(); ++i) {
        const PlacedLabel& label = layout.labels[i];
        if (label.shown)
            next[wishes[i].name] = label.box.centre() - wishes[i].anchor;
        else
            ++layout.left_out;
    }
    memory = std::move(next);
    return layout;
}

}  // namespace podwright
