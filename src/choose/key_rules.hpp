#pragma once

#include <array>
#include <utility>
#include <vector>

#include "choose/build.hpp"
#include "core/parameters.hpp"

namespace podwright {

/// The lists of which one choice each makes a build.
enum class Chosen { left_rolling, right_rolling, left_holder, right_holder, setting, gears };
inline constexpr int chosen_count = 6;

/// `today` with that choice of that list, and nothing else changed.
Setup with_choice(const Setup& today, const Lists& lists, Chosen list, std::size_t at);
/// How many choices it has.
std::size_t size_of(const Lists& lists, Chosen list);

/// The rules on keys of the scene. A key belongs to one list at most, so such a rule is judged once
/// for each choice of that list, and once for all where no list sets the key.
class KeyRules {
public:
    KeyRules(const Setup& today, const Lists& lists);

    /// Whether those hold that no build can change.
    bool hold_always() const { return hold_always_; }
    /// Whether those hold that the list decides; `setup` has a choice of it.
    bool hold(Chosen list, const Setup& setup) const;

private:
    using Ruled = std::pair<const EventRule*, const Parameter*>;
    std::array<std::vector<Ruled>, chosen_count> of_;
    bool hold_always_ = true;
};

}  // namespace podwright
