#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <map>
#include <string>

#include "core/shaft.hpp"

// The shaft against CalculiX 2.20, 20-node solid elements, decks in calculix/. Its numbers are kept
// here; where ccx is installed it is run as well.
using namespace podwright;

namespace {

struct Place {
    const char* deck;
    double y;
    double deflection;  // mm, as printed by ccx 2.20
    double tolerance;   // relative
};

const Place kept[] = {
    {"slender", 75, 0.1814229, 0.01},  {"slender", -75, 0.05627068, 0.01},
    {"slender", 0, -0.02880472, 0.01}, {"slender", 51, 0.07212841, 0.01},
    {"short", 18, 0.003846361, 0.02},  {"short", -18, 0.002520345, 0.02},
    {"short", 0, -0.0007250811, 0.02},
};

double ours(const std::string& deck, double y) {
    const double E = 207000;
    const ShaftMaterial steel{E, E / 2.6, 7.85e-6, 600, 346};
    Shaft shaft;
    shaft.material = steel;
    std::vector<ShaftLoad> loads;
    if (deck == "slender") {
        shaft.sections = {{-75, -28, 6.35, 4}, {-28, 28, 6, 4}, {28, 75, 6.35, 4}};
        shaft.bearing_right = -30;
        shaft.bearing_left = 30;
        loads = {{75, 0, 30, 0, 0, 0}};
    } else {
        shaft.sections = {{-18, 18, 8, 5}};
        shaft.bearing_right = -8;
        shaft.bearing_left = 8;
        loads = {{18, 0, 100, 0, 0, 0}, {-18, 0, 60, 0, 0, 0}};
    }
    std::vector<double> stations;
    for (const ShaftLoad& load : loads) stations.push_back(load.y);
    const ShaftModel model(shaft, stations);
    return model.at(model.solve(loads), y).z;
}

}  // namespace

TEST_CASE("the shaft agrees with CalculiX's kept numbers") {
    for (const Place& p : kept) {
        INFO(p.deck << " at " << p.y);
        CHECK(ours(p.deck, p.y) == Approx(p.deflection).epsilon(p.tolerance));
    }
}

TEST_CASE("the shaft agrees with CalculiX run here") {
    if (std::system("command -v ccx >/dev/null 2>&1") != 0) {
        WARN("ccx is not installed: only its kept numbers are compared");
        return;
    }
    const std::string script = std::string(PODWRIGHT_SOURCE_DIR) + "/tests/core/calculix/run";
    std::FILE* pipe = popen(script.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::map<std::string, std::map<double, double>> found;
    char deck[32];
    double y = 0, z = 0;
    while (std::fscanf(pipe, "%31s %lf %lf", deck, &y, &z) == 3) found[deck][y] = z;
    REQUIRE(pclose(pipe) == 0);
    for (const Place& p : kept) {
        INFO(p.deck << " at " << p.y);
        REQUIRE(found[p.deck].count(p.y) == 1);
        CHECK(found[p.deck][p.y] == Approx(p.deflection).epsilon(1e-4));
        CHECK(ours(p.deck, p.y) == Approx(found[p.deck][p.y]).epsilon(p.tolerance));
    }
}
