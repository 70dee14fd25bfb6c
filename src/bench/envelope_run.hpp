#pragma once

#include <string>

#include "bench/model.hpp"

namespace podwright {

/// Puts float, turn, tyre wear and roll where they are at `model.envelope`: the axle slides from
/// end to end while it turns once, the tyres wear down, and the pod rolls to either side.
void show_envelope(Model& model);
/// The same in words: "axle at the left, tyres 1.5 mm smaller, 0.7° of roll to the right"; empty as
/// it stands.
std::string envelope_words(const Model& model);

}  // namespace podwright
