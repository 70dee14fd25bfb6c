#pragma once

#include "bench/model.hpp"

// Clearances while something is dragged: a drag must not wait. What takes long to measure (a tilted
// axle, parts deep in each other) is measured in a fifth of the time, and what takes very long when
// it is let go; in between the last ones stand.
namespace podwright {

/// Seconds of a clock that never goes back.
double clock_now();

/// Whether the model has to do without a measurement for now.
bool must_wait(const Model& model);
/// To be told of every measurement in a drag, with the time at which it began.
void note_measuring(Model& model, double start);

/// Takes over what was measured last, without fixes, as far as its parts are still there.
void keep_clearances(Evaluation&& last, Evaluation& now);

}  // namespace podwright
