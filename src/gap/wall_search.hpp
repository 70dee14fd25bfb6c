#pragma once

#include <algorithm>
#include <vector>

#include "gap/distance.hpp"

namespace podwright {

/// Distances below this may be overlap, mm.
inline constexpr double may_overlap = 5e-4;
/// Axes whose cosine is not less lean towards each other by little: 25 degrees.
inline constexpr double leans_little = 0.9;

/// Best-first search of the wall of one form for its point nearest to another form.
///
/// `Wall` divides the wall into patches and bounds them:
///   `using Patch`, with a member `double bound`;
///   `std::vector<Patch> patches()`, the whole wall;
///   `glm::dvec3 bound(Patch&, double reach)` sets the least distance that a point of the patch may
///   have from the other form, if that is less than reach, and returns a likely point of it;
///   `void halve(const Patch&, Patch&, Patch&)`.
///
/// No place is nearer than what is found by more than Gap::within, at most 1e-4 mm unless the steps
/// run out; the pair itself is brought to about 1e-9 mm within its patch.
template <class Wall>
class WallSearch {
    using Patch = typename Wall::Patch;
    static constexpr double finest = 1e-9, fine = 1e-8;  // mm
    static constexpr int exact_steps = 40, polish_steps = 60;

public:
    /// `place` and `to_b` put the forms into the frame of the result.
    WallSearch(const Wall& wall, const Form& a, const Form& b, const Frame& to_b, double tolerance,
               double beyond, int most_steps = 3000)
        : wall_(wall),
          a_(a),
          b_(b),
          to_b_(to_b),
          tolerance_(tolerance),
          limit_(beyond),
          most_steps_(most_steps) {}

    /// False if the forms overlap or may do so; then no more is known.
    bool run() {
        approach();
        for (Patch& patch : wall_.patches()) {
            if (limit_ < least()) return false;
            add(patch);
        }
        while (!heap_.empty() && steps_ < most_steps_ && limit_ >= least()) step();
        if (limit_ < least()) return false;
        finished_ = heap_.empty();
        if (!finished_) note(heap_.front().bound);
        if (found_ && !coarse()) polish();
        return limit_ >= least();
    }

    bool found() const { return found_; }
    /// False if the steps ran out before the tolerance was reached.
    bool finished() const { return finished_; }
    Gap result() const {
        const glm::dvec3 way = on_b_ - on_a_;
        const double length = glm::length(way);
        return {limit_,
                on_a_,
                on_b_,
                length > 0 ? way / length : glm::dvec3(0, 0, 1),
                std::clamp(limit_ - left_, finest, std::max(limit_, finest)),
                true};
    }

private:
    void take(const glm::dvec3& p) {
        const SurfacePoint foot = signed_distance(b_, to_b_.back(p));
        if (foot.distance >= limit_) return;
        limit_ = foot.distance;
        on_a_ = p;
        on_b_ = to_b_(foot.at);
        found_ = true;
    }

    /// A first pair, by going to and fro; shows when one is inside the other.
    void approach() {
        const glm::dvec3 middle(b_.middle(), 0, 0);
        glm::dvec3 p = signed_distance(a_, to_b_(middle)).at;
        for (int i = 0; i < 4 && limit_ >= least(); ++i) {
            take(p);
            const SurfacePoint q = signed_distance(b_, to_b_.back(p));
            const SurfacePoint back = signed_distance(a_, to_b_(q.at));
            if (back.distance < 0) limit_ = -1;
            p = back.at;
        }
    }

    /// What is nearer may be overlap.
    double least() const { return may_overlap + tolerance_; }
    bool coarse() const { return tolerance_ > usual_tolerance; }
    double tolerance() const {
        if (polishing_) return finest;
        return coarse() || steps_ >= exact_steps ? tolerance_ : fine;
    }
    /// Remembers what a patch that is given up may hold.
    void note(double bound) {
        if (!polishing_) left_ = std::min(left_, bound);
    }
    static bool later(const Patch& x, const Patch& y) { return x.bound > y.bound; }

    void add(Patch& patch) {
        const glm::dvec3 p = wall_.bound(patch, limit_);
        if (patch.bound >= limit_ - tolerance()) return note(patch.bound);
        const double before = limit_;
        take(p);
        if (limit_ < before) nearest_ = {patch};
        if (patch.bound >= limit_ - tolerance()) return note(patch.bound);
        heap_.push_back(patch);
        std::push_heap(heap_.begin(), heap_.end(), later);
    }

    void step() {
        ++steps_;
        std::pop_heap(heap_.begin(), heap_.end(), later);
        const Patch patch = heap_.back();
        heap_.pop_back();
        if (patch.bound >= limit_ - tolerance()) {
            heap_.clear();
            return note(patch.bound);
        }
        Patch first, second;
        wall_.halve(patch, first, second);
        add(first);
        add(second);
    }

    void polish() {
        heap_.clear();
        polishing_ = true;
        for (Patch start : std::vector<Patch>(nearest_)) add(start);
        for (int i = 0; i < polish_steps && !heap_.empty() && limit_ >= least(); ++i) step();
    }

    const Wall& wall_;
    const Form& a_;
    const Form& b_;
    const Frame to_b_;
    const double tolerance_;
    double limit_;
    glm::dvec3 on_a_{0}, on_b_{0};
    const int most_steps_;
    bool found_ = false;
    bool finished_ = false;
    bool polishing_ = false;
    int steps_ = 0;
    double left_ = 1e300;
    std::vector<Patch> nearest_;  // that of the nearest point, or none
    std::vector<Patch> heap_;
};

}  // namespace podwright
