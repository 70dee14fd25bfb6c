#include "gap/general.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "gap/depth.hpp"
#include "gap/patch.hpp"

namespace podwright {

namespace {

using glm::dvec3;

constexpr double finest = 1e-10;  // mm
constexpr double seen = 1e-9;     // mm; deeper is overlap
constexpr double suspect = 2e-4;  // mm; nearer may be overlap whose inside was not met
constexpr int most_steps = 20000;
constexpr int polish_steps = 400;

/// What is good enough, mm: where many pairs are almost as near as the nearest, the last digits of
/// certainty cost the most.
double tolerance_after(int steps) {
    if (steps < 300) return finest;
    if (steps < 1000) return 1e-8;
    if (steps < 2000) return 1e-6;
    return steps < 3000 ? 1e-5 : 1e-4;
}

enum class Against { walls, cap_of_a, cap_of_b };

/// A pair of wall cells, or a wall cell and an end face of the other form.
struct Work {
    Cell a, b;  // the cell of the form whose cap is meant is empty
    Against kind = Against::walls;
    double face = 0, sense = 1;  // x of the cap and the way it looks
    double bound = -1e300;
    dvec3 way{0};          // along which it is bounded
    bool aligned = false;  // halve what varies most along it; otherwise what is largest
};

/// Closest points of two segments, either of which may be one point.
void closest_of_segments(const dvec3& p, const dvec3& p_end, const dvec3& q, const dvec3& q_end,
                         dvec3& on_p, dvec3& on_q) {
    const dvec3 u = p_end - p, v = q_end - q, w = p - q;
    const double a = glm::dot(u, u), b = glm::dot(u, v), c = glm::dot(v, v);
    const double d = glm::dot(u, w), e = glm::dot(v, w);
    const auto share = [](double over, double under) {
        return under > 0 ? std::clamp(over / under, 0.0, 1.0) : 0.0;
    };
    const double area = a * c - b * b;
    double s = area > 1e-14 * a * c ? std::clamp((b * e - c * d) / area, 0.0, 1.0) : 0.5;
    const double t = share(b * s + e, c);
    s = share(b * t - d, a);
    on_p = p + u * s;
    on_q = q + v * t;
}

class Search {
public:
    Search(const Form& a, const Form& b, const Frame& to_b, Gap& best)
        : a_(a), b_(b), to_b_(to_b), best_(best), limit_(std::max(best.gap, seen)) {}

    void run() {
        if (out_of_reach()) return;
        approach();
        if (!overlap_) fill();
        while (!heap_.empty() && steps_ < most_steps) {
            const bool doubtful = limit_ < suspect && !searched_depth_;
            if ((overlap_ || doubtful) && measure_depth()) return;
            step();
        }
        if (overlap_ && measure_depth()) return;
        if (limit_ >= best_.gap) return;
        polish();
        if (!heap_.empty()) left_ = heap_.front().bound;
        best_.gap = limit_;
        best_.a = on_a_;
        best_.b = on_b_;
        best_.within = std::clamp(limit_ - left_, tolerance_, std::max(limit_, tolerance_));
        const dvec3 way = on_b_ - on_a_;
        best_.normal = glm::length(way) > 0 ? glm::normalize(way) : dvec3(0, 0, 1);
    }

private:
    /// Brings the last digits of the nearest pair by searching its own cells to the end. How sure
    /// it is that no other cells hold a nearer one stays as it is.
    void polish() {
        if (tolerance_ <= finest || !has_nearest_) return;
        const double certain = heap_.empty() ? std::max(left_, -1e300) : heap_.front().bound;
        left_ = std::min(certain, limit_ - tolerance_);
        heap_.clear();
        Work start = nearest_;
        polishing_ = true;
        tolerance_ = finest;
        add(start);
        for (int i = 0; i < polish_steps && !heap_.empty(); ++i) step();
        heap_.clear();
    }

    SurfacePoint from_a(const dvec3& p) const { return signed_distance(a_, p); }
    SurfacePoint from_b(const dvec3& p) const {
        SurfacePoint found = signed_distance(b_, to_b_.back(p));
        found.at = to_b_(found.at);
        return found;
    }

    /// True if a sphere round either form is farther from the other one than what is asked for.
    bool out_of_reach() const {
        const auto middle = [](const Form& f) { return (f.box_low + f.box_high) * 0.5; };
        const auto radius = [&](const Form& f) {
            if (f.kind == Form::Kind::prism) return glm::length(f.box_high - f.box_low) / 2;
            return farthest_edge(f.region, {f.middle(), 0}).distance;
        };
        return from_a(to_b_(middle(b_))).distance - radius(b_) >= limit_ ||
               from_b(middle(a_)).distance - radius(a_) >= limit_;
    }

    /// A first pair, by going to and fro; shows when one is inside the other.
    void approach() {
        dvec3 p = from_a(to_b_(dvec3(b_.middle(), 0, 0))).at;
        for (int i = 0; i < 4 && !overlap_; ++i) {
            const SurfacePoint q = from_b(p);
            if (q.distance < -seen) overlap_ = true;
            const SurfacePoint back = from_a(q.at);
            if (back.distance < -seen) overlap_ = true;
            if (!overlap_) take(back.at, q.at, false);
            p = back.at;
        }
    }

    void take(const dvec3& p, const dvec3& q, bool check = true) {
        const double distance = glm::length(q - p);
        if (distance >= limit_) return;
        limit_ = distance;
        on_a_ = p;
        on_b_ = q;
        if (check && distance < 0.05)
            overlap_ = from_a(q).distance < -seen || from_b(p).distance < -seen;
    }

    double bound_along(const Work& w, const dvec3& way) const {
        return glm::dot(way, to_b_.origin) - w.b.support(glm::transpose(to_b_.turn) * -way) -
               w.a.support(way);
    }

    /// Keeps the bound along `way` if it is better.
    void bound_by(Work& w, const dvec3& way) const {
        const double bound = bound_along(w, way);
        if (bound <= w.bound) return;
        w.bound = bound;
        w.way = way;
    }

    /// True if the other cell lies behind all of the tangent planes of this one: then their nearest
    /// points are not nearest of all. `reach`: farthest that two points of them can be apart.
    static bool looks_away(const dvec3& normal, const dvec3& between, double reach, double spread,
                           double radii) {
        return glm::dot(normal, between) + radii + 2 * std::sin(std::min(spread, 3.0) / 2) * reach <
               0;
    }

    void add_walls(Work& w) {
        const dvec3 between = to_b_(w.b.centre) - w.a.centre;
        const double apart = glm::length(between), radii = w.a.radius + w.b.radius;
        w.bound = apart - radii;
        if (w.bound >= limit_ - tolerance_) return;
        const dvec3 normal_a = w.a.normal, normal_b = to_b_.turn * w.b.normal;
        if (looks_away(normal_a, between, apart + radii, w.a.normal_spread(), radii)) return;
        if (looks_away(-normal_b, between, apart + radii, w.b.normal_spread(), radii)) return;
        dvec3 p, q;
        closest_of_segments(w.a.from, w.a.to, to_b_(w.b.from), to_b_(w.b.to), p, q);
        take(p, q);
        w.way = normal_a;
        const double length = glm::length(q - p);
        if (length > 0) bound_by(w, (q - p) / length);
        if (w.bound >= limit_ - tolerance_) return;
        bound_by(w, normal_a);
        if (w.bound >= limit_ - tolerance_) return;
        bound_by(w, -normal_b);
        w.aligned = 2 * glm::dot(q - p, w.way) > length + w.bound;
        push(w);
    }

    /// The cell in the frame of the form whose cap is meant.
    void add_cap(Work& w) {
        const bool of_a = w.kind == Against::cap_of_a;
        const Cell& cell = of_a ? w.b : w.a;
        const Form& form = of_a ? a_ : b_;
        const Frame& frame = of_a ? to_b_ : to_a_;
        const dvec3 way = glm::transpose(frame.turn) * dvec3(w.sense, 0, 0);
        const double height = w.sense * (frame.origin.x - w.face);
        if (height + cell.support(way) < 0) return;  // behind the face
        const dvec3 centre = frame(cell.centre);
        const double sphere = w.sense * (centre.x - w.face) - cell.radius;
        w.bound = std::max(height - cell.support(-way), sphere);
        if (w.bound >= limit_ - tolerance_) return;
        const glm::dvec2 across(centre.y, centre.z);
        const Foot foot = nearest_edge(form.region, across);
        const bool inside = form.region.contains(across);
        if (!inside && foot.distance > cell.radius) return;
        w.way = of_a ? dvec3(w.sense, 0, 0) : to_b_.turn * dvec3(w.sense, 0, 0);
        w.aligned = false;
        for (const dvec3& r : {cell.from, (cell.from + cell.to) * 0.5, cell.to}) {
            const dvec3 p = frame(r);
            const double up = w.sense * (p.x - w.face);
            if (up < 0 || !form.region.contains({p.y, p.z})) continue;
            w.aligned = true;
            const dvec3 on_cap(w.face, p.y, p.z);
            of_a ? take(on_cap, p) : take(to_b_(p), to_b_(on_cap));
        }
        push(w);
    }

    void add(Work& w) {
        const double before = limit_;
        w.kind == Against::walls ? add_walls(w) : add_cap(w);
        if (limit_ >= before) return;
        nearest_ = w;
        has_nearest_ = true;
    }

    /// Works waiting, the least bound first; the works themselves stay where they are.
    struct Waiting {
        double bound;
        std::uint32_t work;
    };
    static bool later(const Waiting& x, const Waiting& y) { return x.bound > y.bound; }
    void push(const Work& w) {
        if (w.bound >= limit_ - tolerance_) return;
        std::uint32_t slot = static_cast<std::uint32_t>(works_.size());
        if (free_.empty()) {
            works_.push_back(w);
        } else {
            slot = free_.back();
            free_.pop_back();
            works_[slot] = w;
        }
        heap_.push_back({w.bound, slot});
        std::push_heap(heap_.begin(), heap_.end(), later);
    }

    void fill() {
        heap_.reserve(256);
        works_.reserve(256);
        free_.reserve(256);
        walls_a_ = cells_of(a_);
        walls_b_ = cells_of(b_);
        Work w;
        for (const Cell& cell : walls_a_) {
            w.a = cell;
            if (from_b(cell.centre).distance - cell.radius >= limit_) continue;
            for (const Cell& other : walls_b_) {
                w.b = other;
                add(w);
                if (overlap_) return;
            }
        }
        fill_caps(a_, walls_b_, Against::cap_of_a);
        fill_caps(b_, walls_a_, Against::cap_of_b);
    }

    void fill_caps(const Form& form, const std::vector<Cell>& cells, Against kind) {
        if (form.kind != Form::Kind::prism) return;
        Work w;
        w.kind = kind;
        for (const double sense : {-1.0, 1.0}) {
            w.sense = sense;
            w.face = sense > 0 ? form.high : form.low;
            for (const Cell& cell : cells) {
                if (overlap_) return;
                (kind == Against::cap_of_a ? w.b : w.a) = cell;
                add(w);
            }
        }
    }

    void step() {
        ++steps_;
        if (!polishing_) tolerance_ = tolerance_after(steps_);
        std::pop_heap(heap_.begin(), heap_.end(), later);
        if (heap_.back().bound >= limit_ - tolerance_) {
            if (!polishing_) left_ = heap_.back().bound;
            heap_.clear();
            return;
        }
        const Work w = works_[heap_.back().work];
        free_.push_back(heap_.back().work);
        heap_.pop_back();
        const bool has_a = w.kind != Against::cap_of_a, has_b = w.kind != Against::cap_of_b;
        const dvec3 way_b = glm::transpose(to_b_.turn) * w.way;
        const double as = !has_a ? -1 : w.aligned ? w.a.rise_s(w.way) : w.a.size_s();
        const double at = !has_a ? -1 : w.aligned ? w.a.rise_t(w.way) : w.a.size_t();
        const double bs = !has_b ? -1 : w.aligned ? w.b.rise_s(way_b) : w.b.size_s();
        const double bt = !has_b ? -1 : w.aligned ? w.b.rise_t(way_b) : w.b.size_t();
        const bool split_a = std::max(as, at) >= std::max(bs, bt);
        first_ = second_ = w;
        if (split_a)
            halve(w.a, as >= at, first_.a, second_.a);
        else
            halve(w.b, bs >= bt, first_.b, second_.b);
        add(first_);
        if (!overlap_) add(second_);
    }

    bool measure_depth();

    const Form& a_;
    const Form& b_;
    const Frame to_b_;
    const Frame to_a_{glm::transpose(to_b_.turn), to_b_.back({0, 0, 0})};
    Gap& best_;
    double limit_;
    dvec3 on_a_{0}, on_b_{0};
    bool overlap_ = false;
    int steps_ = 0;
    double tolerance_ = tolerance_after(0);
    bool searched_depth_ = false;
    bool polishing_ = false;
    bool has_nearest_ = false;
    Work nearest_;  // the cells of the nearest pair
    std::vector<Cell> walls_a_, walls_b_;
    std::vector<Waiting> heap_;
    std::vector<Work> works_;
    std::vector<std::uint32_t> free_;
    Work first_, second_;
    double left_ = 1e300;  // the least bound of what was not looked into
};

/// True if they overlap; then the depth is in `best_`, or what was there was deeper.
bool Search::measure_depth() {
    constexpr double close_enough = 1e-4;
    searched_depth_ = true;
    overlap_ = false;
    Gap deep;
    deep.gap = std::min(best_.gap, -seen);
    const double before = deep.gap;
    deepest_of_surface(a_, b_, to_b_, close_enough, deep);
    Gap of_b;
    of_b.gap = deep.gap;
    deepest_of_surface(b_, a_, to_a_, close_enough, of_b);
    deep.within = std::max(deep.within, of_b.within);
    if (of_b.gap < deep.gap)
        deep = {of_b.gap,    to_b_(of_b.b), to_b_(of_b.a), -(to_b_.turn * of_b.normal),
                deep.within, true};
    if (deep.gap >= before) return best_.gap < 0;
    best_ = deep;
    return true;
}

}  // namespace

void offer_general(const Form& a, const Form& b, const Frame& to_b, Gap& best) {
    Search(a, b, to_b, best).run();
}

}  // namespace podwright
