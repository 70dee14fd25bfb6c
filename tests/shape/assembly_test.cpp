#include "shape/assembly.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "shape/shape_support.hpp"

using namespace podwright;

namespace {

constexpr double coarse = 0.05;      // chord error; faces square to the axis do not depend on it
constexpr double float_room = 2e-5;  // vertices are float

/// Reach of a part along the axle, u outboard on `side`.
Reach along_axle(const Built& built, std::string_view key, Side side, const Pose& pose = {}) {
    const glm::dvec3 outboard = built.assembly.axle_direction * (side == Side::left ? 1.0 : -1.0);
    return reach_along(part_mesh(built.assembly, built.part(key), pose, coarse),
                       built.assembly.axle_point, outboard);
}

Reach body_along_axle(const Built& built, std::string_view key, std::size_t body, Side side) {
    const Part& part = built.part(key);
    Mesh mesh;
    append(mesh, mesh_of(part.bodies[body].solid, coarse, asset_mesh),
           part.place * part.bodies[body].place);
    return reach_along(mesh, built.assembly.axle_point,
                       built.assembly.axle_direction * (side == Side::left ? 1.0 : -1.0));
}

std::string at(Side side, const char* name) {
    return (side == Side::left ? "left." : "right.") + std::string(name);
}

Setup uneven() {
    Setup s;
    s.left.shims = {0.1, 0.5, 0.25};
    s.right.shims = {0.4};
    s.left.holder_step = 1.0;
    s.left.holder_way = Way::up;
    s.right.holder_step = 0.5;
    s.right.holder_way = Way::down;
    s.left.inset = 3.25;
    s.right.tyre.width = 36;
    s.axial_float.blade = 0.2;
    return s;
}

}  // namespace

TEST_CASE("every part is there once, under its name") {
    const Built built{Setup{}};
    std::set<std::string> keys;
    for (const Part& p : built.assembly.parts) {
        CHECK(keys.insert(p.key).second);
        CHECK(!p.bodies.empty());
        CHECK(!p.title.empty());
    }
    const std::set<std::string> expected{
        "axle",         "left.holder",   "left.bearing", "left.shim.1",  "left.shim.2",
        "left.hub",     "left.wheel",    "left.tyre",    "left.screws",  "blade",
        "right.holder", "right.bearing", "right.shim.1", "right.shim.2", "carrier",
        "right.wheel",  "right.tyre",    "right.screws", "spur",         "pinion",
        "motor",        "pod.left",      "pod.right",    "pod.floor",    "pod.posts"};
    CHECK(keys == expected);
    CHECK(built.part("left.shim.1").title == "left shim 0.30 mm");
    CHECK(built.part("spur").title == "spur 76 teeth");
    CHECK(built.part("right.wheel").title == "right wheel, inset -4.5 mm");
    CHECK(built.assembly.find("left.shim.3") == nullptr);
}

TEST_CASE("the stack's faces stand where the stack says") {
    for (const Setup& setup : {Setup{}, uneven()}) {
        const Built built(setup);
        const double float_f = built.stack.axial_float;
        for (const Side side : both_sides) {
            const AxleSide& parts = setup.side(side);
            // Bearing's inner ring: b = seat + standout.
            CHECK(body_along_axle(built, at(side, "bearing"), 0, side).high ==
                  Approx(parts.seat + parts.standout).margin(float_room));
            double face = parts.seat + parts.standout;
            for (std::size_t i = 0; i < parts.shims.size(); ++i) {
                const Reach shim =
                    along_axle(built, at(side, "shim.") + std::to_string(i + 1), side);
                CHECK(shim.low == Approx(face).margin(float_room));
                face += parts.shims[i];
                CHECK(shim.high == Approx(face).margin(float_room));
            }
            const char* hub = side == Side::left ? "left.hub" : "carrier";
            const double thrust = along_axle(built, hub, side).low;
            CHECK(thrust - face == Approx(float_f / 2).margin(float_room));

            // Wheel: web's inboard face on the mounting face, centre plane at w = m - inset.
            const double mounting = face + float_f / 2 + parts.reach;
            const auto body = [&](std::size_t i) {
                return body_along_axle(built, at(side, "wheel"), i, side);
            };
            CHECK(body(1).low == Approx(mounting).margin(float_room));
            CHECK((body(0).low + body(0).high) / 2 ==
                  Approx(mounting - parts.inset).margin(float_room));
            const Reach tyre = along_axle(built, at(side, "tyre"), side);
            CHECK((tyre.low + tyre.high) / 2 == Approx(mounting - parts.inset).margin(float_room));
            CHECK(tyre.high == Approx(built.stack.side(side).outer).margin(float_room));
            CHECK(tyre.high - tyre.low == Approx(parts.tyre.width).margin(float_room));
        }
    }
}

TEST_CASE("played through its float the axle opens the gap from nothing to all of it") {
    for (const Setup& setup : {Setup{}, uneven()}) {
        const Built built(setup);
        const double f = built.stack.axial_float;
        const auto gap = [&](double along) {
            const std::string last = "left.shim." + std::to_string(setup.left.shims.size());
            return along_axle(built, "left.hub", Side::left, {along, 0, 0}).low -
                   along_axle(built, last, Side::left, {along, 0, 0}).high;
        };
        CHECK(gap(0) == Approx(f / 2).margin(float_room));
        CHECK(gap(1) == Approx(f).margin(float_room));
        CHECK(gap(-1) == Approx(0).margin(float_room));
        const double right =
            along_axle(built, "carrier", Side::right, {1, 0, 0}).low -
            along_axle(built, at(Side::right, "shim.") + std::to_string(setup.right.shims.size()),
                       Side::right, {1, 0, 0})
                .high;
        CHECK(right == Approx(0).margin(float_room));
        // The blade fills the left gap at the left end.
        const Reach blade = along_axle(built, "blade", Side::left, {1, 0, 0});
        const Reach hub = along_axle(built, "left.hub", Side::left, {1, 0, 0});
        CHECK(blade.high == Approx(hub.low).margin(float_room));
        CHECK(blade.high - blade.low == Approx(f).margin(float_room));
    }
}

TEST_CASE("an axle that binds has no blade and does not slide") {
    Setup setup;
    setup.axial_float.set_by = FloatBy::shoulder;
    setup.axial_float.shoulder = 64.5;  // 64.8 of bearings and shims
    const Built built(setup);
    REQUIRE(built.stack.axial_float < 0);
    CHECK(built.assembly.find("blade") == nullptr);
    CHECK(placed(built.assembly, built.part("axle"), {1, 0, 0}) == built.part("axle").place);
}

TEST_CASE("a holder's bore is off-centre by its step, up or down") {
    for (const Side side : both_sides) {
        for (const Way way : {Way::up, Way::down}) {
            Setup setup;
            setup.side(side).holder_step = 1.5;
            setup.side(side).holder_way = way;
            const Built built(setup);
            const Part& holder = built.part(at(side, "holder"));
            const double expected = setup.pod.bore_height + (way == Way::up ? 1.5 : -1.5);
            for (std::size_t i = 0; i < 2; ++i) {
                const Extruded& body = std::get<Extruded>(holder.bodies[i].solid);
                REQUIRE(body.holes.size() == 1);
                // Centre of the hole from its outermost points.
                Bounds box;
                for (const glm::dvec2& p : flatten(body.holes[0], 1e-4))
                    box.add(glm::dvec3(holder.place * holder.bodies[i].place *
                                       glm::dvec4(0, p.x, p.y, 1)));
                CHECK((box.low.z + box.high.z) / 2 == Approx(expected).margin(1e-3));
                CHECK((box.low.x + box.high.x) / 2 == Approx(0).margin(1e-3));
                CHECK(box.high.z - box.low.z == Approx(setup.bearing.outside).margin(1e-3));
            }
            // The body sits in the plate's bore, which is not off-centre; the pointer says where up
            // is.
            const auto outline = [&](std::size_t i) {
                Bounds box;
                for (const glm::dvec2& p :
                     flatten(std::get<Extruded>(holder.bodies[i].solid).outline, 1e-4))
                    box.add(glm::dvec3(holder.place * glm::dvec4(0, p.x, p.y, 1)));
                return box;
            };
            const Bounds body = outline(0), lip = outline(1);
            CHECK((body.low.z + body.high.z) / 2 == Approx(setup.pod.bore_height).margin(1e-3));
            const double above = lip.high.z - setup.pod.bore_height;
            const double below = setup.pod.bore_height - lip.low.z;
            CHECK((way == Way::up ? above - below : below - above) > 1.0);
        }
    }
}

TEST_CASE("the axle runs through both holders, tilted where they are unlike") {
    const Built built(uneven());
    const glm::dvec3 point = built.assembly.axle_point, way = built.assembly.axle_direction;
    CHECK(glm::length(way) == Approx(1));
    // Line through (0, seat_L, z_L) and (0, -seat_R, z_R): z = bore height + step or - step.
    const auto height = [&](double y) { return point.z + (y - point.y) * way.z / way.y; };
    CHECK(height(built.setup.left.seat) == Approx(18 + 1.0).margin(1e-12));
    CHECK(height(-built.setup.right.seat) == Approx(18 - 0.5).margin(1e-12));
    CHECK(point.x == 0);
    CHECK(way.z > 0);
    // The axle's mesh lies about that line.
    const Mesh axle = part_mesh(built.assembly, built.part("axle"), {}, 0.01);
    for (const Vertex& v : axle.vertices) {
        const glm::dvec3 from = glm::dvec3(v.position) - point;
        const double off = glm::length(from - way * glm::dot(from, way));
        CHECK(off <= built.setup.axle.diameter / 2 + 1e-4);
        CHECK(off >= built.setup.axle.bore / 2 - 1e-4);
    }
}

TEST_CASE("gears, motor and ground stand where they were calculated") {
    for (const Setup& setup : {Setup{}, uneven()}) {
        const Built built(setup);
        const SlotPoint slot = slot_point(setup.motor, built.drive.slot.position);
        const Mesh motor = part_mesh(built.assembly, built.part("motor"), {}, 0.005);
        CHECK(built.assembly.motor_point == glm::dvec3(slot.x, -built.drive.gear_u, slot.z));
        const Body& can = built.part("motor").bodies[0];
        Mesh can_mesh;
        append(can_mesh, mesh_of(can.solid, 0.005, asset_mesh),
               built.part("motor").place * can.place);
        const Bounds box = bounds(can_mesh);
        CHECK((box.low.x + box.high.x) / 2 == Approx(slot.x).margin(0.006));
        CHECK((box.low.z + box.high.z) / 2 == Approx(slot.z).margin(0.006));
        CHECK(box.low.y == Approx(-setup.pod.plate_inner).margin(float_room));
        CHECK(bounds(motor).high.y ==
              Approx(setup.motor.can_length - setup.pod.plate_inner).margin(0.01));

        const Reach spur = body_along_axle(built, "spur", 0, Side::right);
        CHECK(spur.high ==
              Approx(built.drive.gear_u + setup.gears.face_width / 2).margin(float_room));
        CHECK(built.assembly.gear_ratio == built.drive.final_drive);

        // The ground's plane: ride_at below the underside wherever one looks.
        for (const glm::dvec2 xy : {glm::dvec2(0, 0), glm::dvec2(30, -40), glm::dvec2(-20, 60)}) {
            const glm::dvec3 p(xy, -built.stance.ride_at(xy.x, xy.y));
            CHECK(glm::dot(p - built.assembly.ground_point, built.assembly.ground_normal) ==
                  Approx(0).margin(1e-9));
        }
        CHECK(built.assembly.ground_normal.z > 0.9);
    }
}

TEST_CASE("tyres stand on the ground") {
    const Built built{Setup{}};
    for (const char* key : {"left.tyre", "right.tyre"}) {
        const Mesh tyre = part_mesh(built.assembly, built.part(key), {}, 0.002);
        const Reach above =
            reach_along(tyre, built.assembly.ground_point, built.assembly.ground_normal);
        CHECK(above.low == Approx(0).margin(0.02));  // rake tilts the pod, not the round tyre
    }
}
