#pragma once

#include <compare>
#include <cstdint>

namespace podwright {

/// What a build, or a part of it, costs: points lost against the goals first, then pieces of shim,
/// then changes from today's build, then its place in the order of the lists, so that no two builds
/// cost the same. All whole numbers that add up over the parts of a build: the least of a sum of
/// independent parts is the sum of their least.
struct Cost {
    std::int64_t points = 0;  ///< millionths of a point
    std::int32_t shims = 0;
    std::int32_t changes = 0;
    std::uint64_t outer = 0;  ///< place among wheels, tyres, shims, blades and axles
    std::uint64_t inner = 0;  ///< place among holders and gears
    // The check sees the 0 with which a compared order is compared.
    auto operator<=>(const Cost&) const = default;  // NOLINT(modernize-use-nullptr)
    Cost operator+(const Cost& other) const {
        return {points + other.points, shims + other.shims, changes + other.changes,
                outer + other.outer, inner + other.inner};
    }
};

inline constexpr double point = 1e6;

}  // namespace podwright
