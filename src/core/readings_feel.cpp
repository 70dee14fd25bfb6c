#include <algorithm>

#include "core/feel.hpp"
#include "core/limits.hpp"
#include "core/readings.hpp"
#include "core/units.hpp"

// Readings of what the axle feels.
namespace podwright {

namespace {

constexpr double g_per_kg = 1000;
constexpr double um_per_mm = 1000;
constexpr double g_cm2_per_kg_mm2 = 10;
constexpr double minutes_per_degree = 60;
constexpr double most_shown = 1e9;  // of a safety without load

struct Adder {
    std::vector<Reading>& all;
    void operator()(std::string_view name, std::string_view label, double value,
                    std::string_view unit, Status status = Status::none,
                    std::optional<double> low = {}, std::optional<double> high = {}) const {
        all.push_back({name, label, value, unit, status, low, high});
    }
};

}  // namespace

void add_float_readings(const Setup& setup, const Feel& feel, double nominal,
                        std::vector<Reading>& all) {
    const Adder add{all};
    const FloatSetting& window = setup.axial_float;
    const auto of_day = [&](std::string_view name, std::string_view label, double value) {
        add(name, label, value, "mm", warm_float_status(setup, value),
            std::max(0.0, window.low - warm_setting), window.high + warm_setting);
    };
    of_day("float.cold", "float, coldest", feel.warmth.float_cold);
    of_day("float.hot", "float, hottest", feel.warmth.float_hot);
    // What builds may come to is judged by how many of them leave the window.
    add("float.min", "float, least to expect", nominal - feel.float_likely, "mm");
    add("float.max", "float, most to expect", nominal + feel.float_likely, "mm");
    add("float.worst_low", "float, worst case least", nominal - feel.float_worst, "mm");
    add("float.worst_high", "float, worst case most", nominal + feel.float_worst, "mm");
    if (feel.warmth.can_be_set()) {
        add("float.set_low", "float to set at the bench, least", feel.warmth.set_low, "mm");
        add("float.set_high", "float to set at the bench, most", feel.warmth.set_high, "mm");
    }
    if (feel.tolerances.empty()) return;
    const double share = feel.tolerances.front().sample.outside_share();
    add("float.outside_share", "builds outside the window", 100 * share, "%",
        share_status(setup, share), {}, 100 * setup.tolerances.share_max);
}

void add_warm_mesh_readings(const Setup& setup, const Feel& feel, std::vector<Reading>& all) {
    const Adder add{all};
    const Gears& g = setup.gears;
    const auto of_backlash = [&](std::string_view name, std::string_view label, double value) {
        add(name, label, value, "mm", warm_backlash_status(setup, value),
            std::max(0.0, g.backlash_low - warm_setting), g.backlash_high + warm_setting);
    };
    of_backlash("mesh.backlash_cold", "backlash, coldest", feel.warmth.backlash_cold);
    of_backlash("mesh.backlash_hot", "backlash, hottest", feel.warmth.backlash_hot);
}

void add_feel_readings(const Setup& setup, const Feel& feel, std::vector<Reading>& all) {
    const Adder add{all};
    const ShaftStudy& s = feel.shaft;
    const Cases& limit = setup.cases;
    add("shaft.deflection_left", "deflection at the left hub", s.hub_left.deflection, "mm");
    add("shaft.deflection_right", "deflection at the gear carrier", s.hub_right.deflection, "mm");
    add("shaft.deflection_gear", "deflection at the spur", s.gear.deflection, "mm");
    add("shaft.slope_left", "slope in the left bearing", degrees(s.bearing_left.slope), "deg");
    add("shaft.slope_right", "slope in the right bearing", degrees(s.bearing_right.slope), "deg");
    add("shaft.slope_gear", "slope at the spur", degrees(s.gear.slope), "deg");
    const double strength = axle_material(setup.axle).strength;
    add("shaft.stress", "stress of the axle", s.worst.equivalent, "N/mm2",
        safety_status(setup, s.worst.safety), {}, strength / limit.safety_low);
    add("shaft.safety", "safety of the axle", std::min(s.worst.safety, most_shown), "",
        safety_status(setup, s.worst.safety), limit.safety_low, {});
    add("shaft.windup_left", "wind-up to the left wheel", degrees(s.windup_left), "deg");
    add("shaft.windup_right", "wind-up to the right wheel", degrees(s.windup_right), "deg");
    add("shaft.windup_lead", "right tread ahead of the left", s.windup_lead, "mm");
    add("shaft.mass", "mass that turns with the axle", g_per_kg * feel.turning.mass, "g");
    add("shaft.inertia", "inertia with the rotor", g_cm2_per_kg_mm2 * feel.turning.inertia,
        "g cm2");
    add("shaft.equivalent_mass", "straight-line mass it is worth",
        g_per_kg * feel.turning.equivalent, "g");
    add("shaft.bending_speed", "first bending speed", s.bending_speed, "rev/min",
        bending_status(setup, s.bending_speed, s.top_speed), limit.margin_low * s.top_speed, {});
    add("shaft.top_speed", "top speed of the axle", s.top_speed, "rev/min");
    add("shaft.torsion_frequency", "first torsional frequency", s.torsion_low, "Hz");
    add("shaft.torsion_second", "second torsional frequency", s.torsion_high, "Hz");

    const BearingStudy& b = feel.bearings;
    add("bearing.load_left", "greatest load, left", b.load_left, "N");
    add("bearing.load_right", "greatest load, right", b.load_right, "N");
    add("bearing.life", "basic rating life", b.life, "h", life_status(setup, b.life),
        limit.life_low, {});
    add("bearing.static_safety", "static safety", std::min(b.static_safety, most_shown), "",
        static_status(setup, b.static_safety), limit.static_low, {});
    add("bearing.misalignment", "greatest slope in a bearing",
        degrees(b.misalignment) * minutes_per_degree, "arcmin",
        misalignment_status(setup, b.misalignment), {},
        degrees(setup.bearing.misalignment_max) * minutes_per_degree);
    add("bearing.play_low", "axial play of a bearing, least", b.play_low, "mm");
    add("bearing.play_high", "axial play of a bearing, most", b.play_high, "mm");
    add("bearing.preload", "preload by negative float", b.preload.force, "N");
    add("bearing.drag", "drag of both bearings", b.drag, "N mm");
    add("bearing.drag_preload", "of it, from negative float", b.drag_preload, "N mm");
    add("load.transfer", "load moved to the outer wheel", s.transfer, "N");
    const auto of_fit = [&](std::string_view low_name, std::string_view low_label,
                            std::string_view high_name, std::string_view high_label,
                            const std::optional<IsoFit>& fit) {
        if (!fit) return;
        const Status status = fit->clearance_low() < 0 ? Status::caution : Status::ok;
        add(low_name, low_label, um_per_mm * fit->clearance_low(), "um", status, 0.0, {});
        add(high_name, high_label, um_per_mm * fit->clearance_high(), "um");
    };
    of_fit("fit.axle_low", "axle in bearing, least", "fit.axle_high", "axle in bearing, most",
           feel.axle_fit);
    of_fit("fit.holder_low", "bearing in holder, least", "fit.holder_high",
           "bearing in holder, most", feel.holder_fit);
}

}  // namespace podwright
