#include "bench/advisor.hpp"

#include <atomic>
#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

#include "choose/limit.hpp"

// What is found out beside the window, without one. Setups are invented.
using namespace podwright;

namespace {

Setup with_box() {
    Setup s;
    s.choosing.box.holders = {{0.5, 2}, {1.0, 2}};
    s.choosing.box.pinions = {33, 34, 35};
    s.choosing.goals = {{"ride.rear", 4.5, 0.05, 1}};
    s.choosing.day = {3, 0.2, 0.2, {}, {}};
    return s;
}

template <class Done>
void wait_for(Advisor& advisor, Model& model, Done done) {
    for (int i = 0; i < 3000 && !done(); ++i) {
        advisor.poll(model, 0);
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    REQUIRE(done());
}

}  // namespace

TEST_CASE("a build is chosen on a thread, taken, and given back") {
    Model model(with_box());
    std::atomic<int> woken{0};
    Advisor advisor([&] { ++woken; });
    advisor.start_choosing(model);
    wait_for(advisor, model, [&] { return advisor.choice().has_value(); });
    CHECK(woken > 0);
    CHECK_FALSE(advisor.busy());
    CHECK_FALSE(advisor.choice_is_old(model));
    REQUIRE(!advisor.choice()->best.empty());
    const Setup build = advisor.choice()->best[0].setup;
    // 43 / 2 - (18 - 1.0): the 1.0 mm holders, down.
    CHECK(calculate(build).stance.ride == Approx(4.5).margin(1e-9));

    const double before = model.evaluation.reading("ride.rear")->value;
    CHECK(steps_to(model, build).size() >= 2);
    take_build(model, build, "Build 1", 0);
    CHECK(model.evaluation.reading("ride.rear")->value == Approx(4.5).margin(1e-9));
    CHECK(steps_to(model, build).empty());
    CHECK(model.history.undo_name() == "Build 1");
    CHECK(advisor.choice_is_old(model));
    undo(model);
    CHECK(model.evaluation.reading("ride.rear")->value == before);
    CHECK_FALSE(advisor.choice_is_old(model));
}

TEST_CASE("a plan is made on a thread; another scene's is forgotten") {
    Model model(with_box());
    Advisor advisor([] {});
    advisor.start_planning(model);
    wait_for(advisor, model, [&] { return advisor.plan().has_value(); });
    CHECK(advisor.plan()->runs.size() == 3);
    take(model, Setup{}, "other.toml");
    advisor.poll(model, 0);
    CHECK_FALSE(advisor.plan().has_value());
}

TEST_CASE("what is stopped says so") {
    Setup s = with_box();
    for (int i = 0; i < 8; ++i) s.choosing.box.shims.push_back({0.05 + 0.05 * i, 5});
    for (int z = 20; z < 40; ++z) s.choosing.box.spurs.push_back(2 * z + 30);
    s.choosing.goals.push_back({"clearance", 2.0, 0, 1000});
    Model model(s);
    Advisor advisor([] {});
    advisor.start_choosing(model);
    CHECK(advisor.busy());
    advisor.stop();
    wait_for(advisor, model, [&] { return advisor.choice().has_value(); });
    CHECK(advisor.choice()->stopped);
}

TEST_CASE("what is pointed at stands as a ghost before what is picked, and leaves as it came") {
    Model model(with_box());
    Advisor advisor([] {});
    Setup one = model.setup;
    one.gears.pinion = 33;
    Setup two = model.setup;
    two.gears.pinion = 35;
    const auto frame = [&](bool over_one, bool over_two) {
        advisor.offer("one", "One", one, over_one);
        advisor.offer("two", "Two", two, over_two);
        advisor.show_offered(model);
        return model.ghost.of == Ghost::Of::nothing ? std::string() : model.ghost.title;
    };
    toggle_ghost(model);  // the setup before stood there already
    CHECK(frame(false, false).empty());
    CHECK(model.ghost.of == Ghost::Of::before);
    CHECK(frame(true, false) == "One");
    CHECK(model.ghost.evaluation.drive.pinion.teeth == 33);
    CHECK(frame(false, false).empty());
    CHECK(model.ghost.of == Ghost::Of::before);
    advisor.pick("two");
    CHECK(frame(false, false) == "Two");
    CHECK(frame(true, false) == "One");
    CHECK(frame(false, false) == "Two");
    two.gears.pinion = 32;  // found anew under the same name
    CHECK(frame(false, false) == "Two");
    CHECK(model.ghost.evaluation.drive.pinion.teeth == 32);
    advisor.pick("two");  // again: let go
    CHECK(frame(false, false).empty());
    CHECK(model.ghost.of == Ghost::Of::before);
    // A page that is left takes its pick with it.
    advisor.pick("one");
    CHECK(frame(false, false) == "One");
    advisor.show_offered(model);
    CHECK_FALSE(advisor.is_picked("one"));
}
