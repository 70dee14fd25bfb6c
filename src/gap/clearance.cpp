#include "gap/clearance.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/limits.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"
#include "core/text.hpp"
#include "gap/fit.hpp"
#include "gap/swept_outline.hpp"

namespace podwright {

namespace {

using glm::dvec3;

// Of the 0.01 mm that are promised, mm: for the search along the float, and of each gap; the rest
// is for what is swept.
constexpr double envelope_within = 0.0045;
constexpr double search_within = 0.0025;
static_assert(envelope_within + search_within + swept_excess <= 0.01);
constexpr double overlap_share = 0.02;    // of its depth, to which an overlap is searched for
constexpr double near_within = 0.1;       // is enough to tell near pairs from far ones
constexpr double touch_tolerance = 1e-6;  // mm of overlap that is still touching

bool turns(const Part& part) {
    return part.moves == Moves::axle || part.moves == Moves::ring || part.moves == Moves::motor;
}

Status status_of(double gap, double need) {
    if (gap < -touch_tolerance) return Status::stop;
    if (need == 0) return Status::none;
    return below(gap, need) ? Status::caution : Status::ok;
}

Closeness closeness(const Gap& gap, double need) {
    return {gap.gap, gap.a, gap.b, status_of(gap.gap, need)};
}

/// A pair of parts with their measured forms, ready to be put anywhere in the float.
struct Pair {
    const Assembly& assembly;
    const Part& a;
    const Part& b;
    const MeasuredPart& form_a;
    const MeasuredPart& form_b;
    double meshes_below;  ///< where triangles are measured instead of what holds them

    Gap at(const Pose& pose, double beyond, double tolerance = usual_tolerance) const {
        return gap_between(form_a, placed(assembly, a, pose), form_b, placed(assembly, b, pose),
                           beyond, meshes_below, tolerance);
    }
    /// The same for a bound: no gap is smaller than what it gives.
    Gap least_at(const Pose& pose, double beyond) const {
        Gap gap = at(pose, beyond, search_within);
        if (gap.gap > 0) gap.gap -= gap.within;
        return gap;
    }
};

/// The least gap over the float. A place that moves by s changes a gap by no more than s, so
/// between two places the gap is nowhere below (g1 + g2 - way) / 2; the way is halved where that is
/// not sharp enough.
struct FloatSearch {
    const Pair& pair;
    double travel;  ///< mm from the middle of the float to its end
    Gap best;       ///< the least that was found
    double best_along = 0;
    double bound = 1e300;  ///< nothing lies below

    Gap measure(double along, double beyond = 1e300) {
        const Gap gap = pair.least_at({along, 0, 0}, beyond);
        if (gap.gap < best.gap) {
            best = gap;
            best_along = along;
        }
        return gap;
    }
    void search(double from, double gap_from, double to, double gap_to) {
        const double lower = (gap_from + gap_to - travel * (to - from)) / 2;
        if (lower >= best.gap - std::max(envelope_within, -overlap_share * best.gap)) {
            bound = std::min(bound, std::min(lower, best.gap));
            return;
        }
        const double middle = (from + to) / 2;
        // More than this leaves nothing to look for on either side.
        const double enough = best.gap + travel * (to - from) / 2;
        const double gap_middle = measure(middle, enough).gap;
        search(from, gap_from, middle, gap_middle);
        search(middle, gap_middle, to, gap_to);
    }
};

Gap least_over_float(const Pair& pair, double& along) {
    FloatSearch search{pair, std::max(0.0, pair.assembly.axial_float) / 2, {}, 0, 1e300};
    const double right = search.measure(-1).gap;
    const double left = search.measure(1).gap;
    search.search(-1, right, 1, left);
    along = search.best_along;
    Gap result = search.best;
    result.within = search.best.gap - search.bound;
    result.gap = search.bound;
    return result;
}

struct WornStance {
    Stance stance;
    bool left, right;
};

/// The car on its tyres of today and on worn ones. Heights are linear in each diameter, so the
/// extremes stand at these four.
std::array<WornStance, 4> worn_stances(const Setup& setup) {
    std::array<WornStance, 4> all{};
    for (std::size_t i = 0; i < 4; ++i) {
        Setup worn = setup;
        all[i].left = (i & 1) != 0;
        all[i].right = (i & 2) != 0;
        for (Side side : both_sides) {
            Tyre& tyre = worn.side(side).tyre;
            if (side == Side::left ? all[i].left : all[i].right)
                tyre.diameter = std::min(tyre.diameter, tyre.worn_diameter);
        }
        all[i].stance = stance_of(worn, stack_of(worn));
    }
    return all;
}

void measure_ground(const Setup& setup, const Assembly& assembly, const Part& part,
                    const MeasuredPart& still, const MeasuredPart& turning,
                    const std::array<WornStance, 4>& stances, const Pose& pose, Clearance& out) {
    out.now = closeness(gap_to_plane(still, placed(assembly, part, pose), assembly.ground_point,
                                     assembly.ground_normal),
                        out.need);
    Gap least;
    // For a given solid the gap is a concave function of the roll and linear along the float: the
    // least stands at the ends of both.
    for (double along : {-1.0, 1.0}) {
        if (along > 0 && part.moves != Moves::axle) continue;
        const glm::dmat4 place = placed(assembly, part, {along, 0, 0});
        for (const WornStance& worn : stances)
            for (double roll : {setup.needs.roll, -setup.needs.roll}) {
                const GroundPlane plane = ground_plane(worn.stance, roll);
                const Gap gap = gap_to_plane(turning, place, plane.point, plane.normal);
                if (gap.gap >= least.gap) continue;
                least = gap;
                out.when = {part.moves == Moves::axle ? along : 0, turns(part), worn.left,
                            worn.right, roll};
            }
    }
    out.worst = closeness(least, out.need);
}

void measure_pair(const Pair& still, const Pair& turning, const Pose& pose, Clearance& out) {
    out.now = closeness(still.at(pose, 1e300), out.need);
    const bool one_moves = still.a.moves != still.b.moves;
    if (!one_moves) {
        out.worst = out.now;
        return;
    }
    out.when.any_turn = turns(still.a) || turns(still.b);
    if ((still.a.moves == Moves::axle) == (still.b.moves == Moves::axle)) {
        out.worst = closeness(turning.least_at({}, 1e300), out.need);
        return;
    }
    out.worst = closeness(least_over_float(turning, out.when.along), out.need);
}

/// The program's own meshes are round: the body of revolution that holds them is as good. A mesh of
/// the user's may be of any shape.
double meshes_below(bool own_mesh) { return own_mesh ? clearance_horizon : -1e300; }

bool by_margin(const Clearance& a, const Clearance& b) {
    if (a.worst.status != b.worst.status) return a.worst.status > b.worst.status;
    return a.margin() < b.margin();
}

}  // namespace

bool has_own_mesh(const Part& part) {
    return std::any_of(part.bodies.begin(), part.bodies.end(), [](const Body& body) {
        const auto* imported = std::get_if<Imported>(&body.solid);
        // The program's own meshes have bare names, the user's are named by their absolute paths.
        return imported && !imported->name.empty() && imported->name.front() == '/';
    });
}

GroundPlane ground_plane(const Stance& stance, double roll) {
    return {{0, 0, -stance.ride_at(0, 0)},
            glm::normalize(dvec3(-std::tan(stance.rake), std::tan(stance.roll + roll), 1))};
}

std::string_view fit_word(const Closeness& c) {
    if (c.gap < -touch_tolerance) return "interference";
    return c.gap > touch_tolerance ? word(Fit::clearance) : word(Fit::touching);
}

std::string words(const Circumstance& when) {
    std::string text;
    const auto add = [&](const std::string& part) { text += (text.empty() ? "" : ", ") + part; };
    if (when.along < -0.99) add("axle at the right end of its float");
    if (when.along > 0.99) add("axle at the left end of its float");
    if (when.any_turn) add("at some turn");
    if (when.worn_left && when.worn_right) add("worn tyres");
    if (when.worn_left != when.worn_right)
        add(std::string("worn ") + (when.worn_left ? "left" : "right") + " tyre");
    if (when.roll != 0)
        add(fixed(std::abs(degrees(when.roll)), 1) + "° of roll to the " +
            (when.roll > 0 ? "right" : "left"));
    return text.empty() ? "as it stands" : text;
}

const Meter::Ready& Meter::ready(const Assembly& assembly, const Part& part) {
    Frame axis;
    if (turns(part)) {
        const bool motor = part.moves == Moves::motor;
        const Frame in_pod = axis_frame(motor ? assembly.motor_point : assembly.axle_point,
                                        motor ? dvec3(0, 1, 0) : assembly.axle_direction);
        axis = settled(frame_of(part.place).to(in_pod));
    }
    Ready& kept = kept_[part.key];
    kept.used = turn_;
    const bool same_axis = kept.axis.turn == axis.turn && kept.axis.origin == axis.origin;
    const bool same_bodies = kept.bodies.size() == part.bodies.size() &&
                             std::equal(part.bodies.begin(), part.bodies.end(), kept.bodies.begin(),
                                        [](const Body& a, const Body& b) {
                                            return a.place == b.place && a.solid == b.solid;
                                        });
    if (same_bodies && same_axis) return kept;
    if (!same_bodies) {
        kept.bodies = part.bodies;
        kept.still = measured(part, imports_);
        kept.own_mesh = has_own_mesh(part);
    }
    kept.version = ++versions_;
    kept.axis = axis;
    kept.turning = turns(part) ? swept(kept.still, axis, kept.own_mesh, swept_) : kept.still;
    return kept;
}

const Meter::Known& Meter::known(const Assembly& assembly, const Part& a, const Ready& form_a,
                                 const Part& b, const Ready& form_b, const Pose& pose,
                                 double horizon) {
    Known& known = known_[{a.key, b.key}];
    // Turned parts stand where more than this says; they are measured anew.
    const bool same = known.used > 0 && pose.turn == 0 && known.version_a == form_a.version &&
                      known.version_b == form_b.version && known.place_a == a.place &&
                      known.place_b == b.place && known.along == assembly.axle_direction &&
                      known.axial_float == assembly.axial_float && known.turn == pose.turn &&
                      known.position == pose.along && known.horizon == horizon;
    known.used = turn_;
    if (same) return known;
    known.version_a = form_a.version;
    known.version_b = form_b.version;
    known.place_a = a.place;
    known.place_b = b.place;
    known.along = assembly.axle_direction;
    known.axial_float = assembly.axial_float;
    known.turn = pose.turn;
    known.position = pose.along;
    known.horizon = horizon;
    known.clearance = {a.key, b.key, 0, {}, {}, {}};

    const double meshes = meshes_below(form_a.own_mesh || form_b.own_mesh);
    const Pair turning{assembly, a, b, form_a.turning, form_b.turning, meshes};
    const Pair still{assembly, a, b, form_a.still, form_b.still, meshes};
    if (a.moves == b.moves) {  // nothing moves between them: one measurement says it all
        const Gap gap = still.at(pose, horizon);
        known.near = gap.gap < horizon;
        known.clearance.now = known.clearance.worst = closeness(gap, 0);
        return known;
    }
    const double reach = horizon + std::max(0.0, assembly.axial_float);
    known.near = turning.at({}, reach + near_within, near_within).gap < reach + near_within;
    if (known.near) measure_pair(still, turning, pose, known.clearance);
    return known;
}

std::vector<Clearance> Meter::clearances(const Setup& setup, const Assembly& assembly,
                                         const Pose& pose, double horizon) {
    ++turn_;
    const auto& parts = assembly.parts;
    std::vector<const Ready*> forms;
    forms.reserve(parts.size());
    for (const Part& part : parts) forms.push_back(&ready(assembly, part));
    const std::array<WornStance, 4> stances = worn_stances(setup);

    std::vector<Clearance> all;
    const auto add = [&](Clearance c) {
        if (c.worst.gap >= horizon) return;
        c.now.status = status_of(c.now.gap, c.need);
        c.worst.status = status_of(c.worst.gap, c.need);
        all.push_back(std::move(c));
    };
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Part& a = parts[i];
        if (a.key == "blade") continue;
        if (a.key != "left.tyre" && a.key != "right.tyre") {
            Clearance c{a.key, ground_key, need_to_ground(setup.needs, a), {}, {}, {}};
            measure_ground(setup, assembly, a, forms[i]->still, forms[i]->turning, stances, pose,
                           c);
            add(std::move(c));
        }
        for (std::size_t j = i + 1; j < parts.size(); ++j) {
            const Part& b = parts[j];
            if (b.key == "blade" || fit_between(assembly, a, b) != Fit::clearance) continue;
            const Known& pair = known(assembly, a, *forms[i], b, *forms[j], pose, horizon);
            if (!pair.near) continue;
            Clearance c = pair.clearance;
            c.need = need_between(setup.needs, a, b);
            add(std::move(c));
        }
    }
    const auto forget = [&](auto& kept) {
        for (auto it = kept.begin(); it != kept.end();)
            it = it->second.used == turn_ ? std::next(it) : kept.erase(it);
    };
    forget(kept_);
    forget(known_);
    std::stable_sort(all.begin(), all.end(), by_margin);
    return all;
}

Clearance Meter::clearance(const Setup& setup, const Assembly& assembly, const std::string& a,
                           const std::string& b) {
    const Part& first = *assembly.find(a);
    if (b == ground_key) {
        Clearance c{a, b, need_to_ground(setup.needs, first), {}, {}, {}};
        const Ready& form = ready(assembly, first);
        measure_ground(setup, assembly, first, form.still, form.turning, worn_stances(setup), {},
                       c);
        return c;
    }
    const Part& second = *assembly.find(b);
    Clearance c{a, b, need_between(setup.needs, first, second), {}, {}, {}};
    const Ready& form_a = ready(assembly, first);
    const Ready& form_b = ready(assembly, second);
    const double meshes = meshes_below(form_a.own_mesh || form_b.own_mesh);
    measure_pair({assembly, first, second, form_a.still, form_b.still, meshes},
                 {assembly, first, second, form_a.turning, form_b.turning, meshes}, {}, c);
    return c;
}

}  // namespace podwright
