#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/drive.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"

namespace podwright {

/// What a build must not break to be an answer.
enum class Limit {
    axial_float,
    width,
    shift,
    ride,
    roll,
    rollout,
    backlash,
    contact_ratio,
    mesh_tilt,  ///< backlash at the worse edge of tilted teeth
    slot,       ///< the motor's slot reaches the mesh
    worn,       ///< tyres above their worn diameter
    rules,      ///< of the event
    parts,      ///< the parts go together (find_conflict)
    felt,       ///< axle and bearings, and the float over the day's warmth (choose/felt.hpp)
    clearances  ///< every pair has what it needs over the whole envelope
};
inline constexpr int limit_count = 15;

/// "ride height", as in a sentence.
const char* name(Limit);

/// A set of limits.
class Limits {
public:
    bool has(Limit limit) const { return (bits_ & bit(limit)) != 0; }
    void add(Limit limit) { bits_ |= bit(limit); }
    bool empty() const { return bits_ == 0; }
    bool operator==(const Limits&) const = default;

private:
    static std::uint32_t bit(Limit limit) { return 1U << static_cast<unsigned>(limit); }
    std::uint32_t bits_ = 0;
};

/// Where readings that builds differ in stand, without the rest of an evaluation.
enum class Term {
    axial_float,
    width,
    track,
    shift,
    ride,
    roll,  ///< deg
    rake,  ///< deg
    rollout,
    final_drive,
    backlash,
    // Only rules ask for these.
    left,   ///< tyre face
    right,  ///< tyre face
    ride_left,
    ride_right,
    axle_height,
    axle_tilt,  ///< deg
    spur_outside,
    pinion_outside,
    standard_distance,
    speed  ///< km/h
};
inline constexpr int term_count = 20;

/// The reading's name, as in a report.
const char* reading_name(Term);

/// What is asked of one reading: hard limits and goals together.
struct Ask {
    struct Bound {
        Limit limit;
        std::optional<double> low, high;
        bool soft;  ///< costs a thousand points for each unit instead of forbidding
    };
    struct Target {
        double target, band, weight;
    };
    std::vector<Bound> bounds;
    std::vector<Target> targets;

    /// Millionths of a point that are lost at `value`; nothing if a limit forbids it. Values are
    /// rounded to 1e-6 first, so that equal ones lose the same.
    std::optional<std::int64_t> points(double value) const;
    /// No more than is lost anywhere in [low, high]; nothing if limits forbid all of it.
    std::optional<std::int64_t> least_points(double low, double high) const;
};

/// What `setup` asks of each Term: its own limits, its rules and its goals. `soft` limits only
/// cost.
std::vector<Ask> asks_of(const Setup& setup, Limits soft);

/// Points for a goal on clearances: `room` is the smallest margin over the envelope.
std::int64_t clearance_points(const std::vector<Goal>& goals, double room);
std::int64_t clearance_points(const Setup& setup, double room);
bool has_clearance_goal(const Setup& setup);

struct Calculated {
    Stack stack;
    Stance stance;
    Drive drive;
};
Calculated calculate(const Setup& setup);

double value_of(Term, const Calculated&);

/// The limits that `setup` breaks, but for clearances and what is felt; nor are rules on what is
/// felt looked at (choose/felt.hpp).
Limits broken(const Setup& setup, const Calculated& calculated);

/// Points of all goals but that on clearances, in millionths.
std::int64_t goal_points(const Setup& setup, const Calculated& calculated);

}  // namespace podwright
