#include "gap/region.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace podwright {

namespace {

using glm::dvec2;
constexpr std::size_t run_length = 6;

/// An upper bound of the distance to `e` along the chord from `p` to `q`, given those at its ends.
double most_between(const Element& e, const dvec2& p, const dvec2& q, double at_p, double at_q) {
    const double most = std::max(at_p, at_q), length = glm::length(q - p);
    // The distance to a line is convex: it is greatest at an end. That to an arc from inside is the
    // radius less a distance whose second derivative is at most 1 / that distance.
    if (e.kind == Element::Kind::line) return most;
    double bend = length / 2;
    if (e.kind == Element::Kind::arc) {
        const double middle = glm::length((p + q) * 0.5 - e.centre) - length / 2;
        if (middle > 0) bend = std::min(bend, length * length / (8 * middle));
    }
    return most + bend;
}

double box_gap_squared(const Element& e, const Element& f) {
    const double x = std::max({0.0, f.low.x - e.high.x, e.low.x - f.high.x});
    const double y = std::max({0.0, f.low.y - e.high.y, e.low.y - f.high.y});
    return x * x + y * y;
}

/// Looks for the deepest point of one element by halving it where it may still beat the best.
class DeepestSearch {
public:
    DeepestSearch(const Region& region, const Element& e, Deepest& best)
        : region_(region), e_(e), best_(best) {}

    void run() {
        visit(0);
        visit(1);
        split(0, 1, 0);
    }

private:
    /// Depth there; negative outside.
    double visit(double share) {
        const dvec2 p = e_.at(share);
        const Foot foot = signed_foot(region_, p);
        if (-foot.distance > best_.depth) best_ = {-foot.distance, p, foot.at, true, best_.within};
        return -foot.distance;
    }

    double most(double from, double to) const {
        const dvec2 p = e_.at(from), q = e_.at(to);
        double least = 1e300;
        for (const Region::Run& run : region_.runs) {
            if (glm::length(p - run.centre) - run.radius >= least) continue;
            for (std::size_t i = run.begin; i < run.end; ++i) {
                const Element& edge = region_.elements[i];
                const double at_p = glm::length(nearest(edge, p) - p);
                if (at_p >= least) continue;
                const double at_q = glm::length(nearest(edge, q) - q);
                least = std::min(least, most_between(edge, p, q, at_p, at_q));
            }
        }
        return least + e_.sagitta(from, to);
    }

    void split(double from, double to, int depth) {
        if (++count_ > 4000 || depth > 40) {
            best_.within = std::max(best_.within, most(from, to) - best_.depth);
            return;
        }
        const double middle = (from + to) / 2;
        if (visit(middle) + e_.length() * (to - from) / 2 <= best_.depth) return;
        if (most(from, to) <= best_.depth + 1e-10) return;
        split(from, middle, depth + 1);
        split(middle, to, depth + 1);
    }

    const Region& region_;
    const Element& e_;
    Deepest& best_;
    int count_ = 0;
};

}  // namespace

void Region::add(const Loop& loop) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const dvec2& next = loop[(i + 1) % loop.size()].at;
        if (loop[i].at != next) elements.push_back(arc_element(loop[i].at, next, loop[i].bulge));
    }
}

void Region::finish() {
    for (std::size_t begin = 0; begin < elements.size(); begin += run_length) {
        Run run{begin, std::min(begin + run_length, elements.size())};
        dvec2 box_low(1e300), box_high(-1e300);
        for (std::size_t i = run.begin; i < run.end; ++i) {
            box_low = glm::min(box_low, elements[i].low);
            box_high = glm::max(box_high, elements[i].high);
        }
        run.centre = (box_low + box_high) * 0.5;
        run.radius = glm::length(box_high - box_low) / 2;
        runs.push_back(run);
        low = glm::min(low, box_low);
        high = glm::max(high, box_high);
    }
}

bool Region::contains(const dvec2& p) const {
    if (p.x < low.x || p.y < low.y || p.x > high.x || p.y > high.y) return false;
    bool inside = false;
    for (const Element& e : elements) {
        if ((e.a.y > p.y) != (e.b.y > p.y)) {
            const bool upward = e.b.y > e.a.y;
            if ((side_of_chord(e, p) > 0) == upward) inside = !inside;
        }
        if (e.kind != Element::Kind::line && between_chord(e, p)) inside = !inside;
    }
    return inside;
}

Foot nearest_edge(const Region& region, const dvec2& p, double limit) {
    Closest best;
    best.squared = limit < 1e150 ? limit * limit : limit;
    for (const Region::Run& run : region.runs) {
        const double off = std::max(0.0, glm::length(p - run.centre) - run.radius);
        if (off * off >= best.squared) continue;
        for (std::size_t i = run.begin; i < run.end; ++i) {
            const Element& e = region.elements[i];
            const dvec2 to_box = glm::max(glm::max(e.low - p, p - e.high), dvec2(0));
            if (glm::dot(to_box, to_box) < best.squared) best.offer(p, nearest(e, p));
        }
    }
    return {best.b, std::sqrt(best.squared)};
}

Foot signed_foot(const Region& region, const dvec2& p) {
    Foot foot = nearest_edge(region, p);
    if (region.contains(p)) foot.distance = -foot.distance;
    return foot;
}

Foot farthest_edge(const Region& region, const dvec2& p) {
    Foot best{p, -1};
    for (const Region::Run& run : region.runs) {
        if (glm::length(p - run.centre) + run.radius <= best.distance) continue;
        for (std::size_t i = run.begin; i < run.end; ++i) {
            const dvec2 q = farthest(region.elements[i], p);
            if (glm::length(q - p) > best.distance) best = {q, glm::length(q - p)};
        }
    }
    return best;
}

void offer_closest(const Region& a, const Region& b, const PlaneMotion& move_b, Closest& best) {
    std::array<Element, run_length> moved_run;
    for (const Region::Run& run_b : b.runs) {
        const dvec2 centre = move_b(run_b.centre);
        bool ready = false;
        for (const Region::Run& run_a : a.runs) {
            const double off =
                std::max(0.0, glm::length(centre - run_a.centre) - run_a.radius - run_b.radius);
            if (off * off >= best.squared) continue;
            if (!ready)
                for (std::size_t j = run_b.begin; j < run_b.end; ++j)
                    moved_run[j - run_b.begin] = moved(b.elements[j], move_b);
            ready = true;
            for (std::size_t i = run_a.begin; i < run_a.end; ++i)
                for (std::size_t j = 0; j < run_b.end - run_b.begin; ++j)
                    if (box_gap_squared(a.elements[i], moved_run[j]) < best.squared)
                        offer_closest(a.elements[i], moved_run[j], best);
            if (best.squared <= 0) return;
        }
    }
}

void offer_closest(const Region& a, const Element& e, Closest& best) {
    for (const Region::Run& run : a.runs) {
        const dvec2 off = glm::max(glm::max(e.low - run.centre, run.centre - e.high), dvec2(0));
        const double apart = std::max(0.0, glm::length(off) - run.radius);
        if (apart * apart >= best.squared) continue;
        for (std::size_t i = run.begin; i < run.end; ++i)
            if (box_gap_squared(a.elements[i], e) < best.squared)
                offer_closest(a.elements[i], e, best);
        if (best.squared <= 0) return;
    }
}

void offer_deepest(const Region& region, const Element& e, Deepest& best) {
    if (e.high.x < region.low.x || e.high.y < region.low.y || e.low.x > region.high.x ||
        e.low.y > region.high.y)
        return;
    DeepestSearch(region, e, best).run();
}

}  // namespace podwright
