#include "bench/loupe_mesh.hpp"

#include <cmath>

#include "bench/status_word.hpp"

namespace podwright {

glm::dvec3 pitch_point(const Evaluation& evaluation) {
    const Drive& drive = evaluation.drive;
    const glm::dvec3 motor = evaluation.assembly.motor_point;
    const glm::dvec3 axle(0, motor.y, drive.axle_z);
    const double share =
        static_cast<double>(drive.pinion.teeth) / (drive.pinion.teeth + drive.spur.teeth);
    return motor + (axle - motor) * share;
}

BacklashWords backlash_words(const Evaluation& evaluation, LengthUnit shown) {
    const Drive& drive = evaluation.drive;
    const bool is_set = std::abs(drive.unset.distance - drive.mesh.distance) < 1e-6;
    const Reading* reading = evaluation.reading(is_set ? "mesh.backlash" : "mesh.backlash_unset");
    BacklashWords words;
    words.number = length(drive.unset.backlash, shown);
    words.text = (is_set ? "backlash " : "backlash, not set again, ") + words.number;
    if (!reading) return words;
    words.status = reading->status;
    if (words.status != Status::none) words.text += ", " + std::string(status_word(*reading));
    return words;
}

LoupeView loupe_on_mesh(const Evaluation& evaluation, LengthUnit shown) {
    constexpr double pitches = 1.6;  // so many from edge to edge
    constexpr double far = 800;      // no perspective: the teeth are seen in profile
    const BacklashWords words = backlash_words(evaluation, shown);
    LoupeView view;
    view.of = LoupeView::Of::mesh;
    view.across = pitches * pi * evaluation.drive.pinion.module;
    view.gap = pitch_point(evaluation);
    view.camera.azimuth = -pi / 2;
    view.camera.elevation = 0;
    aim(view, view.gap, far);
    view.caption = words.text;
    view.status = words.status;
    return view;
}

StageLook look_of_mesh(const Pose& pose) {
    StageLook look;
    look.pose = pose;
    look.hidden = {"right.tyre", "right.wheel", "right.screws", "right.hub", "pod.right", "motor"};
    return look;
}

}  // namespace podwright
