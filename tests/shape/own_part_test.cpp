#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "core/parameters.hpp"
#include "core/units.hpp"
#include "shape/shape_support.hpp"

using namespace podwright;

namespace {

/// A setup with as many shims as there can be.
Setup all_shims() {
    Setup setup;
    for (const Side side : both_sides)
        setup.side(side).shims.assign(find_parameter("left.shims")->longest, 0.05);
    return setup;
}

}  // namespace

TEST_CASE("the list of part keys is that of all assemblies") {
    const std::set<std::string> listed(part_keys().begin(), part_keys().end());
    CHECK(listed.size() == part_keys().size());
    const Built fullest(all_shims());
    std::set<std::string> built;
    for (const Part& part : fullest.assembly.parts) built.insert(part.key);
    CHECK(built == listed);
    const Built usual{Setup{}};
    for (const Part& part : usual.assembly.parts) CHECK(listed.count(part.key) == 1);
}

TEST_CASE("an own mesh takes the place of any part and of nothing else") {
    const Built plain(all_shims());
    for (const std::string& key : part_keys()) {
        INFO(key);
        Setup setup = all_shims();
        OwnPart own;
        own.part = key;
        own.found = "/somewhere/mesh.glb";
        own.stamp = 7;
        setup.own_parts.push_back(own);
        const Built built(setup);
        REQUIRE(built.assembly.parts.size() == plain.assembly.parts.size());
        for (std::size_t i = 0; i < plain.assembly.parts.size(); ++i) {
            const Part& before = plain.assembly.parts[i];
            const Part& after = built.assembly.parts[i];
            CHECK(after.key == before.key);
            CHECK(after.place == before.place);
            CHECK(after.moves == before.moves);
            CHECK(after.explode == before.explode);
            if (after.key != key) {
                CHECK(after.title == before.title);
                CHECK(after.bodies.size() == before.bodies.size());
                continue;
            }
            CHECK(after.title == before.title + " (own mesh)");
            REQUIRE(after.bodies.size() == 1);
            CHECK(after.bodies[0].solid == Solid(Imported{"/somewhere/mesh.glb", 7}));
            CHECK(after.bodies[0].place == glm::dmat4(1.0));
            CHECK(after.bodies[0].look == before.bodies[0].look);
        }
    }
}

TEST_CASE("an own part that was not found leaves the part as it is") {
    Setup setup;
    OwnPart own;
    own.part = "spur";
    own.file = "spur.glb";
    setup.own_parts.push_back(own);
    const Built built(setup);
    CHECK(built.part("spur").title == "spur 76 teeth");
    CHECK(std::holds_alternative<ToothedRing>(built.part("spur").bodies[0].solid));
}

TEST_CASE("an own mesh is scaled, then turned about x, y and z, then moved") {
    // Unit vectors by the right-hand rule, each turn by 90 degrees, derived.
    struct Case {
        std::array<double, 3> turn;
        glm::dvec3 x, y, z;  // where the mesh's axes point
    };
    const double q = pi / 2;
    const Case cases[] = {
        {{q, 0, 0}, {1, 0, 0}, {0, 0, 1}, {0, -1, 0}},
        {{0, q, 0}, {0, 0, -1}, {0, 1, 0}, {1, 0, 0}},
        {{0, 0, q}, {0, 1, 0}, {-1, 0, 0}, {0, 0, 1}},
        {{q, q, 0}, {0, 0, -1}, {1, 0, 0}, {0, -1, 0}},
        {{0, q, q}, {0, 0, -1}, {-1, 0, 0}, {0, 1, 0}},
    };
    for (const Case& c : cases) {
        Setup setup;
        OwnPart own;
        own.part = "axle";
        own.found = "/mesh.glb";
        own.scale = 2;
        own.turn = c.turn;
        own.move = {3, 4, 5};
        own.look = Look::brass;
        setup.own_parts.push_back(own);
        const Built built(setup);
        const Body& body = built.part("axle").bodies.at(0);
        const glm::dmat4& place = body.place;
        CHECK(glm::length(glm::dvec3(place[0]) - 2.0 * c.x) < 1e-12);
        CHECK(glm::length(glm::dvec3(place[1]) - 2.0 * c.y) < 1e-12);
        CHECK(glm::length(glm::dvec3(place[2]) - 2.0 * c.z) < 1e-12);
        CHECK(glm::dvec3(place[3]) == glm::dvec3(3, 4, 5));
        CHECK(body.look == Look::brass);
    }
}

TEST_CASE("the frames of the parts are those that scenes/README.md gives") {
    Setup setup;
    setup.left.holder_way = Way::up;
    setup.right.holder_way = Way::up;
    const Built built(setup);
    const double height = built.assembly.axle_point.z;
    const SideStack& left = built.stack.left;
    struct Frame {
        const char* key;
        double u, x, z;  // of the origin; u outboard on the part's side
    };
    const double inner = setup.pod.plate_inner, bore = setup.pod.bore_height;
    const Frame frames[] = {
        {"left.hub", left.thrust, 0, height},
        {"carrier", built.stack.right.thrust, 0, height},
        {"left.wheel", left.mounting, 0, height},
        {"right.tyre", built.stack.right.wheel, 0, height},
        {"left.bearing", setup.left.seat, 0, height},
        {"left.shim.2", left.bearing + setup.left.shims[0], 0, height},
        {"blade", left.bearing + left.shims, 0, height},
        {"axle", 0, 0, height},
        {"spur", built.drive.gear_u, 0, height},
        {"pinion", built.drive.gear_u, built.assembly.motor_point.x, built.assembly.motor_point.z},
        {"motor", inner, built.assembly.motor_point.x, built.assembly.motor_point.z},
        {"right.holder", inner, 0, bore},
        {"pod.left", inner, 0, 0},
        {"pod.posts", 0, 0, 0},
        {"pod.floor", 0, 0, 0},
    };
    for (const Frame& frame : frames) {
        INFO(frame.key);
        const std::string key = frame.key;
        const bool right = key.rfind("right.", 0) == 0 || key == "carrier" || key == "spur" ||
                           key == "pinion" || key == "motor" || key == "pod.right";
        const glm::dmat4& place = built.part(key).place;
        const double sign = right ? -1 : 1;
        CHECK(glm::length(glm::dvec3(place[3]) - glm::dvec3(frame.x, sign * frame.u, frame.z)) <
              1e-9);
        if (key == "pod.floor") {
            CHECK(glm::dvec3(place[0]) == glm::dvec3(0, 0, 1));
            CHECK(glm::dvec3(place[1]) == glm::dvec3(1, 0, 0));
            continue;
        }
        CHECK(glm::length(glm::dvec3(place[0]) - glm::dvec3(0, sign, 0)) < 1e-9);
        if (key == "spur" || key == "pinion") continue;
        const double lean = key == "blade" ? radians(35) : 0;
        CHECK(glm::length(glm::dvec3(place[2]) - glm::dvec3(-std::sin(lean), 0, std::cos(lean))) <
              1e-9);
    }
}
