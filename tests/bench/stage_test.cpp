#include "bench/stage.hpp"

#include <catch2/catch.hpp>

#include "bench/model.hpp"
#include "draw/headless.hpp"
#include "evaluate/evaluate.hpp"
#include "file/asset_library.hpp"

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
