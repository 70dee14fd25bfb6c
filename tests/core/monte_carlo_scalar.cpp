#include "monte_carlo_variants.hpp"

// The calculation once more, in a namespace of its own.
#define podwright podwright_scalar
#define PODWRIGHT_VECTORISED
#include "core/monte_carlo.cpp"  // NOLINT(bugprone-suspicious-include)
#include "monte_carlo_drawing.inc"

DrawnBits drawn_one_by_one(std::uint64_t seed) { return drawn(seed); }
