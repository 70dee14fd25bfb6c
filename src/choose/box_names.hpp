#pragma once

#include <string>
#include <vector>

#include "core/setup.hpp"

// What the parts of a build are called in its parts box.
namespace podwright {

/// The names of the kinds in the box that are as what `setup` has; more than one where they are
/// alike, none where the box holds no such part. What a kind leaves open goes with anything.
std::vector<std::string> axle_names(const Setup& setup);
std::vector<std::string> wheel_names(const Setup& setup, Side side);

struct TyreNames {
    std::vector<std::string> names;
    std::string glued_to;  ///< the kind of wheel, if there is only one such tyre and it is glued
};
TyreNames tyre_names(const Setup& setup, Side side);

}  // namespace podwright
