#pragma once

#include "bench/widgets.hpp"
#include "draw/camera.hpp"

// How mouse and keys move the camera. Pixels of the bench, y down.
namespace podwright {

/// Round its target, as if the model were pushed by that many pixels.
void turn_camera(Camera& camera, glm::dvec2 pixels);

/// Sideways, so that the model moves by that many pixels; `height` is the bench's.
void shift_camera(Camera& camera, glm::dvec2 pixels, double height);

/// Closer to what is under the pointer (or away from it) by notches of a wheel; `size` is the
/// bench's.
void zoom_camera(Camera& camera, double notches, glm::dvec2 pointer, glm::dvec2 size);

/// What a key moves that is pressed with Ctrl: arrows turn, with Shift they shift, + and - zoom.
/// False if it is none of these.
bool move_camera_by_key(Camera& camera, const KeyPress& press, glm::dvec2 size);

}  // namespace podwright
