#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/parameters.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

/// What became of an edit.
struct EditResult {
    Setup setup;          ///< the new one, or the old one if it was refused
    std::string refusal;  ///< empty if it was taken; else one line why not
};

/// `setup` with the changes, as somebody at the bench means them: with `linked` a change on one
/// side is made on the other too, where both were alike; turning or changing a holder leaves the
/// motor clamped where it was (`evaluation.drive.slot`), changing the gears means that the mesh is
/// set anew; another way of setting the float begins with the float that there is. An edit that no
/// car could have is refused.
EditResult edited(const Setup& setup, const Evaluation& evaluation, std::span<const Change> changes,
                  bool linked);

/// Labels of what differs between the sides: a linked change does not touch it.
std::vector<std::string> unlike_sides(const Setup& setup);

/// `value` kept to the range of `parameter` and to whole steps.
double to_step(const Parameter& parameter, double value);

/// "inset -4.50 mm", "spur 76", "holder way up": what undo says it takes back.
std::string describe(const Change& change, LengthUnit shown);

/// A number of `parameter` as shown, with its unit.
std::string shown_value(const Parameter& parameter, double value, LengthUnit shown);

/// A reading whose difference is smaller than this, what is shown of it, has not changed.
inline constexpr double shown_difference = 0.005;

/// A reading as shown, with its unit: "171.62 mm", "0.41°", "2.24".
std::string shown_reading(const Reading& reading, LengthUnit shown);
/// A difference of a reading as shown, with its sign: "+0.40 mm".
std::string shown_change(const Reading& reading, double change, LengthUnit shown);

}  // namespace podwright
