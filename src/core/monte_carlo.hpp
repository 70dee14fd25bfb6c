#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/tolerance.hpp"

// Builds of a stack-up drawn at random. The same seed gives the same result to the bit, on any
// number of threads and any processor: each block of builds has its own stream of numbers, which a
// counter-based generator starts, and nothing is summed in an order that threads could change.
namespace podwright {

/// Philox4x32 of ten rounds on the counter `x` (Salmon et al., "Parallel random numbers: as easy as
/// 1, 2, 3", SC 2011).
std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> x,
                                    std::array<std::uint32_t, 2> key);

struct SamplePlan {
    std::uint64_t builds = 1'000'000;  ///< rounded up to whole blocks
    std::uint64_t seed = 1;
    int threads = 1;
    double low = -1e30, high = 1e30;     ///< window; builds outside are counted
    double first_bin = 0, last_bin = 0;  ///< ends of the histogram
    int bins = 0;                        ///< 0: none
};

struct Sample {
    std::uint64_t builds = 0;
    double mean = 0, deviation = 0;  ///< standard deviation
    double least = 0, most = 0;
    std::uint64_t below = 0, above = 0;
    std::vector<std::uint64_t> histogram;  ///< outermost bins also hold what lies beyond

    double outside_share() const;
};

/// Draws each length by its spread (normal: half is three standard deviations) in single precision,
/// good to beyond five standard deviations.
Sample sample(const StackUp& stack_up, const SamplePlan& plan);

inline constexpr std::uint64_t builds_per_block = 16384;

}  // namespace podwright
