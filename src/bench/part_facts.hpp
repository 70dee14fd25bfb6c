#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/text.hpp"
#include "evaluate/evaluate.hpp"

namespace podwright {

/// A line about a part: "inset", "-4.50 mm".
struct Fact {
    std::string label;
    std::string value;
};

/// The numbers of the part with this key.
std::vector<Fact> part_facts(std::string_view part, const Setup& setup,
                             const Evaluation& evaluation, LengthUnit shown);

/// The part's title, with its length in the unit that is shown.
std::string shown_title(const Part& part, LengthUnit shown);

/// The adjusters that shape or place this part, the first the most telling.
std::vector<std::string> part_parameters(std::string_view part);

}  // namespace podwright
