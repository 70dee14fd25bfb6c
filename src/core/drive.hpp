#pragma once

#include "core/gears.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"

// From the motor to the ground: gears at the place that the motor's slot gives them, rollout,
// speed.
namespace podwright {

/// Where on the slot the motor's axis is for a wanted centre distance.
struct SlotPlace {
    double wanted;    ///< place on the slot line that gives the distance, mm from its start;
                      ///< the place nearest to it if none on the endless line does
    double position;  ///< the same, kept to the slot
    bool reached;     ///< wanted == position
    double distance;  ///< centre distance at `position`
};

/// Solves |slot(p) - (0, axle_z)| = distance for p, on the side of the line that leads away from
/// the axle.
SlotPlace place_on_slot(const Motor& motor, double axle_z, double distance);

/// What a motor's size sets, after a can of 35.8 mm. Radii, mm.
struct MotorShape {
    double scale;       ///< 1 for that can
    double boss;        ///< that stands in the plate
    double screws;      ///< from the motor's axis to its two screws
    double boss_slot;   ///< half the width of the plate's slot for the boss
    double screw_slot;  ///< and of those for the screws
};
MotorShape motor_shape(const Motor& motor);

/// Point (x, z) of the motor's axis at `position` on the slot, pod axes.
struct SlotPoint {
    double x, z;
};
SlotPoint slot_point(const Motor& motor, double position);

/// The gears of a setup as they are cut.
Gear pinion_of(const Gears& gears);
Gear spur_of(const Gears& gears);

struct Drive {
    Gear pinion, spur;
    /// Of the working pitch circles, where the mesh is set.
    double pinion_radius() const {
        return mesh.distance * pinion.teeth / (pinion.teeth + spur.teeth);
    }
    double spur_radius() const { return mesh.distance - pinion_radius(); }
    double gear_u;           ///< middle of the spur's face, outboard on the right
    double axle_z;           ///< of the axle there, in the pod
    SlotPlace slot;          ///< of the motor, set for the wanted backlash
    PairState mesh;          ///< the pair there
    double motor_at;         ///< where it stands on the slot: where it was last clamped, if it was
    PairState unset;         ///< the pair with the motor there
    double mesh_tilt;        ///< angle between the axle and the motor's axis, rad
    double backlash_across;  ///< change of backlash across the face width that the tilt makes, mm
    double final_drive;      ///< Ns / Np
    double rollout;          ///< pi D Np / Ns with the mean tyre diameter D, mm per motor turn
    double speed;            ///< at the motor speed, km/h
    double tooth_stress;     ///< Lewis, the weaker of the two gears, N/mm²
};

Drive drive_of(const Setup& setup, const Stack& stack, const Stance& stance);

}  // namespace podwright
