#include "core/care.hpp"

namespace podwright {

const std::string& usual_care() {
    static const std::string words =
        "Before hands go near: battery out and the motor's lead off. Gears and wheels that turn "
        "pinch, blades cut, a motor that has run is hot; tyre dust and solvents ask for a mask and "
        "fresh air. The event's rules, the maker's manual and local law come first.";
    return words;
}

}  // namespace podwright
