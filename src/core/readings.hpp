#pragma once

#include <vector>

#include "core/drive.hpp"
#include "core/reading.hpp"
#include "core/setup.hpp"
#include "core/stack.hpp"
#include "core/stance.hpp"
#include "core/text.hpp"

namespace podwright {

struct Feel;

/// The readings that stack, stance and drive give, in the order in which a report lists them.
/// With `feel` also what the axle feels, each with its group.
std::vector<Reading> readings_of(const Setup& setup, const Stack& stack, const Stance& stance,
                                 const Drive& drive, const Feel* feel = nullptr);

/// A reading's limits without unit, with the decimals that they need: "0.045 to 0.255".
std::string limits_text(const Reading& reading, LengthUnit shown);

/// The groups of readings that Feel gives; each appends to `all`.
void add_float_readings(const Setup& setup, const Feel& feel, double nominal,
                        std::vector<Reading>& all);
void add_warm_mesh_readings(const Setup& setup, const Feel& feel, std::vector<Reading>& all);
void add_feel_readings(const Setup& setup, const Feel& feel, std::vector<Reading>& all);

}  // namespace podwright
