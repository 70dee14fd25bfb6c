#include <array>
#include <cmath>

#include "core/parameters.hpp"
#include "shape/assembly.hpp"
#include "shape/builders.hpp"

// Parts for which a mesh of the user's own stands.
namespace podwright {

namespace {

glm::dmat4 turn_about_y(double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    return {glm::dvec4(c, 0, -s, 0), glm::dvec4(0, 1, 0, 0), glm::dvec4(s, 0, c, 0),
            glm::dvec4(0, 0, 0, 1)};
}

glm::dmat4 turn_about_z(double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    return {glm::dvec4(c, s, 0, 0), glm::dvec4(-s, c, 0, 0), glm::dvec4(0, 0, 1, 0),
            glm::dvec4(0, 0, 0, 1)};
}

glm::dmat4 place_of(const OwnPart& own) {
    const glm::dmat4 turn =
        turn_about_z(own.turn[2]) * turn_about_y(own.turn[1]) * turn_about_x(own.turn[0]);
    return shift(own.move[0], own.move[1], own.move[2]) * turn * scaled(own.scale);
}

std::vector<std::string> all_keys() {
    std::vector<std::string> keys = {"axle", "pod.left", "pod.right", "pod.posts", "pod.floor"};
    for (const Side side : both_sides) {
        keys.push_back(side_key(side, "holder"));
        keys.push_back(side_key(side, "bearing"));
        const std::string list = side_key(side, "shims");
        const std::size_t most = find_parameter(list)->longest;
        for (std::size_t i = 1; i <= most; ++i)
            keys.push_back(side_key(side, "shim." + std::to_string(i)));
        for (const char* own :
             side == Side::left ? std::array{"blade", "left.hub"} : std::array{"spur", "carrier"})
            keys.emplace_back(own);
        for (const char* name : {"wheel", "tyre", "screws"}) keys.push_back(side_key(side, name));
    }
    keys.insert(keys.end(), {"motor", "pinion"});
    return keys;
}

}  // namespace

const std::vector<std::string>& part_keys() {
    static const std::vector<std::string> keys = all_keys();
    return keys;
}

void put_own_parts(Build& build) {
    for (const OwnPart& own : build.setup.own_parts) {
        if (own.found.empty()) continue;
        for (Part& part : build.out.parts) {
            if (part.key != own.part) continue;
            const Look look = own.look.value_or(part.bodies.front().look);
            part.bodies.clear();
            part.bodies.push_back({Imported{own.found, own.stamp}, place_of(own), look});
            part.title += " (own mesh)";
        }
    }
}

}  // namespace podwright
