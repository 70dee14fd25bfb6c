#include "core/shaft_loads.hpp"

#include <algorithm>
#include <cmath>

#include "core/units.hpp"

namespace podwright {

namespace {

constexpr double newton_per_mm2_per_gpa = 1000;
constexpr double kg_per_mm3_per_g_per_cm3 = 1e-6;

/// Middle of the balls, outboard.
double bearing_u(const Setup& setup, Side side) {
    return setup.side(side).seat + setup.bearing.flange_width - setup.bearing.width / 2;
}

CaseLoads cornering(CaseLoads loads, const Setup& setup, const Stack& stack, bool to_left) {
    const double at_rest = loads.left.vertical + loads.right.vertical;
    const double mass = at_rest / standard_gravity;
    loads.transfer = load_transfer(mass, setup.cases.lateral, setup.car.cg_height, stack.track);
    WheelLoad& outer = to_left ? loads.right : loads.left;
    WheelLoad& inner = to_left ? loads.left : loads.right;
    // A lifted wheel carries nothing; the other then carries all.
    inner.vertical = std::max(0.0, inner.vertical - loads.transfer);
    outer.vertical = at_rest - inner.vertical;
    const double sense = to_left ? 1 : -1;
    for (WheelLoad* wheel : {&outer, &inner})
        wheel->lateral = sense * setup.cases.lateral * wheel->vertical;
    loads.thrust = outer.lateral + inner.lateral;
    return loads;
}

CaseLoads launch(CaseLoads loads, const Setup& setup, const Stance& stance, const Drive& drive) {
    loads.gear_torque = setup.motor.torque * drive.final_drive;
    loads.left.drive = loads.gear_torque / 2 / stance.left.rolling;
    loads.right.drive = loads.gear_torque / 2 / stance.right.rolling;
    return loads;
}

void add_wheel(std::vector<ShaftLoad>& out, const WheelLoad& wheel, double hub, double centre,
               double rolling) {
    const double beyond = centre - hub;
    // A force to the left, a radius below the axle, turns the left end up: it grows dz/dy.
    out.push_back({hub, wheel.drive, wheel.vertical, wheel.drive * beyond,
                   wheel.vertical * beyond + wheel.lateral * rolling, -wheel.drive * rolling});
}

}  // namespace

ShaftPlaces shaft_places(const Setup& setup, const Stack& stack, const Drive& drive) {
    return {stack.left.mounting, -stack.right.mounting,        stack.left.wheel,
            -stack.right.wheel,  bearing_u(setup, Side::left), -bearing_u(setup, Side::right),
            -drive.gear_u};
}

ShaftMaterial axle_material(const Axle& axle) {
    const MaterialData& m = data(axle.material);
    const double strength = axle.strength.value_or(m.strength);
    return {axle.elastic_modulus.value_or(m.elastic_modulus) * newton_per_mm2_per_gpa,
            axle.shear_modulus.value_or(m.shear_modulus) * newton_per_mm2_per_gpa,
            m.density * kg_per_mm3_per_g_per_cm3, strength,
            strength * m.shear_strength / m.strength};
}

AxleReach axle_reach(const Setup& setup, const Stack& stack) {
    const double end = 3.0;          // beyond the wheels' mounting faces
    const double beside_ring = 0.3;  // the waist starts this far inboard of the bearing
    const double inboard = setup.bearing.flange_width - setup.bearing.width - beside_ring;
    return {-stack.right.mounting - end, stack.left.mounting + end, -setup.right.seat - inboard,
            setup.left.seat + inboard};
}

Shaft axle_shaft(const Setup& setup, const Stack& stack) {
    const Axle& a = setup.axle;
    const AxleReach reach = axle_reach(setup, stack);
    const double cone = (a.diameter - a.waist) / 2;
    const double low = reach.waist_low + cone / 2, high = reach.waist_high - cone / 2;
    const double right_end = reach.low, left_end = reach.high;
    Shaft shaft;
    shaft.material = axle_material(a);
    shaft.bearing_right = -bearing_u(setup, Side::right);
    shaft.bearing_left = bearing_u(setup, Side::left);
    shaft.sections = {{right_end, left_end, a.diameter, a.bore}};
    if (high - low > 1 && cone > 0)
        shaft.sections = {{right_end, low, a.diameter, a.bore},
                          {low, high, a.waist, a.bore},
                          {high, left_end, a.diameter, a.bore}};
    return shaft;
}

std::string_view title(LoadCase which) {
    switch (which) {
        case LoadCase::rest: return "at rest";
        case LoadCase::corner_left: return "in a left turn";
        case LoadCase::corner_right: return "in a right turn";
        case LoadCase::launch: return "at launch";
        case LoadCase::kerb_left: return "on a kerb, left (rule of thumb)";
        case LoadCase::kerb_right: return "on a kerb, right (rule of thumb)";
    }
    return "";
}

double load_transfer(double mass, double lateral, double cg_height, double track) {
    return mass * lateral * standard_gravity * cg_height / track;
}

CaseLoads case_loads(LoadCase which, const Setup& setup, const Stack& stack, const Stance& stance,
                     const Drive& drive) {
    CaseLoads loads;
    loads.which = which;
    loads.left.vertical = setup.left.tyre.load;
    loads.right.vertical = setup.right.tyre.load;
    switch (which) {
        case LoadCase::rest: break;
        case LoadCase::corner_left: return cornering(loads, setup, stack, true);
        case LoadCase::corner_right: return cornering(loads, setup, stack, false);
        case LoadCase::launch: return launch(loads, setup, stance, drive);
        case LoadCase::kerb_left:
        case LoadCase::kerb_right: {
            WheelLoad& wheel = which == LoadCase::kerb_left ? loads.left : loads.right;
            wheel.vertical *= setup.cases.kerb;
            wheel.drive = -wheel.vertical;
            break;
        }
    }
    return loads;
}

std::vector<ShaftLoad> shaft_loads(const CaseLoads& loads, const ShaftPlaces& at,
                                   const Setup& setup, const Stance& stance, const Drive& drive) {
    std::vector<ShaftLoad> out;
    out.reserve(3);
    add_wheel(out, loads.left, at.hub_left, at.wheel_left, stance.left.rolling);
    add_wheel(out, loads.right, at.hub_right, at.wheel_right, stance.right.rolling);
    const bool kerb = loads.which == LoadCase::kerb_left || loads.which == LoadCase::kerb_right;
    if (kerb)  // the blow points at the axle and does not turn it
        for (ShaftLoad& load : out) load.torque = 0;
    if (loads.gear_torque != 0) {
        const SlotPoint motor = slot_point(setup.motor, drive.slot.position);
        const double cx = motor.x / drive.mesh.distance;
        const double cz = (motor.z - drive.axle_z) / drive.mesh.distance;
        const double radius = drive.spur_radius();
        const double tangential = loads.gear_torque / radius;
        const double radial = tangential * std::tan(drive.mesh.pressure_angle);
        // At the mesh, radius out along the line of centres, a force of (cz, -cx) turns forward;
        // the pinion pushes the spur away from itself.
        out.push_back({at.gear, tangential * cz - radial * cx, -tangential * cx - radial * cz, 0, 0,
                       loads.gear_torque});
    }
    return out;
}

}  // namespace podwright
