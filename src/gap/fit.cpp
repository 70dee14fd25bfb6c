#include "gap/fit.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <initializer_list>

namespace podwright {

namespace {

/// Side and role of a part by its key: "left.shim.2" -> left, "shim"; "spur" -> no side, "spur".
struct Role {
    std::string_view side, name;
    int number = 0;  ///< of a shim
};

Role role_of(const Part& part) {
    const std::string_view key = part.key;
    Role role;
    role.name = key;
    const std::size_t dot = key.find('.');
    if (dot != std::string_view::npos) {
        role.side = key.substr(0, dot);
        role.name = key.substr(dot + 1);
        const std::size_t second = role.name.find('.');
        if (second != std::string_view::npos) {
            for (char c : role.name.substr(second + 1)) role.number = role.number * 10 + (c - '0');
            role.name = role.name.substr(0, second);
        }
        if (role.side == "pod") {  // pod.left, pod.right are the plates of those sides
            const bool plate = role.name == "left" || role.name == "right";
            role.side = plate ? role.name : std::string_view();
            role.name = plate ? std::string_view("plate") : role.name;
        }
    }
    if (role.name == "carrier" || role.name == "spur" || role.name == "motor") role.side = "right";
    return role;
}

struct Rule {
    std::string_view a, b;
    Fit fit;
    bool same_side;
};

constexpr std::array<Rule, 26> rules = {{
    {"axle", "bearing", Fit::sliding, false},  {"axle", "shim", Fit::sliding, false},
    {"axle", "hub", Fit::fixed, false},        {"axle", "carrier", Fit::fixed, false},
    {"axle", "wheel", Fit::sliding, false},    {"bearing", "holder", Fit::sliding, true},
    {"bearing", "shim", Fit::touching, true},  {"bearing", "hub", Fit::clearance, true},
    {"shim", "hub", Fit::touching, true},      {"shim", "carrier", Fit::touching, true},
    {"shim", "shim", Fit::touching, true},     {"hub", "wheel", Fit::touching, true},
    {"carrier", "wheel", Fit::touching, true}, {"hub", "screws", Fit::fixed, true},
    {"carrier", "screws", Fit::fixed, true},   {"wheel", "screws", Fit::fixed, true},
    {"wheel", "tyre", Fit::fixed, true},       {"carrier", "spur", Fit::fixed, true},
    {"spur", "pinion", Fit::meshing, false},   {"pinion", "motor", Fit::fixed, false},
    {"motor", "plate", Fit::touching, true},   {"holder", "plate", Fit::fixed, true},
    {"floor", "plate", Fit::touching, false},  {"posts", "plate", Fit::touching, false},
    {"blade", "shim", Fit::touching, false},   {"blade", "hub", Fit::touching, false},
}};

bool is(const Role& role, std::initializer_list<std::string_view> names) {
    return std::find(names.begin(), names.end(), role.name) != names.end();
}

bool turns(const Part& part) { return part.moves != Moves::pod && part.moves != Moves::ground; }

bool both(const Role& a, const Role& b, std::initializer_list<std::string_view> first,
          std::initializer_list<std::string_view> second) {
    return (is(a, first) && is(b, second)) || (is(b, first) && is(a, second));
}

/// Whether a shim lies next to the bearing or the hub that it is named with; true of other pairs.
bool neighbours(const Assembly& assembly, const Role& a, const Role& b) {
    const bool shim_first = a.name == "shim";
    const Role& shim = shim_first ? a : b;
    if (shim.name != "shim") return true;
    const std::string_view other = shim_first ? b.name : a.name;
    if (other == "shim") return std::abs(a.number - b.number) == 1;
    if (other == "bearing") return shim.number == 1;
    const std::string next = std::string(shim.side) + ".shim." + std::to_string(shim.number + 1);
    return (other != "hub" && other != "carrier") || !assembly.find(next);
}

}  // namespace

std::string_view word(Fit fit) {
    switch (fit) {
        case Fit::clearance: return "clearance";
        case Fit::touching: return "touching";
        case Fit::sliding: return "sliding fit";
        case Fit::fixed: return "fixed";
        case Fit::meshing: return "mesh";
    }
    return "";
}

Fit fit_between(const Assembly& assembly, const Part& first, const Part& second) {
    const Role a = role_of(first);
    const Role b = role_of(second);
    for (const Rule& rule : rules) {
        const bool named =
            (rule.a == a.name && rule.b == b.name) || (rule.a == b.name && rule.b == a.name);
        if (!named || (rule.same_side && a.side != b.side)) continue;
        return neighbours(assembly, a, b) ? rule.fit : Fit::clearance;
    }
    return Fit::clearance;
}

std::vector<MeantFit> fits_of(const Assembly& assembly) {
    std::vector<MeantFit> all;
    const auto& parts = assembly.parts;
    for (std::size_t i = 0; i < parts.size(); ++i)
        for (std::size_t j = i + 1; j < parts.size(); ++j) {
            const Fit fit = fit_between(assembly, parts[i], parts[j]);
            if (fit == Fit::clearance || parts[i].key == "blade" || parts[j].key == "blade")
                continue;
            all.push_back({parts[i].key, parts[j].key, fit});
        }
    return all;
}

double need_between(const Needs& needs, const Part& first, const Part& second) {
    const Role a = role_of(first);
    const Role b = role_of(second);
    double need = 0;
    if (turns(first) != turns(second)) need = needs.turning_fixed;
    const bool one_axle = first.moves != Moves::pod && second.moves != Moves::pod &&
                          (first.moves == Moves::motor) == (second.moves == Moves::motor);
    if (!one_axle && (is(a, {"spur", "pinion"}) || is(b, {"spur", "pinion"})))
        need = std::max(need, needs.gear);
    if (both(a, b, {"hub", "carrier"}, {"holder", "bearing"})) need = needs.hub_holder;
    // Held apart by the shims between them, however thin.
    if (both(a, b, {"shim"}, {"bearing"})) need = 0;
    if (both(a, b, {"tyre"}, {"plate", "floor", "posts", "motor", "holder"}))
        need = std::max(need, needs.tyre_pod);
    return need;
}

double need_to_ground(const Needs& needs, const Part& part) {
    return turns(part) && role_of(part).name != "tyre" ? needs.turning_ground : 0;
}

}  // namespace podwright
