#include "gap/plate.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "gap/general.hpp"
#include "random_setup.hpp"
#include "shape/loops.hpp"

using namespace podwright;

namespace {

constexpr std::uint64_t seed = 31337;

const MeshLibrary no_meshes = [](std::string_view) -> const Mesh& {
    throw std::out_of_range("no meshes here");
};

Form form(Solid solid) {
    return form_of({std::move(solid), glm::dmat4(1), Look::aluminium}, no_meshes);
}

/// x of the plate's frame is up, its outline lies in the plane of the axis; turned by `angle` about
/// up.
Frame plate_frame(double angle, const glm::dvec3& origin) {
    const glm::dvec3 up(0, 0, 1);
    const glm::dvec3 y(std::cos(angle), std::sin(angle), 0);
    return {glm::dmat3(up, y, glm::cross(up, y)), origin};
}

}  // namespace

TEST_CASE("a roller over a plate by hand") {
    // Derived: radius 5, axis 8 over the face of a plate that reaches to y = +-3.
    const Form roller = form(Revolved{rectangle({-10, 0}, {10, 5})});
    const Form plate = form(Extruded{rectangle({-20, -3}, {20, 3}), {}, 2});
    Gap gap;
    REQUIRE(offer_plate(roller, plate, plate_frame(0, {0, 0, -10}), gap));
    CHECK(gap.gap == Approx(3).margin(1e-12));
    CHECK(gap.b.z == Approx(-8).margin(1e-12));

    // Beside the axis the nearest place is the plate's edge: 4 aside and 8 down.
    gap = {};
    REQUIRE(offer_plate(roller, plate, plate_frame(0, {0, 7, -10}), gap));
    CHECK(gap.gap == Approx(std::hypot(4, 8) - 5).margin(1e-12));

    // Over a hole of the plate 6 wide along the axis and across: its edges, 3 aside and 8 down.
    const Form window = form(
        Extruded{rectangle({-40, -30}, {40, 30}), {reversed(rectangle({-25, -3}, {25, 3}))}, 2});
    gap = {};
    REQUIRE(offer_plate(roller, window, plate_frame(0, {0, 0, -10}), gap));
    CHECK(gap.gap == Approx(std::hypot(3, 8) - 5).margin(1e-12));

    // A round hole under the axis, radius 4: its edge crosses the axis' plane 4 from the middle,
    // and aside of it 4 from the axis; the roller is long, so below the axis it is 8 - 5 at the
    // hole's rim.
    const Form round = form(Extruded{rectangle({-40, -30}, {40, 30}), {circle_hole({0, 0}, 4)}, 2});
    gap = {};
    REQUIRE(offer_plate(roller, round, plate_frame(0, {0, 0, -10}), gap));
    CHECK(gap.gap == Approx(3).margin(1e-6));

    // It says no where the plate is not square to the axis, or beside it.
    gap = {};
    CHECK_FALSE(offer_plate(roller, plate, Frame{}, gap));
    CHECK_FALSE(offer_plate(roller, plate, plate_frame(0, {0, 12, -6}), gap));
}

TEST_CASE("plates agree with the general search") {
    RandomSetups random(seed);
    for (int n = 0; n < 60; ++n) {
        const double r = random.between(2, 6);
        const double waist = random.between(1, r);
        const Form roller = form(Revolved{{{{-9, 0}, 0},
                                           {{9, 0}, 0},
                                           {{9, r}, 0},
                                           {{random.between(2, 8), waist}, 0},
                                           {{random.between(-8, 1), waist}, 0},
                                           {{-9, r * random.between(0.5, 1)}, 0}}});
        const double half = random.between(6, 14);
        const Form plate = form(Extruded{
            rounded_rectangle({-half, -half}, {half, half}, random.between(0.5, 3)),
            {circle_hole({random.between(-2, 2), random.between(-2, 2)}, random.between(1, 3.5))},
            1.5});
        const double angle = n % 2 == 0 ? 0 : random.between(0, 3);
        const Frame place = plate_frame(
            angle, {random.between(-8, 8), random.between(-9, 9), -r - random.between(1.6, 5)});
        Gap quick;
        INFO("case " << n);
        REQUIRE(offer_plate(roller, plate, place, quick));
        Gap slow;
        offer_general(roller, plate, place, slow);
        CHECK(quick.gap <= slow.gap + 1e-9);
        CHECK(quick.gap >= slow.gap - slow.within - 1e-6);
        CHECK(glm::length(quick.b - quick.a) == Approx(quick.gap).margin(1e-9));
        CHECK(std::abs(signed_distance(roller, quick.a).distance) < 1e-7);
        CHECK(std::abs(signed_distance(plate, place.back(quick.b)).distance) < 1e-7);
    }
}
