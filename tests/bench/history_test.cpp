#include "bench/history.hpp"

#include <catch2/catch.hpp>

#include "bench/swing.hpp"

using namespace podwright;

namespace {

Setup titled(const std::string& title) {
    Setup s;
    s.title = title;
    return s;
}

}  // namespace

TEST_CASE("undo and redo walk the list of setups") {
    History h(titled("a"));
    CHECK_FALSE(h.can_undo());
    CHECK(h.is_saved());
    h.push(titled("b"), "to b");
    h.push(titled("c"), "to c");
    CHECK(h.undo_name() == "to c");
    h.undo();
    CHECK(h.now().title == "b");
    CHECK(h.redo_name() == "to c");
    h.undo();
    h.undo();  // nothing left: stays
    CHECK(h.now().title == "a");
    CHECK(h.is_saved());
    h.redo();
    h.push(titled("d"), "to d");
    CHECK_FALSE(h.can_redo());
    CHECK(h.now().title == "d");
    h.undo();
    CHECK(h.now().title == "b");
}

TEST_CASE("what was saved is known again after undo, and not confused with another branch") {
    History h(titled("a"));
    h.push(titled("b"), "to b");
    h.mark_saved();
    CHECK(h.is_saved());
    h.undo();
    CHECK_FALSE(h.is_saved());
    h.redo();
    CHECK(h.is_saved());
    h.undo();
    h.push(titled("c"), "to c");
    CHECK_FALSE(h.is_saved());
}

TEST_CASE("a very long history forgets its oldest states and keeps the present") {
    History h(titled("0"));
    for (int i = 1; i <= 700; ++i) h.push(titled(std::to_string(i)), "step");
    CHECK(h.now().title == "700");
    // 500 states are kept: the program's own choice.
    int undone = 0;
    while (h.can_undo()) {
        h.undo();
        ++undone;
    }
    CHECK(undone == 499);
    CHECK(h.now().title == "201");
}

TEST_CASE("a swing starts and ends where it began and reaches both ends") {
    CHECK(swing(2, 1, 5, 0) == 2);
    CHECK(swing(2, 1, 5, swing_seconds) == 2);
    CHECK(swing(2, 1, 5, swing_seconds + 9) == 2);
    CHECK(swing(2, 1, 5, swing_seconds * 0.25) == Approx(5));
    CHECK(swing(2, 1, 5, swing_seconds * 0.75) == Approx(1));
    for (double t = 0; t < swing_seconds; t += 0.01) {
        CHECK(swing(2, 1, 5, t) >= 1 - 1e-12);
        CHECK(swing(2, 1, 5, t) <= 5 + 1e-12);
    }
}
