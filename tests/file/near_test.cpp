#include <catch2/catch.hpp>
#include <vector>

#include "file/near.hpp"

using namespace podwright;

TEST_CASE("edit distances") {
    // "kitten" to "sitting": the usual textbook example, from memory; the rest derived by hand.
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("seat", "seat") == 0);
    CHECK(edit_distance("saet", "seat") == 1);
    CHECK(edit_distance("sea", "seat") == 1);
    CHECK(edit_distance("seats", "seat") == 1);
    CHECK(edit_distance("", "seat") == 4);
    CHECK(edit_distance("CA", "ABC") ==
          3);  // optimal string alignment, not the unrestricted distance
}

TEST_CASE("near misses are found, far ones are not") {
    const std::vector<std::string> words = {"seat", "shims", "reach", "inset"};
    CHECK(nearest("saet", words) == "seat");
    CHECK(nearest("shim", words) == "shims");
    CHECK(nearest("insett", words) == "inset");
    CHECK(nearest("wheel", words).empty());
    CHECK(nearest("x", words).empty());
    CHECK(nearest(std::string(100000, 'a'), words).empty());
    CHECK(did_you_mean("raech", words) == "; did you mean \"reach\"?");
    CHECK(did_you_mean("wheel", words).empty());
}
