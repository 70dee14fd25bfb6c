#include <catch2/catch.hpp>

#include "random_setup.hpp"
#include "shape/shape_support.hpp"

using namespace podwright;

TEST_CASE("setups free of conflicts become closed, finite solids") {
    RandomSetups random(41000);
    for (int n = 0; n < 60; ++n) {
        const Setup setup = random.next();
        const Built built(setup);
        for (const Part& part : built.assembly.parts) {
            for (std::size_t i = 0; i < part.bodies.size(); ++i) {
                INFO("setup " << n << ", " << part.key << ", body " << i);
                const Body& body = part.bodies[i];
                const Mesh mesh = mesh_of(body.solid, 0.05, asset_mesh);
                REQUIRE(is_finite(mesh));
                REQUIRE(open_edges(mesh) == 0);
                REQUIRE(volume(mesh) > 0);
                REQUIRE(worst_normal(mesh) > 0);
                REQUIRE((mesh.chord_error <= 0.05 || std::holds_alternative<Imported>(body.solid)));
                REQUIRE(glm::determinant(glm::dmat3(part.place * body.place)) > 0);
            }
        }
    }
}
