#pragma once

#include <optional>
#include <vector>

#include "choose/build.hpp"
#include "choose/cost.hpp"
#include "random_setup.hpp"

// Choosing by enumeration of every build, without the search; setups and boxes are invented.
namespace podwright {

/// A small box around the demo, another on every call.
Setup random_problem(RandomSetups& random);

struct Plain {
    Setup setup;
    Cost cost;
};

/// Shims on both sides by fewest pieces, then fewest changes, for each pair of sums; by going
/// through every way to share out the box.
std::vector<ShimPair> plain_shims(const Setup& s);

/// Everything in turn, the best first: no bounds, no order, no sharing of work.
std::vector<Plain> brute_force(const Setup& today, std::optional<std::size_t> most_changes = {});

}  // namespace podwright
