#include "gap/depth.hpp"

#include <algorithm>
#include <vector>

#include "gap/patch.hpp"

namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;

constexpr int most_steps = 4000;
constexpr double share = 0.01;  // of a depth, to which it needs no better be known

/// Best-first search: a piece holds nothing deeper than its middle by more than its radius.
template <class Piece>
class DepthSearch {
public:
    DepthSearch(const Form& other, const Frame& to_other, double tolerance, Gap& deep)
        : other_(other), to_other_(to_other), tolerance_(tolerance), deep_(deep) {}

    /// A piece within `radius` of `middle`, which is on the surface if `there`.
    void push(const Piece& piece, const dvec3& middle, double radius, bool there = true) {
        const SurfacePoint foot = signed_distance(other_, to_other_.back(middle));
        if (there && foot.distance < std::min(deep_.gap, 0.0)) {
            deep_.gap = foot.distance;
            deep_.a = middle;
            deep_.b = to_other_(foot.at);
            deep_.normal = glm::normalize(deep_.a - deep_.b);
        }
        const double most = -foot.distance + radius;
        if (most <= enough()) return;
        heap_.push_back({piece, most});
        std::push_heap(heap_.begin(), heap_.end(), less);
    }

    template <class Halve>
    void run(const Halve& halve) {
        for (int steps = 0; !heap_.empty() && steps < most_steps; ++steps) {
            std::pop_heap(heap_.begin(), heap_.end(), less);
            const Waiting w = heap_.back();
            heap_.pop_back();
            if (w.most <= enough()) {
                heap_.clear();
                break;
            }
            halve(w.piece);
        }
        const double sure = enough() - deepest();
        const double left = heap_.empty() ? sure : heap_.front().most + deep_.gap;
        deep_.within = std::max({deep_.within, sure, left});
    }

private:
    struct Waiting {
        Piece piece;
        double most;
    };
    static bool less(const Waiting& x, const Waiting& y) { return x.most < y.most; }
    double deepest() const { return std::max(0.0, -deep_.gap); }
    /// Nothing is looked for that is no deeper than this.
    double enough() const { return deepest() + std::max(tolerance_, share * deepest()); }

    const Form& other_;
    const Frame& to_other_;
    double tolerance_;
    Gap& deep_;
    std::vector<Waiting> heap_;
};

void search_wall(const Form& form, DepthSearch<Cell> search) {
    const auto push = [&](const Cell& cell) { search.push(cell, cell.centre, cell.radius); };
    for (const Cell& cell : cells_of(form)) push(cell);
    search.run([&](const Cell& cell) {
        Cell first, second;
        halve(cell, cell.length_s() >= cell.length_t(), first, second);
        push(first);
        push(second);
    });
}

/// A rectangle on the plane of an end face.
struct Tile {
    dvec2 low, high;
};

void search_face(const Form& form, double x, DepthSearch<Tile> search) {
    const auto push = [&](const Tile& tile) {
        const dvec2 middle = (tile.low + tile.high) * 0.5;
        const double radius = glm::length(tile.high - tile.low) / 2;
        const Foot foot = signed_foot(form.region, middle);
        if (foot.distance <= radius) search.push(tile, {x, middle}, radius, foot.distance <= 0);
    };
    push({form.region.low, form.region.high});
    search.run([&](const Tile& tile) {
        const int along = tile.high.x - tile.low.x > tile.high.y - tile.low.y ? 0 : 1;
        Tile first = tile, second = tile;
        first.high[along] = second.low[along] = (tile.low[along] + tile.high[along]) / 2;
        push(first);
        push(second);
    });
}

}  // namespace

void deepest_of_surface(const Form& form, const Form& other, const Frame& to_other,
                        double tolerance, Gap& deep) {
    search_wall(form, {other, to_other, tolerance, deep});
    if (form.kind != Form::Kind::prism) return;
    for (const double x : {form.low, form.high})
        search_face(form, x, {other, to_other, tolerance, deep});
}

}  // namespace podwright
