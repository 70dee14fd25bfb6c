#pragma once

#include <random>
#include <string>

#include "core/parameters.hpp"
#include "core/setup.hpp"
#include "file/scene.hpp"

/// The least text that is a scene.
inline const std::string least_scene = R"(
[left]
seat = 31
standout = 0.9
reach = 28
inset = -4.5
tyre_diameter = 43
tyre_width = 41
[right]
seat = 31
standout = 0.9
reach = 28
inset = -4.5
tyre_diameter = 43
tyre_width = 41
[float]
blade = 0.15
[gears]
diametral_pitch = 64
pinion = 34
spur = 76
)";

/// What is said about `text` as the scene car.toml; "no error" if it is one.
inline std::string complaint(const std::string& text) {
    try {
        podwright::parse_scene(text, "car.toml");
    } catch (const podwright::FileError& error) {
        return error.what();
    }
    return "no error";
}

/// `text` with the first `from` replaced.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
    return text.replace(text.find(from), from.size(), to);
}

/// Every value of a parameter, as numbers or text, exactly as they are kept.
inline bool same(const podwright::Setup& a, const podwright::Setup& b) {
    if (a.gears.by_diametral_pitch != b.gears.by_diametral_pitch) return false;
    if (a.gears.pressure_angle != b.gears.pressure_angle ||
        a.motor.slot_angle != b.motor.slot_angle || a.event.roll_max != b.event.roll_max)
        return false;
    for (const podwright::Parameter& p : podwright::parameters()) {
        if (p.key == "gears.diametral_pitch") continue;  // the module stands for it
        if (p.kind == podwright::ValueKind::text && p.get_text(a) != p.get_text(b)) return false;
        if (p.kind == podwright::ValueKind::list && p.get_list(a) != p.get_list(b)) return false;
        if (p.get && p.get(a) != p.get(b)) return false;
    }
    return true;
}

/// Changes some values at random, near the defaults, so that the setup stays free of conflicts.
/// Numbers get all their digits, texts get what is hard to write.
inline void shake(podwright::Setup& setup, std::mt19937& random, double share) {
    const auto chance = [&](double p) { return std::bernoulli_distribution(p)(random); };
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    for (podwright::Side side : podwright::both_sides) {
        podwright::AxleSide& s = setup.side(side);
        if (chance(share)) s.seat = between(30.5, 31.5);
        if (chance(share)) s.inset = between(-5, 5);
        if (chance(share)) s.holder_way = chance(0.5) ? podwright::Way::up : podwright::Way::down;
        if (chance(share)) s.tyre.diameter = between(42, 46);
        if (chance(share)) {
            s.shims.assign(std::uniform_int_distribution<std::size_t>(0, 4)(random), 0.25);
            for (double& shim : s.shims) shim = between(0.02, 0.4);
        }
        if (chance(share) && !s.shims.empty()) s.shims.back() = 0.35;
    }
    if (chance(share)) setup.motor.slot_angle = podwright::radians(between(-5, 30));
    if (chance(share)) setup.gears.pressure_angle = podwright::radians(between(18, 22));
    if (chance(share)) setup.event.roll_max = podwright::radians(between(0, 5));
    if (chance(share)) setup.motor.clamped_at.reset();
    if (chance(share)) setup.motor.clamped_at = between(0, 9);
    if (chance(share)) setup.gears.dedendum = podwright::Dedendum::deep;
    if (chance(share)) setup.gears.dedendum = podwright::Dedendum::full_depth;
    if (chance(share)) {
        setup.gears.by_diametral_pitch = chance(0.5);
        setup.gears.module = setup.gears.by_diametral_pitch
                                 ? podwright::module_from_diametral_pitch(between(48, 72))
                                 : between(0.35, 0.5);
    }
    if (chance(share)) setup.gears.spur_thinning = between(0, 0.05);
    if (chance(share)) setup.axial_float.blade = between(0.02, 0.4);
    if (chance(share)) setup.title = "bench \"two\" \\ half # no comment";
    if (chance(share))
        setup.note = "first line\n\tsecond = \"\"\"line\"\"\" with \xC3\xA9 and \x01";
    if (chance(share)) setup.axle.material = podwright::Material::carbon_tube;
    if (chance(share)) setup.other_axle.material = podwright::Material::titanium_6al4v;
    if (chance(share)) setup.other_axle.material.reset();
    if (chance(share)) setup.other_axle.bore = between(0, 5);
    if (chance(share)) setup.other_axle.strength = between(20, 900);
    if (chance(share)) setup.other_axle.bore.reset();
}
