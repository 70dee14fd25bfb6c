#include "shape/guides.hpp"

#include <algorithm>

namespace podwright {

namespace {

/// Parts strung on one straight line, from the first to the last of them.
struct String {
    glm::dvec3 point, direction;
    double low = 1e300, high = -1e300;  // along the direction
    std::vector<std::string> parts;

    void add(const Part& part, double spread) {
        const glm::dvec3 at = glm::dvec3(part.place[3]) + part.explode * spread;
        const double along = glm::dot(at - point, direction);
        low = std::min(low, along);
        high = std::max(high, along);
        parts.push_back(part.key);
    }
    Guide line() const { return {point + direction * low, point + direction * high, parts}; }
};

bool along(const glm::dvec3& way, const glm::dvec3& direction) {
    return glm::length(glm::cross(way, direction)) <= 1e-6 * glm::length(way);
}

bool on_motor(const Part& part) {
    return part.key == "pinion" || part.key.compare(0, 5, "motor") == 0;
}

}  // namespace

std::vector<Guide> guides(const Assembly& assembly, double spread) {
    std::vector<Guide> lines;
    if (spread <= 0) return lines;
    String axle;
    axle.point = assembly.axle_point;
    axle.direction = assembly.axle_direction;
    String motor;
    motor.point = assembly.motor_point;
    motor.direction = {0, 1, 0};
    for (const Part& part : assembly.parts) {
        if (on_motor(part)) {
            motor.add(part, spread);
        } else if (along(part.explode, assembly.axle_direction)) {
            if (part.explode != glm::dvec3(0)) axle.add(part, spread);
        } else {
            for (const Body& body : part.bodies) {
                const glm::dvec3 home(part.place * body.place[3]);
                lines.push_back({home, home + part.explode * spread, {part.key}});
            }
        }
    }
    for (const String& string : {axle, motor})
        if (string.high > string.low) lines.push_back(string.line());
    return lines;
}

}  // namespace podwright
