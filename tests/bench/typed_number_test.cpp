#include "bench/typed_number.hpp"

#include <catch2/catch.hpp>

using namespace podwright;

namespace {

TypedNumber typed(const char* key, const std::string& text, LengthUnit shown = LengthUnit::mm) {
    return read_typed(*find_parameter(key), find_parameter(key)->label, text, shown);
}

bool says(const TypedNumber& read, const std::string& part) {
    INFO(read.refusal);
    return !read.value && read.refusal.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a typed number has a point or a comma, and its unit or none") {
    CHECK(typed("left.inset", "4.5").value == 4.5);
    CHECK(typed("left.inset", "4,5").value == 4.5);
    CHECK(typed("left.inset", " -4,5 mm ").value == -4.5);
    CHECK(typed("left.inset", "+4").value == 4);
    CHECK(typed("left.inset", "0,18 in").value == Approx(0.18 * 25.4).margin(1e-12));
    CHECK(typed("left.inset", "0.18in").value == Approx(0.18 * 25.4).margin(1e-12));
    CHECK(typed("gears.spur", "77").value == 77);
    CHECK(typed("motor.slot_angle", "12,5 deg").value == 12.5);
    CHECK(typed("motor.slot_angle", "12.5").value == 12.5);
}

TEST_CASE("a typed length without a unit is in the unit that is shown") {
    CHECK(typed("left.inset", "0.1", LengthUnit::inch).value == Approx(2.54).margin(1e-12));
    CHECK(typed("left.inset", "2.5 mm", LengthUnit::inch).value == 2.5);
    CHECK(typed("gears.spur", "77", LengthUnit::inch).value == 77);
}

TEST_CASE("what is typed and is no number, not whole or out of range has its own reason") {
    for (const char* text : {"", "abc", "4x", "1,234.5", "4,5,6", "4 5", "inf", "nan", "-", "4 kg"})
        CHECK(says(typed("left.inset", text), "inset: \"" + std::string(text) +
                                                  "\" is not a number, such as 4.5 or 0.18 in."));
    CHECK(says(typed("motor.slot_angle", "steep"), "is not a number, such as 4.5."));
    CHECK(says(typed("gears.spur", "76 mm"), "is not a number, such as 34."));
    CHECK(says(typed("gears.spur", "76,5"), "spur is a whole number"));
    CHECK(says(typed("left.inset", "99"), "inset goes from -15.00 mm to 15.00 mm."));
    CHECK(says(typed("left.inset", "45"), "inset goes from"));
}
