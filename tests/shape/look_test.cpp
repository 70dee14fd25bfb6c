#include <catch2/catch.hpp>

#include "shape_support.hpp"

using namespace podwright;

TEST_CASE("a part looks like what it is made of") {
    Setup s;
    const auto look = [&](const char* key) { return Built(s).part(key).bodies.front().look; };
    CHECK(look("pod.left") == Look::aluminium);
    CHECK(look("pod.floor") == Look::carbon);
    CHECK(look("axle") == Look::bright_steel);
    CHECK(look("pinion") == Look::brass);
    CHECK(look("spur") == Look::white_plastic);
    CHECK(look("left.wheel") == Look::black_plastic);
    s.axle.material = Material::carbon_wrapped;
    s.materials.plates = Material::carbon_plate;
    s.materials.pinion = Material::steel_4140;
    s.materials.hub = Material::pom;
    s.materials.wheels = Material::titanium_6al4v;
    CHECK(look("axle") == Look::carbon);
    CHECK(look("pod.right") == Look::carbon);
    CHECK(look("pinion") == Look::bright_steel);
    CHECK(look("left.hub") == Look::black_plastic);
    CHECK(look("right.wheel") == Look::dark_steel);
    CHECK(look("carrier") == Look::anodised);
}
