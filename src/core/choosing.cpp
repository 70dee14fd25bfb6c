#include "core/choosing.hpp"

namespace podwright {

const std::vector<std::string>& goal_readings() {
    static const std::vector<std::string> names = {
        "float.nominal",    "width.overall", "width.track", "width.shift",
        "ride.rear",        "ride.roll",     "ride.rake",   "gear.rollout",
        "gear.final_drive", "mesh.backlash", "clearance"};
    return names;
}

}  // namespace podwright
