#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// What a scene holds beside the setup itself so that a build can be chosen, planned, checked
// against rules and compared with what was measured. Plain values; lengths in mm.
namespace podwright {

/// So many shims of one thickness, for both sides together.
struct ShimKind {
    double thickness = 0;
    int count = 1;
    bool operator==(const ShimKind&) const = default;
};

/// So many holders of one step, for both sides together; each can be fitted up or down.
struct HolderKind {
    double step = 0;
    int count = 2;
    bool operator==(const HolderKind&) const = default;
};

/// So many wheels of one kind, for both sides together.
struct WheelKind {
    std::string name;
    double inset = 0;
    std::optional<double> rim_diameter;  ///< the setup's where it is not given
    int count = 2;
    bool operator==(const WheelKind&) const = default;
};

/// So many tyres of one size, for both sides together.
struct TyreKind {
    std::string name;
    double diameter = 0;
    std::optional<double> width;  ///< the setup's where they are not given
    std::optional<double> worn_diameter;
    std::optional<double> stiffness;
    std::string wheel;  ///< name of the kind of wheel that it is glued to; empty: goes on any
    int count = 2;
    bool operator==(const TyreKind&) const = default;
};

/// An axle that fits the same bearings.
struct AxleKind {
    std::string name;
    double waist = 6;
    double bore = 0;
    int material = 0;                ///< index into materials()
    std::optional<double> shoulder;  ///< between its thrust faces; the setup's where not given
    bool operator==(const AxleKind&) const = default;
};

/// What the user owns, what is on the car now included. A kind of part that it does not list stays
/// as it is.
struct PartsBox {
    std::vector<ShimKind> shims;
    std::vector<HolderKind> holders;
    std::vector<int> pinions;  ///< teeth
    std::vector<int> spurs;
    std::vector<double> blades;
    std::vector<WheelKind> wheels;
    std::vector<TyreKind> tyres;
    std::vector<AxleKind> axles;
    bool operator==(const PartsBox&) const = default;
};

/// A reading's target. Inside target ± band nothing is lost; outside, `weight` points for each unit
/// of the reading.
struct Goal {
    std::string reading;  ///< one of goal_readings()
    double target = 0;
    double band = 0;
    double weight = 1;
    bool operator==(const Goal&) const = default;
};

/// Names of the readings that a goal can have; the last, "clearance", is the smallest margin of all
/// clearances over the whole envelope, which is only asked not to be less than the target.
const std::vector<std::string>& goal_readings();

/// One line of an event's rules: a reading or a key of the scene between limits.
struct EventRule {
    std::string of;  ///< "width.overall", "left.tyre_width", "gears.spur", "car.mass"
    std::optional<double> low;
    std::optional<double> high;
    std::string from;  ///< where it stands, as the user would look it up
    bool operator==(const EventRule&) const = default;
};

/// A reading as measured on the car.
struct Measured {
    std::string reading;
    double value = 0;
    double uncertainty = 0;  ///< standard, of the gauge and the hand that holds it, > 0
    std::string gauge;
    bool operator==(const Measured&) const = default;
};

/// The runs of a day. Tyres lose diameter every run: what is given, or the slope of a straight line
/// through what was measured.
struct RaceDay {
    int runs = 0;                     ///< 0: no day is planned
    std::optional<double> wear_left;  ///< mm of diameter a run
    std::optional<double> wear_right;
    std::vector<double> left;  ///< diameters, the first before run 1, then one after each run
    std::vector<double> right;
    bool operator==(const RaceDay&) const = default;
};

struct Choosing {
    std::string folder;    ///< from which the two files count; empty unless read from a disk
    std::string box_file;  ///< as written in the scene; the box stands there, not in the scene
    PartsBox box;
    std::vector<Goal> goals;
    RaceDay day;
    std::string rules_file;
    std::vector<EventRule> rules;
    std::vector<Measured> measured;
    bool operator==(const Choosing&) const = default;
};

}  // namespace podwright
