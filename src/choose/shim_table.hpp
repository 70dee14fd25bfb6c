#pragma once

#include <cstdint>
#include <vector>

#include "core/choosing.hpp"
#include "core/setup.hpp"

namespace podwright {

/// More shims than this on both sides together are not considered.
inline constexpr int most_shims = 12;

/// What the shims of the box can add up to on the left and on the right at once.
struct ShimPair {
    int left = 0;  ///< sums, µm
    int right = 0;
    int shims = 0;         ///< pieces, the fewest
    int changes = 0;       ///< pieces put in or taken out, the fewest with so many
    std::uint32_t at = 0;  ///< place in the order of (left, right)
};

/// All pairs of sums, each by the fewest pieces, then the fewest changes, then the fewest of the
/// last kind on the left, on the right, of the kind before it, and so on.
class ShimTable {
public:
    /// Without shims in the box: today's, unchanged.
    ShimTable(const PartsBox& box, const Setup& today);

    /// In the order of (left - right), then of left.
    const std::vector<ShimPair>& pairs() const { return pairs_; }
    /// One more than the greatest place.
    std::uint32_t places() const { return places_; }
    /// Fewer than most_shims where so many different sums would be too many to hold.
    int most() const { return most_; }

    struct Shims {
        std::vector<double> left, right;  ///< thicknesses, from the bearing outboard
    };
    /// The shims themselves: those that stay in today's order, then new ones, thickest first.
    Shims shims(const ShimPair& pair) const;

private:
    void find_sums();
    void fill();
    void layer(std::size_t kind);
    std::int32_t sum_at(int sum) const;

    struct Kind {
        double thickness;
        int micrometres;
        int count;
        int today_left, today_right;
    };
    struct Value {
        std::uint16_t shims = 0xFFFF;
        std::uint16_t changes = 0;
    };
    std::vector<Kind> kinds_;
    std::vector<double> today_left_, today_right_;
    int lost_ = 0;  ///< shims of today that the box does not hold
    int most_ = most_shims;
    std::vector<int> sums_;  ///< of one side, ascending
    std::vector<Value> values_;
    std::vector<std::vector<std::uint8_t>> picks_;  ///< of each kind, for each pair of sums
    std::vector<ShimPair> pairs_;
    std::uint32_t places_ = 1;
};

}  // namespace podwright
