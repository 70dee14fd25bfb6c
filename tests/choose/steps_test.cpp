#include "choose/steps.hpp"

#include <catch2/catch.hpp>

// What the steps say. The words are the trade's; parts and names are invented.
using namespace podwright;

namespace {

std::string steps_text(const Setup& from, const Setup& to) {
    std::string text;
    for (const Step& step : steps_between(from, to, LengthUnit::mm)) text += step.text + "\n";
    return text;
}

bool says(const std::string& text, const std::string& words) {
    INFO(text);
    return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a step says which axle, by its name and by what tells it from the one that is in") {
    Setup from;  // waist 6, bore 4
    from.choosing.box.axles = {{"heavy", 6, 4, 0, {}}, {"thin wall", 6, 4.8, 0, {}}};
    Setup to = from;
    to.axle.bore = 4.8;
    CHECK(says(steps_text(from, to), "Fit the axle \"thin wall\": "));
    CHECK(says(steps_text(from, to), "waist 6.00 mm, bore 4.80 mm."));
    to.choosing.box.axles.clear();
    CHECK(says(steps_text(from, to), "Fit the axle: "));
    to.axle.bore = 0;
    CHECK(says(steps_text(from, to), "waist 6.00 mm, solid."));
    to.axial_float.shoulder = from.axial_float.shoulder + 0.5;
    CHECK(says(steps_text(from, to), " between its thrust faces."));
}

TEST_CASE("a step says which wheel and which tyre") {
    Setup from;
    from.choosing.box.wheels = {{"plain", -4.5, {}, 2}, {"large rim", -4.5, 32.0, 2}};
    from.choosing.box.tyres = {{"fresh", 43, {}, {}, {}, "", 2},
                               {"narrow", 43, 38.0, {}, {}, "", 2}};
    from.left.inset = -4.5;
    from.left.rim_diameter = 30;
    Setup to = from;
    to.left.rim_diameter = 32;
    CHECK(steps_text(from, to) ==
          "Left: fit the wheel \"large rim\" of -4.50 mm inset, 32.00 mm at the rim.\n");
    CHECK(says(steps_text(to, from), "fit the wheel \"plain\" of -4.50 mm inset"));
    to = from;
    to.left.tyre.diameter = 43;
    to.left.tyre.width = 38;
    CHECK(says(steps_text(from, to), "fit the tyre \"narrow\" of 43.00 mm, 38.00 mm wide."));

    // Two that are alike: either will do.
    to = from;
    to.choosing.box.wheels = {{"red", -4.0, {}, 2}, {"white", -4.0, {}, 2}};
    to.left.inset = -4.0;
    CHECK(says(steps_text(from, to), "fit the wheel \"red\" or \"white\" of -4.00 mm inset."));
    // And glued ones come with their wheel.
    to = from;
    to.choosing.box.tyres = {{"glued", 42, {}, {}, {}, "plain", 2}};
    to.left.tyre.diameter = 42;
    CHECK(says(steps_text(from, to),
               "fit the tyre \"glued\" of 42.00 mm, which is glued to the wheel \"plain\"."));
    // Without names.
    to.choosing.box = {};
    CHECK(says(steps_text(from, to), "Left: fit the tyre of 42.00 mm."));
}

TEST_CASE("shims are taken out and put in, one or more") {
    Setup from;
    const auto text = [&](std::vector<double> was, std::vector<double> is) {
        Setup a;
        a.left.shims = std::move(was);
        Setup b = a;
        b.left.shims = std::move(is);
        return steps_text(a, b);
    };
    CHECK(says(text({0.5, 0.2}, {}), "Left: take out the 0.50 mm and 0.20 mm shims."));
    CHECK(says(text({0.5, 0.2}, {0.5}), "Left: take out the 0.20 mm shim."));
    CHECK(says(text({0.5, 0.2}, {0.5, 0.1, 0.1}),
               "Left: take out the 0.20 mm shim, put in 2 x 0.10 mm."));
    CHECK(says(text({}, {0.3}), "Left: put in a 0.30 mm shim."));
    CHECK(says(text({}, {0.3, 0.2, 0.1, 0.1}),
               "Left: put in 0.30 mm, 0.20 mm and 2 x 0.10 mm shims."));
    CHECK(says(text({0.1, 0.2}, {0.2, 0.1}), "Left: put the shims in another order."));
}
