#include <catch2/catch.hpp>

#include "core/monte_carlo.hpp"
#include "monte_carlo_variants.hpp"

#include "monte_carlo_drawing.inc"

DrawnBits drawn_by_library(std::uint64_t seed) { return drawn(seed); }

TEST_CASE("draws are the same to the bit with any instruction set") {
    // Derived: the same arithmetic, rounded after every operation (IEEE 754), in any order of
    // lanes.
    for (const std::uint64_t seed : {1U, 20240611U}) {
        const DrawnBits expected = drawn_one_by_one(seed);
        CHECK(expected.below > 1000);
        CHECK(drawn_by_library(seed) == expected);
#if defined(__x86_64__)
        if (__builtin_cpu_supports("avx2")) CHECK(drawn_with_avx2(seed) == expected);
        if (__builtin_cpu_supports("avx512f")) CHECK(drawn_with_avx512(seed) == expected);
#endif
    }
}
