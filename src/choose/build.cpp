#include "choose/build.hpp"

#include <cmath>

#include "core/drive.hpp"
#include "core/material.hpp"

namespace podwright {

namespace {

bool same_length(double a, double b) { return std::abs(a - b) < 1e-9; }

std::vector<Rolling> rolling_of(const PartsBox& box, const AxleSide& today) {
    std::vector<Rolling> wheels, all;
    if (box.wheels.empty())
        wheels.push_back({-1, -1, today.inset, today.rim_diameter, today.tyre, 0});
    for (std::size_t i = 0; i < box.wheels.size(); ++i) {
        const WheelKind& kind = box.wheels[i];
        Rolling wheel{static_cast<int>(i), -1,
                      kind.inset,          kind.rim_diameter.value_or(today.rim_diameter),
                      today.tyre,          0};
        wheel.changes = same_length(wheel.inset, today.inset) &&
                                same_length(wheel.rim_diameter, today.rim_diameter)
                            ? 0
                            : 1;
        wheels.push_back(wheel);
    }
    if (box.tyres.empty()) return wheels;
    for (const Rolling& wheel : wheels)
        for (std::size_t i = 0; i < box.tyres.size(); ++i) {
            const TyreKind& kind = box.tyres[i];
            const bool glued_to_another =
                !kind.wheel.empty() &&
                (wheel.wheel < 0 ||
                 box.wheels[static_cast<std::size_t>(wheel.wheel)].name != kind.wheel);
            if (glued_to_another) continue;
            Rolling rolling = wheel;
            rolling.tyre = static_cast<int>(i);
            Tyre& tyre = rolling.size;
            tyre.diameter = kind.diameter;
            tyre.width = kind.width.value_or(tyre.width);
            tyre.worn_diameter = kind.worn_diameter.value_or(tyre.worn_diameter);
            tyre.stiffness = kind.stiffness.value_or(tyre.stiffness);
            const bool same = same_length(tyre.diameter, today.tyre.diameter) &&
                              same_length(tyre.width, today.tyre.width) &&
                              same_length(tyre.worn_diameter, today.tyre.worn_diameter) &&
                              same_length(tyre.stiffness, today.tyre.stiffness);
            rolling.changes += same ? 0 : 1;
            all.push_back(rolling);
        }
    return all;
}

std::vector<HolderChoice> holders_of(const PartsBox& box, const AxleSide& today) {
    if (box.holders.empty()) return {{-1, today.holder_step, today.holder_way, 0}};
    std::vector<HolderChoice> all;
    for (std::size_t i = 0; i < box.holders.size(); ++i) {
        const double step = box.holders[i].step;
        const bool same_step = same_length(step, today.holder_step);
        if (same_length(step, 0)) {  // either way up is the same
            all.push_back({static_cast<int>(i), step, today.holder_way, same_step ? 0 : 1});
            continue;
        }
        for (const Way way : {Way::up, Way::down})
            all.push_back(
                {static_cast<int>(i), step, way, same_step && way == today.holder_way ? 0 : 1});
    }
    return all;
}

std::vector<GearChoice> gears_of(const PartsBox& box, const Gears& today) {
    const std::vector<int> pinions =
        box.pinions.empty() ? std::vector<int>{today.pinion} : box.pinions;
    const std::vector<int> spurs = box.spurs.empty() ? std::vector<int>{today.spur} : box.spurs;
    std::vector<GearChoice> all;
    for (const int pinion : pinions)
        for (const int spur : spurs)
            all.push_back(
                {pinion, spur, (pinion == today.pinion ? 0 : 1) + (spur == today.spur ? 0 : 1)});
    return all;
}

bool same_axle(const AxleKind& kind, const Setup& today, double shoulder) {
    return same_length(kind.waist, today.axle.waist) && same_length(kind.bore, today.axle.bore) &&
           kind.material == static_cast<int>(today.axle.material) &&
           same_length(shoulder, today.axial_float.shoulder);
}

std::vector<FloatChoice> floats_of(const PartsBox& box, const Setup& today) {
    const FloatSetting& now = today.axial_float;
    std::vector<double> blades = {now.blade};
    if (now.set_by == FloatBy::blade && !box.blades.empty()) blades = box.blades;
    std::vector<FloatChoice> all;
    for (const double blade : blades) {
        const int changed = same_length(blade, now.blade) ? 0 : 1;
        if (box.axles.empty()) all.push_back({blade, -1, now.shoulder, changed});
        for (std::size_t i = 0; i < box.axles.size(); ++i) {
            const double shoulder = box.axles[i].shoulder.value_or(now.shoulder);
            all.push_back({blade, static_cast<int>(i), shoulder,
                           changed + (same_axle(box.axles[i], today, shoulder) ? 0 : 1)});
        }
    }
    return all;
}

template <class Kinds>
bool enough(const Kinds& kinds, int left, int right) {
    return left < 0 || left != right || kinds[static_cast<std::size_t>(left)].count >= 2;
}

}  // namespace

void set(AxleSide& side, const Rolling& rolling) {
    side.inset = rolling.inset;
    side.rim_diameter = rolling.rim_diameter;
    side.tyre = rolling.size;
}

void set(AxleSide& side, const HolderChoice& holder) {
    side.holder_step = holder.step;
    side.holder_way = holder.way;
}

Lists::Lists(const Setup& today)
    : rolling{rolling_of(today.choosing.box, today.left),
              rolling_of(today.choosing.box, today.right)},
      holders{holders_of(today.choosing.box, today.left),
              holders_of(today.choosing.box, today.right)},
      gears(gears_of(today.choosing.box, today.gears)),
      floats(floats_of(today.choosing.box, today)),
      shims(today.choosing.box, today),
      today_(today) {}

bool Lists::can_roll(std::size_t left, std::size_t right) const {
    const PartsBox& box = today_.choosing.box;
    return enough(box.wheels, rolling[0][left].wheel, rolling[1][right].wheel) &&
           enough(box.tyres, rolling[0][left].tyre, rolling[1][right].tyre);
}

bool Lists::can_hold(std::size_t left, std::size_t right) const {
    return enough(today_.choosing.box.holders, holders[0][left].kind, holders[1][right].kind);
}

Cost Lists::rolling_cost(std::size_t left, std::size_t right) const {
    const std::uint64_t inside = std::uint64_t{shims.places()} * floats.size();
    return {0, 0, rolling[0][left].changes + rolling[1][right].changes,
            (left * rolling[1].size() + right) * inside, 0};
}

Cost Lists::stack_cost(const ShimPair& pair, std::size_t setting) const {
    return {0, pair.shims, pair.changes + floats[setting].changes,
            std::uint64_t{pair.at} * floats.size() + setting, 0};
}

Cost Lists::holder_cost(std::size_t left, std::size_t right) const {
    return {0, 0, holders[0][left].changes + holders[1][right].changes, 0,
            (left * holders[1].size() + right) * gears.size()};
}

Cost Lists::gear_cost(std::size_t at) const { return {0, 0, gears[at].changes, 0, at}; }

void Lists::set_rolling(Setup& setup, std::size_t left, std::size_t right) const {
    set(setup.left, rolling[0][left]);
    set(setup.right, rolling[1][right]);
}

void Lists::set_holders(Setup& setup, std::size_t left, std::size_t right) const {
    set(setup.left, holders[0][left]);
    set(setup.right, holders[1][right]);
}

void Lists::set_float(Setup& setup, std::size_t setting) const {
    const FloatChoice& choice = floats[setting];
    setup.axial_float.blade = choice.blade;
    setup.axial_float.shoulder = choice.shoulder;
    if (choice.axle < 0) return;
    const AxleKind& kind = today_.choosing.box.axles[static_cast<std::size_t>(choice.axle)];
    setup.axle.waist = kind.waist;
    setup.axle.bore = kind.bore;
    setup.axle.material = static_cast<Material>(kind.material);
}

void Lists::set_gears(Setup& setup, std::size_t at) const {
    setup.gears.pinion = gears[at].pinion;
    setup.gears.spur = gears[at].spur;
}

Setup Lists::setup(const Build& build) const {
    Setup setup = today_;
    set_rolling(setup, build.left_rolling, build.right_rolling);
    set_holders(setup, build.left_holder, build.right_holder);
    set_float(setup, build.setting);
    set_gears(setup, build.gears);
    ShimTable::Shims pieces = shims.shims(build.shims);
    setup.left.shims = std::move(pieces.left);
    setup.right.shims = std::move(pieces.right);
    if (setup.motor.clamped_at) {
        const Stack stack = stack_of(setup);
        setup.motor.clamped_at = drive_of(setup, stack, stance_of(setup, stack)).slot.position;
    }
    return setup;
}

double Lists::combinations() const {
    double all = 1;
    for (const std::size_t count :
         {shims.pairs().size(), rolling[0].size() * rolling[1].size(),
          holders[0].size() * holders[1].size(), gears.size() * floats.size()})
        all *= static_cast<double>(count);
    return all;
}

}  // namespace podwright
