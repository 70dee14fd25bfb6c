#pragma once

#include <vector>

#include "choose/cost.hpp"
#include "choose/shim_table.hpp"
#include "core/setup.hpp"

// The lists that a build is picked from: one choice of each makes a build.
namespace podwright {

/// A wheel with a tyre on it, for one side.
struct Rolling {
    int wheel = -1;  ///< index into the box; -1: as it is today
    int tyre = -1;
    double inset = 0;
    double rim_diameter = 0;
    Tyre size;
    int changes = 0;
};

struct HolderChoice {
    int kind = -1;  ///< index into the box; -1: as it is today
    double step = 0;
    Way way = Way::up;
    int changes = 0;
};

struct GearChoice {
    int pinion = 0;
    int spur = 0;
    int changes = 0;
};

/// What sets the float.
struct FloatChoice {
    double blade = 0;
    int axle = -1;  ///< index into the box; -1: as it is today
    double shoulder = 0;
    int changes = 0;
};

void set(AxleSide& side, const Rolling& rolling);
void set(AxleSide& side, const HolderChoice& holder);

/// Places in the lists.
struct Build {
    std::size_t left_rolling = 0, right_rolling = 0;
    ShimPair shims;
    std::size_t setting = 0;  ///< of floats
    std::size_t left_holder = 0, right_holder = 0;
    std::size_t gears = 0;
};

/// Everything that the box offers for `today`. A kind of part that it does not list is only there
/// as it is today.
class Lists {
public:
    explicit Lists(const Setup& today);

    std::vector<Rolling> rolling[2];  ///< by side
    std::vector<HolderChoice> holders[2];
    std::vector<GearChoice> gears;
    std::vector<FloatChoice> floats;
    ShimTable shims;

    bool can_roll(std::size_t left, std::size_t right) const;  ///< enough wheels and tyres
    bool can_hold(std::size_t left, std::size_t right) const;  ///< enough holders

    /// Cost without points; each the share of one list.
    Cost rolling_cost(std::size_t left, std::size_t right) const;
    Cost stack_cost(const ShimPair& pair, std::size_t setting) const;
    Cost holder_cost(std::size_t left, std::size_t right) const;
    Cost gear_cost(std::size_t at) const;

    void set_rolling(Setup& setup, std::size_t left, std::size_t right) const;
    void set_holders(Setup& setup, std::size_t left, std::size_t right) const;
    void set_float(Setup& setup, std::size_t setting) const;
    void set_gears(Setup& setup, std::size_t at) const;
    /// `today` with the build made and the mesh set again.
    Setup setup(const Build& build) const;

    double combinations() const;  ///< how many builds there are, those with too few parts included

private:
    const Setup& today_;
};

}  // namespace podwright
