#include "bench/model.hpp"

#include <catch2/catch.hpp>

#include "bench/edit.hpp"
#include "bench/load_case.hpp"
#include "bench/picture.hpp"
#include "bench/swing.hpp"
#include "file/asset_library.hpp"
#include "file/scene.hpp"

using namespace podwright;

TEST_CASE("a mesh of the user's own weighs the same in the window, in a picture and in a report") {
    // Derived: the one evaluation that all three show.
    const Setup car = read_scene(std::string(PODWRIGHT_SOURCE_DIR) + "/scenes/own-hub.toml");
    Meter meter(asset_library());
    Scales scales(asset_library());
    Asked asked;
    asked.scales = &scales;
    const double mass = evaluate(car, asked).reading("shaft.mass")->value;
    CHECK(mass > evaluate(car).reading("shaft.mass")->value + 1);  // g, of the hub
    Model m(car, &meter, &scales);
    CHECK(m.evaluation.reading("shaft.mass")->value == mass);
    keep_ghost(m, car);
    CHECK(m.ghost.evaluation.reading("shaft.mass")->value == mass);
    PictureRequest request;
    request.setup = car;
    CHECK(model_for(request, meter, scales).evaluation.reading("shaft.mass")->value == mass);
}

TEST_CASE("a drag shows its effect, and is one step of undo when let go") {
    Model m{Setup{}};
    const double width = m.evaluation.stack.overall_width;
    for (double inset : {-4.25, -4.0, -3.5}) {
        const Change change{"left.inset", inset, {}};
        try_changes(m, {&change, 1}, 0);
        CHECK(m.provisional);
        CHECK(m.evaluation.stack.overall_width == Approx(width - 2 * (inset + 4.5)));
        CHECK(m.before.stack.overall_width == width);
    }
    commit(m);
    CHECK_FALSE(m.provisional);
    CHECK(m.before.stack.overall_width == Approx(width - 2));
    undo(m);
    CHECK(m.evaluation.stack.overall_width == width);
    CHECK_FALSE(m.history.can_undo());
    redo(m);
    CHECK(m.setup.left.inset == -3.5);
}

TEST_CASE("a refused edit keeps the last good value and says why") {
    Model m{Setup{}};
    const Change change{"left.rim_diameter", 42, {}};
    make_changes(m, {&change, 1}, "rim", 0);
    CHECK_FALSE(m.history.can_undo());
    CHECK(m.message.find("tyre") != std::string::npos);
}

TEST_CASE("a played adjuster swings, never into a conflict, and leaves no trace") {
    Model m{Setup{}};
    start_play(m, "left.inset", 0);
    double low = 1e9;
    double high = -1e9;
    for (double t = 0; t < swing_seconds + 0.1; t += 0.05) {
        advance(m, t);
        low = std::min(low, m.setup.left.inset);
        high = std::max(high, m.setup.left.inset);
        CHECK(m.message.empty());
    }
    CHECK(low == -15);
    CHECK(high == 15);
    CHECK_FALSE(m.play);
    CHECK_FALSE(m.provisional);
    CHECK(m.setup.left.inset == Setup{}.left.inset);
    CHECK_FALSE(m.history.can_undo());

    // The rim cannot grow to the end of its range: the swing turns where the tyre ends.
    start_play(m, "left.rim_diameter", 100);
    high = 0;
    for (double t = 100; t < 100 + swing_seconds + 0.1; t += 0.05) {
        advance(m, t);
        high = std::max(high, m.setup.left.rim_diameter);
        CHECK(m.message.empty());
    }
    CHECK(high > 38);
    CHECK(high <= 40);
}

TEST_CASE("pressing play again stops at the present") {
    Model m{Setup{}};
    start_play(m, "gears.pinion", 0);
    advance(m, 1);
    CHECK(m.setup.gears.pinion != Setup{}.gears.pinion);
    start_play(m, "gears.pinion", 1);
    CHECK_FALSE(m.play);
    CHECK(m.setup.gears.pinion == Setup{}.gears.pinion);
}

TEST_CASE("selections of parts that are gone are let go") {
    Model m{Setup{}};
    m.look.picked = "left.shim.2";
    const Change change{"left.shims", 0, {0.3}};
    make_changes(m, {&change, 1}, "shims", 0);
    CHECK(m.look.picked.empty());
}

TEST_CASE("the ghost before follows the user, a kept one stays") {
    Model m{Setup{}};
    CHECK_FALSE(m.look.ghost);
    toggle_ghost(m);
    CHECK(m.look.ghost);
    CHECK(m.ghost.setup.left.inset == -4.5);  // nothing was before: the present itself
    const Change one{"left.inset", -4, {}};
    try_changes(m, {&one, 1}, 0);
    CHECK(m.ghost.setup.left.inset == -4.5);
    CHECK(m.ghost.evaluation.stack.overall_width ==
          Approx(m.evaluation.stack.overall_width - 2 * -0.5));
    commit(m);
    CHECK(m.ghost.setup.left.inset == -4.5);
    const Change two{"left.inset", -3, {}};
    make_changes(m, {&two, 1}, "inset", 0);
    CHECK(m.ghost.setup.left.inset == -4);
    undo(m);
    CHECK(m.ghost.setup.left.inset == -4.5);

    keep_ghost(m, m.setup);
    make_changes(m, {&two, 1}, "inset", 0);
    CHECK(m.ghost.setup.left.inset == -4);
    toggle_ghost(m);
    CHECK_FALSE(m.look.ghost);
}

TEST_CASE("one part alone, then all again") {
    Model m{Setup{}};
    isolate(m, "spur");
    CHECK(is_isolated(m));
    CHECK(m.look.hidden.size() == m.evaluation.assembly.parts.size() - 1);
    isolate(m, "spur");
    CHECK_FALSE(is_isolated(m));
    isolate(m, "");
    CHECK_FALSE(is_isolated(m));

    // A part that goes away does not leave an empty bench.
    Setup shims;
    shims.left.shims = {0.5};
    shims.right.shims = {0.5};
    Model with{shims};
    isolate(with, "left.shim.1");
    take(with,
         [] {
             Setup none;
             none.left.shims = {};
             none.right.shims = {};
             return none;
         }(),
         {});
    CHECK_FALSE(is_isolated(with));
}

TEST_CASE("every motion ends where it began") {
    for (const std::string_view motion : motion_names()) {
        Model m{Setup{}};
        const StageLook look = m.look;
        const double azimuth = m.camera.azimuth;
        start_play(m, std::string(motion), 0);
        double moved = 0;
        for (double t = 0; t <= swing_seconds + 0.1; t += 0.1) {
            advance(m, t);
            moved = std::max({moved, std::abs(m.look.pose.along - look.pose.along),
                              std::abs(m.look.pose.turn), m.look.pose.spread, m.envelope,
                              std::abs(m.camera.azimuth - azimuth), m.felt_share});
        }
        INFO(motion);
        CHECK(moved > 0.5);
        CHECK_FALSE(m.play);
        CHECK(m.look.pose.along == Approx(look.pose.along));
        CHECK(m.look.pose.spread == look.pose.spread);
        CHECK(std::remainder(m.look.pose.turn, 2 * pi) == Approx(0).margin(1e-9));
        CHECK(std::remainder(m.camera.azimuth - azimuth, 2 * pi) == Approx(0).margin(1e-9));
        CHECK_FALSE(m.felt);
        CHECK(m.look.bend.empty());
    }
}

TEST_CASE("the camera goes to a view and stays there") {
    Model m{Setup{}};
    const Camera start = m.camera;
    go_to_view(m, "mesh", 1.6, 0);
    const Camera end = m.move->to;
    double last = 0;
    bool moving = true;
    for (double t = 0; t < 2; t += 0.02) {
        moving = advance(m, t);
        const double gone = glm::length(m.camera.eye() - start.eye());
        CHECK(gone >= last - 1e-9);
        last = gone;
    }
    CHECK_FALSE(moving);
    CHECK_FALSE(m.move);
    CHECK(glm::length(m.camera.eye() - end.eye()) < 1e-9);
    CHECK(last > 50);
}

TEST_CASE("exploded view and cutaway ease to their ends and stay there") {
    Model m{Setup{}};
    glide_spread(m, 1, 0);
    glide_cutaway(m, 1, 0);
    double last = 0;
    bool moving = true;
    for (double t = 0; t < 2; t += 0.02) {
        moving = advance(m, t);
        CHECK(m.look.pose.spread >= last);
        CHECK(m.look.pose.spread - last < 0.15);
        last = m.look.pose.spread;
    }
    CHECK_FALSE(moving);
    CHECK(m.look.pose.spread == 1);
    CHECK(m.cutaway == 1);
    glide_spread(m, 1, 3);  // is there already
    CHECK_FALSE(advance(m, 3));
}

TEST_CASE("the load cases are shown one after the other, each eased in, then none") {
    Model m{Setup{}};
    double now = 0;
    for (const LoadCase which : all_load_cases) {
        next_load_case(m, now);
        REQUIRE(m.felt);
        CHECK(m.felt->which == which);
        now += 2;
        advance(m, now);
        REQUIRE(m.look.bend.size() > 10);
        double most = 0;
        for (const BentPoint& p : m.look.bend) most = std::max(most, std::hypot(p.x, p.z));
        CHECK(most > 1);  // enlarged enough to be seen, not so much that it looks broken
        CHECK(most < 10);
    }
    const Change softer{"axle.bore", 5, {}};
    make_changes(m, {&softer, 1}, "bore", now);
    CHECK(m.felt);
    next_load_case(m, now);
    CHECK_FALSE(m.felt);
    CHECK(m.look.bend.empty());
}

TEST_CASE("a load case is chosen, let go and loaded again, and follows the axle") {
    Model m{Setup{}};
    show_load_case(m, LoadCase::launch, 0);
    CHECK(m.felt_share == 0);
    advance(m, 5);
    REQUIRE(m.felt_share == 1);
    const auto wound = [&] { return m.look.bend.back().twist - m.look.bend.front().twist; };
    const auto turned = [&] { return std::abs(m.look.bend.back().twist); };
    const double most = turned();
    CHECK(most > 0.1);  // enlarged enough to be seen
    CHECK(wound() != 0);
    // Played, it is let go and put on again, twice, smoothly; then all is as it was.
    start_play(m, "load", 10);
    double least = 1, last = 1;
    int turns = 0;
    bool falls = true;
    for (double t = 10; t <= 10 + swing_seconds + 0.1; t += 0.02) {
        advance(m, t);
        CHECK(std::abs(m.felt_share - last) < 0.05);
        CHECK(turned() == Approx(m.felt_share * most));
        least = std::min(least, m.felt_share);
        if (m.felt_share != last && (m.felt_share < last) != falls) {
            falls = !falls;
            ++turns;
        }
        last = m.felt_share;
    }
    CHECK(least < 0.01);
    CHECK(turns == 3);  // up, down, up
    CHECK_FALSE(m.play);
    CHECK(m.felt_share == 1);
    // Stopped half-way it is loaded.
    start_play(m, "load", 20);
    advance(m, 21);
    CHECK(m.felt_share < 0.9);
    start_play(m, "load", 21);
    CHECK(m.felt_share == 1);
    // A softer axle bends more: its factor or its shape follows at once.
    const double before = m.evaluation.feel.shaft.windup_left;
    const Change softer{"axle.bore", 5, {}};
    try_changes(m, {&softer, 1}, 22);
    CHECK(m.evaluation.feel.shaft.windup_left > 1.3 * before);
    REQUIRE(m.felt);
    CHECK(m.felt->twist_factor * m.evaluation.feel.shaft.windup_left == Approx(turned()));
    show_load_case(m, {}, 30);
    CHECK_FALSE(m.felt);
    CHECK(m.look.bend.empty());
}

TEST_CASE("builds are drawn as many as in a report, and fewer while something is dragged") {
    Model m{Setup{}};
    Asked asked;
    asked.builds = usual_builds;
    const Evaluation report = evaluate(Setup{}, asked);
    CHECK(m.evaluation.reading("float.outside_share")->value ==
          report.reading("float.outside_share")->value);
    CHECK(m.evaluation.feel.tolerances[1].sample.histogram ==
          report.feel.tolerances[1].sample.histogram);
    const Change wider{"left.inset", -4, {}};
    try_changes(m, {&wider, 1}, 0);
    CHECK(m.evaluation.feel.tolerances[1].sample.builds == builds_per_block);
    // The float, which is a reading, does not seem to change by chance.
    CHECK(m.evaluation.feel.tolerances[0].sample.histogram ==
          m.before.feel.tolerances[0].sample.histogram);
    commit(m);
    CHECK(m.evaluation.feel.tolerances[1].sample.builds >= usual_builds.of_others);
}

TEST_CASE("an adjuster that may be absent plays from what counts, and is absent again") {
    Model m{Setup{}};
    m.setup.other_axle = {};
    for (const char* key : {"other_axle.bore", "axle.shear_modulus"}) {
        INFO(key);
        const Parameter& p = *find_parameter(key);
        const double counts = counting_value(p, m.setup);
        start_play(m, key, 0);
        CHECK(m.play->start == counts);
        double least = 1e9, most = -1e9;
        for (double t = 0; t <= swing_seconds + 0.1; t += 0.1) {
            advance(m, t);
            const double now = counting_value(p, m.setup);
            least = std::min(least, now);
            most = std::max(most, now);
        }
        CHECK(least < counts);
        CHECK(most > counts);
        CHECK_FALSE(p.get(m.setup));
        CHECK(m.history.is_saved());
    }
}

TEST_CASE("a fix that changes a text is made and taken back") {
    Setup tight;
    tight.fits.axle = "H7/k6";
    Model m{tight};
    const auto found = [&]() -> const Finding* {
        for (const Finding& f : m.evaluation.findings)
            if (f.code == "fit.tight") return &f;
        return nullptr;
    };
    REQUIRE(found() != nullptr);
    const std::vector<Change> changes = found()->changes;
    CHECK(describe(changes.front(), LengthUnit::mm) == "axle fit H7/g6");
    make_changes(m, changes, "fix fit.tight", 0);
    CHECK(m.setup.fits.axle == "H7/g6");
    CHECK(found() == nullptr);
    undo(m);
    CHECK(m.setup.fits.axle == "H7/k6");
}

TEST_CASE("a drag that is too slow to measure keeps the clearances that it had") {
    Meter meter(asset_library());
    Model model(Setup{}, &meter);
    const Change first{"left.inset", -4, {}}, second{"left.inset", -3.5, {}};
    try_changes(model, {&first, 1}, 0);
    REQUIRE(model.evaluation.clearances.size() > 3);
    const std::size_t before = model.evaluation.clearances.size();
    model.measured_again = 1e300;
    try_changes(model, {&second, 1}, 0);
    CHECK(model.setup.left.inset == -3.5);
    CHECK(model.evaluation.clearances.size() == before);
    // Let go, it is measured.
    commit(model);
    CHECK(model.measured_again == 0);
    Meter fresh(asset_library());
    Asked asked;
    asked.meter = &fresh;
    asked.pose = model.measured_pose;
    const Evaluation anew = evaluate(model.setup, asked);
    REQUIRE(anew.clearances.size() == model.evaluation.clearances.size());
    for (std::size_t i = 0; i < anew.clearances.size(); ++i)
        CHECK(anew.clearances[i].worst.gap == model.evaluation.clearances[i].worst.gap);
}
