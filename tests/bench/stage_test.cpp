#include "bench/stage.hpp"

#include <catch2/catch.hpp>

#include "bench/model.hpp"
#include "bench/plane.hpp"
#include "bench/views.hpp"
#include "draw/headless.hpp"
#include "evaluate/evaluate.hpp"
#include "file/asset_library.hpp"

// Derived: what is hidden is not drawn, and a line between parts needs two of them.
using namespace podwright;

namespace {

/// An assembly on a stage.
struct Staged {
    HeadlessContext context;
    Evaluation evaluation = evaluate(Setup{});
    Stage stage{asset_library()};
    Staged() { stage.set(evaluation.assembly); }

    std::size_t bodies_of(const std::string& key) const {
        return evaluation.assembly.find(key)->bodies.size();
    }
};

}  // namespace

TEST_CASE("GL: of one part alone nothing but its bodies is on the stage, exploded or not") {
    Staged staged;
    for (const char* key : {"spur", "pod.posts", "left.screws"}) {
        Model model{Setup{}};
        isolate(model, key);
        REQUIRE(staged.stage.scene(model.look).items.size() == staged.bodies_of(key));
        // One that leaves the others across the axle keeps a line for each body.
        model.look.pose.spread = 1;
        const bool across = std::string(key) == "pod.posts";
        CHECK(staged.stage.scene(model.look).items.size() ==
              staged.bodies_of(key) * (across ? 2 : 1));
    }
}

TEST_CASE("GL: the exploded view has lines from part to part, and none at rest") {
    Staged staged;
    StageLook look;
    const std::size_t at_rest = staged.stage.scene(look).items.size();
    look.pose.spread = 0.5;
    CHECK(staged.stage.scene(look).items.size() > at_rest + 2);
    // With all but two parts of the axle hidden, one line is left between the two.
    for (const Part& part : staged.evaluation.assembly.parts)
        if (part.key != "left.hub" && part.key != "right.wheel") look.hidden.push_back(part.key);
    CHECK(staged.stage.scene(look).items.size() ==
          staged.bodies_of("left.hub") + staged.bodies_of("right.wheel") + 1);
}

TEST_CASE("GL: a part is named at a point where it is the foremost, in every view, pulled apart") {
    Staged staged;
    const PixelBox frame{{0, 0}, {1280, 720}};
    const std::vector<PixelBox> taken = {{{0, 0}, {640, 300}}};
    std::size_t found = 0;
    for (const NamedView& view : named_views())
        for (const bool cut : {false, true}) {
            StageLook look;
            look.pose.spread = 1;
            look.see_through.assign(view.see_through.begin(), view.see_through.end());
            if (cut) look.cut = Cut{{1, 0, 0}, 0};
            Camera camera =
                camera_of(view.name, staged.evaluation, composed(view, 1280.0 / 720, 1, true));
            SeenPoints memory;
            const auto seen = staged.stage.seen(look, camera, frame, 1.5F, taken, memory);
            found += seen.size();
            for (const auto& [part, point] : seen) {
                INFO("view " << view.name << ", " << part << (cut ? ", cut" : ""));
                const glm::dvec3 at = to_screen(camera, point, {1280, 720});
                const ImVec2 pixel{static_cast<float>(at.x), static_cast<float>(at.y)};
                CHECK(frame.holds(pixel));
                CHECK_FALSE(taken.front().holds(pixel));
                // The ray from the eye is the judge; what is see-through is itself no hindrance.
                StageLook solid = look;
                std::erase(solid.see_through, part);
                const auto hit =
                    staged.stage.pick(solid, ray_through(camera, {at.x, at.y}, {1280, 720}));
                REQUIRE(hit);
                CHECK(hit->part == part);
            }
            // It stays there while the camera turns a little.
            camera.azimuth += 0.01;
            const auto later = staged.stage.seen(look, camera, frame, 1.5F, taken, memory);
            std::size_t moved = 0;
            for (const auto& [part, point] : later)
                if (const auto was = seen.find(part);
                    was != seen.end() && glm::length(was->second - point) > 1.5)
                    ++moved;
            CHECK(moved <= 3);
        }
    CHECK(found > 100);
}
