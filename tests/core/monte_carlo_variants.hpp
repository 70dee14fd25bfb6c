#pragma once

#include <cstdint>
#include <vector>

// The calculation of core/monte_carlo.cpp compiled for one instruction set at a time, each in a
// namespace of its own: all must give the same bits.

/// Everything of one sample, without a name of the library.
struct DrawnBits {
    std::uint64_t builds = 0, below = 0, above = 0;
    double mean = 0, deviation = 0, least = 0, most = 0;
    std::vector<std::uint64_t> histogram;
    bool operator==(const DrawnBits&) const = default;
};

DrawnBits drawn_one_by_one(std::uint64_t seed);  ///< no vector instructions but SSE2's scalars
DrawnBits drawn_with_avx2(std::uint64_t seed);   ///< only on a processor that has it
DrawnBits drawn_with_avx512(std::uint64_t seed);
/// The library's own choice for this processor.
DrawnBits drawn_by_library(std::uint64_t seed);
