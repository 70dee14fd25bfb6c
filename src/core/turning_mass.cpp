#include "core/turning_mass.hpp"

#include <algorithm>

namespace podwright {

const TurningPart* TurningMass::find(std::string_view key) const {
    const auto found =
        std::find_if(parts.begin(), parts.end(), [&](const auto& p) { return p.key == key; });
    return found == parts.end() ? nullptr : &*found;
}

void sum_up(TurningMass& turning, double ratio, double rolling) {
    turning.mass = 0;
    turning.inertia = (turning.pinion + turning.rotor) * ratio * ratio;
    for (const TurningPart& part : turning.parts) {
        turning.mass += part.mass;
        turning.inertia += part.polar;
    }
    turning.equivalent = turning.inertia / (rolling * rolling);
}

TurningPart together(const std::vector<const TurningPart*>& parts) {
    TurningPart sum;
    for (const TurningPart* part : parts) {
        sum.mass += part->mass;
        sum.polar += part->polar;
        sum.y += part->mass * part->y;
    }
    if (sum.mass > 0) sum.y /= sum.mass;
    for (const TurningPart* part : parts) {
        const double away = part->y - sum.y;  // Steiner
        sum.transverse += part->transverse + part->mass * away * away;
    }
    return sum;
}

}  // namespace podwright
