#include "core/readings.hpp"

#include <algorithm>

#include "core/feel.hpp"
#include "core/limits.hpp"

namespace podwright {

namespace {

class Readings {
public:
    std::vector<Reading> all;

    void add(std::string_view name, std::string_view label, double value, std::string_view unit,
             Status status = Status::none, std::optional<double> low = {},
             std::optional<double> high = {}) {
        all.emplace_back(Reading{name, label, value, unit, status, low, high});
    }
};

void add_float_and_width(Readings& r, const Setup& setup, const Stack& stack, const Feel* feel) {
    const FloatSetting& window = setup.axial_float;
    const Event& event = setup.event;
    r.add("float.nominal", "float", stack.axial_float, "mm", float_status(setup, stack.axial_float),
          window.low, window.high);
    if (feel) add_float_readings(setup, *feel, stack.axial_float, r.all);
    r.add("width.overall", "overall width", stack.overall_width, "mm",
          width_status(setup, stack.overall_width), {}, event.width_max);
    r.add("width.track", "track", stack.track, "mm");
    r.add("width.left", "left tyre face", stack.left.outer, "mm");
    r.add("width.right", "right tyre face", stack.right.outer, "mm");
    r.add("width.shift", "shift to the left", stack.shift, "mm", shift_status(setup, stack.shift),
          -event.shift_max, event.shift_max);
}

void add_stance(Readings& r, const Setup& setup, const Stance& stance) {
    const Event& event = setup.event;
    r.add("ride.rear", "ride height", stance.ride, "mm", ride_status(setup, stance.ride),
          event.ride_low, event.ride_high);
    r.add("ride.left", "left ride height", stance.left.ride, "mm");
    r.add("ride.right", "right ride height", stance.right.ride, "mm");
    r.add("ride.front", "front ride height", setup.car.front_ride, "mm");
    r.add("ride.rake", "rake", degrees(stance.rake), "deg");
    const double roll_max = degrees(event.roll_max);
    r.add("ride.roll", "roll", degrees(stance.roll), "deg", roll_status(setup, stance.roll),
          -roll_max, roll_max);
    r.add("axle.height", "axle height", stance.axle_height, "mm");
    r.add("axle.tilt", "axle tilt", degrees(stance.axle_tilt), "deg");
}

void add_gears(Readings& r, const Setup& setup, const Drive& drive, const Feel* feel) {
    const Gears& g = setup.gears;
    const PairState& mesh = drive.mesh;
    r.add("mesh.standard_distance", "standard distance", mesh.standard_distance, "mm");
    r.add("mesh.working_distance", "centre distance", mesh.distance, "mm");
    r.add("mesh.distance_unset", "centre distance, mesh not set again", drive.unset.distance, "mm");
    r.add("mesh.backlash", "backlash", mesh.backlash, "mm", backlash_status(setup, mesh.backlash),
          g.backlash_low, g.backlash_high);
    r.add("mesh.backlash_unset", "backlash, mesh not set again", drive.unset.backlash, "mm",
          unset_mesh_status(setup, drive.unset), g.backlash_low, g.backlash_high);
    if (feel) add_warm_mesh_readings(setup, *feel, r.all);
    r.add("mesh.contact_ratio", "contact ratio", mesh.contact_ratio, "",
          contact_ratio_status(mesh.contact_ratio), contact_ratio_low, {});
    r.add("mesh.pressure_angle", "working pressure angle", degrees(mesh.pressure_angle), "deg");
    r.add("mesh.slot_position", "place on the slot", drive.slot.wanted, "mm",
          drive.slot.reached ? Status::ok : Status::stop, 0.0, setup.motor.slot_length);
    r.add("mesh.tilt", "axle against motor", degrees(drive.mesh_tilt), "deg",
          mesh_tilt_status(setup, drive));
    r.add("gear.final_drive", "final drive", drive.final_drive, "");
    r.add("gear.rollout", "rollout", drive.rollout, "mm", rollout_status(setup, drive.rollout),
          unless_zero(setup.event.rollout_low), unless_zero(setup.event.rollout_high));
    r.add("gear.speed", "speed", drive.speed, "km/h");
    r.add("gear.spur_outside", "spur outside", diameters(drive.spur).outside, "mm");
    r.add("gear.pinion_outside", "pinion outside", diameters(drive.pinion).outside, "mm");
    r.add("gear.tooth_stress", "tooth stress", drive.tooth_stress, "N/mm2");
}

}  // namespace

std::string_view word(Status status) {
    switch (status) {
        case Status::none: return "none";
        case Status::ok: return "ok";
        case Status::caution: return "caution";
        case Status::stop: return "stop";
    }
    return "";
}

std::string limits_text(const Reading& reading, LengthUnit shown) {
    const Written as = written_as(reading.unit, shown);
    int decimals = as.decimals;
    for (const auto& limit : {reading.low, reading.high})
        if (limit) decimals = std::max(decimals, limit_decimals(*limit * as.factor, decimals));
    const auto number = [&](const std::optional<double>& limit) {
        return limit ? fixed(*limit * as.factor, decimals) : std::string();
    };
    return range_text(number(reading.low), number(reading.high));
}

std::vector<Reading> readings_of(const Setup& setup, const Stack& stack, const Stance& stance,
                                 const Drive& drive, const Feel* feel) {
    Readings r;
    r.all.reserve(80);
    add_float_and_width(r, setup, stack, feel);
    add_stance(r, setup, stance);
    add_gears(r, setup, drive, feel);
    if (feel) add_feel_readings(setup, *feel, r.all);
    return std::move(r.all);
}

}  // namespace podwright
