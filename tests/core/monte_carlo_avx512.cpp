#include "monte_carlo_variants.hpp"

// The calculation once more, in a namespace of its own.
#define podwright podwright_avx512
#if defined(__x86_64__)
#define PODWRIGHT_VECTORISED __attribute__((target("avx512f")))
#else
#define PODWRIGHT_VECTORISED
#endif
#include "core/monte_carlo.cpp"  // NOLINT(bugprone-suspicious-include)
#include "monte_carlo_drawing.inc"

DrawnBits drawn_with_avx512(std::uint64_t seed) { return drawn(seed); }
