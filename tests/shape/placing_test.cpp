#include <catch2/catch.hpp>

#include "shape/shape_support.hpp"

using namespace podwright;

namespace {

Bounds box_of(const Built& built, std::string_view key) {
    return bounds(part_mesh(built.assembly, built.part(key), {}, 0.02));
}

}  // namespace

TEST_CASE("the parts of the first setup do not run into each other along the axle") {
    const Built built{Setup{}};
    // y of each part on the left, from the mid-plane out; what comes later stands farther out.
    const Bounds plate = box_of(built, "pod.left"), hub = box_of(built, "left.hub");
    const Bounds tyre = box_of(built, "left.tyre"), motor = box_of(built, "motor");
    CHECK(motor.high.y < built.setup.pod.plate_inner);
    CHECK(plate.low.y > -built.setup.pod.plate_inner);
    CHECK(hub.low.y > plate.high.y);
    CHECK(tyre.low.y > plate.high.y);

    const Bounds right = box_of(built, "pod.right"), spur = box_of(built, "spur");
    const Bounds pinion = box_of(built, "pinion"), right_tyre = box_of(built, "right.tyre");
    const Bounds carrier = box_of(built, "carrier"), holder = box_of(built, "right.holder");
    CHECK(spur.high.y < right.low.y);
    CHECK(pinion.high.y < -built.setup.pod.plate_inner - built.setup.pod.plate_thickness);
    CHECK(right_tyre.high.y < spur.low.y);
    CHECK(carrier.high.y < holder.low.y);
    // The pinion's collar would foul the tyre if it stood outboard.
    CHECK(right_tyre.high.y < pinion.low.y);
}

TEST_CASE("the can stands clear of the floor, the axle and the posts") {
    const Built built{Setup{}};
    const Mesh motor = part_mesh(built.assembly, built.part("motor"), {}, 0.05);
    CHECK(bounds(motor).low.z > 0);
    const Mesh posts = part_mesh(built.assembly, built.part("pod.posts"), {}, 0.05);
    const glm::dvec3 axis = built.assembly.motor_point;
    for (const Vertex& v : posts.vertices) {
        const double off = std::hypot(v.position.x - axis.x, v.position.z - axis.z);
        CHECK(off > built.setup.motor.can_diameter / 2);
    }
}

TEST_CASE("the holder's lip ends at the seat and its body fills the plate's bore") {
    const Built built{Setup{}};
    const Part& holder = built.part("left.holder");
    const auto body = [&](std::size_t i) {
        Mesh mesh;
        append(mesh, mesh_of(holder.bodies[i].solid, 0.01, asset_mesh),
               holder.place * holder.bodies[i].place);
        return bounds(mesh);
    };
    CHECK(body(0).low.y == Approx(built.setup.pod.plate_inner));
    CHECK(body(0).high.y == Approx(built.setup.pod.plate_inner + built.setup.pod.plate_thickness));
    CHECK(body(1).high.y == Approx(built.setup.left.seat));
    CHECK(body(0).high.x - body(0).low.x == Approx(built.setup.pod.bore_diameter).margin(0.02));
}

TEST_CASE("the assembly is light enough to draw in software") {
    const Built built{Setup{}};
    std::size_t triangles = 0;
    for (const Part& part : built.assembly.parts)
        for (const Body& body : part.bodies)
            triangles += mesh_of(body.solid, default_chord_error, asset_mesh).triangles.size() / 3;
    // What is light enough, and still round, is the program's own choice.
    CHECK(triangles < 100000);
    CHECK(triangles > 20000);
}
