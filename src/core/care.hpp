#pragma once

#include <string>

namespace podwright {

/// The usual care before a hand goes near the car, for wherever steps at the bench are listed; and
/// that the event's rules, the maker's manual and local law come first.
const std::string& usual_care();

}  // namespace podwright
