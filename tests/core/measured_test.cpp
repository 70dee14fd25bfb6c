#include "core/measured.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "evaluate/evaluate.hpp"

using namespace podwright;

TEST_CASE("the combined uncertainty is the root of the sum of squares") {
    // JCGM 100:2008 (GUM) 5.1.2; the numbers by Pythagoras: 3-4-5 times 0.0025. How well a build
    // repeats is the program's own choice.
    static_assert(build_uncertainty == 0.01);
    CHECK(combined_uncertainty(0.0075, "mm") == Approx(0.0125).epsilon(1e-12));
    CHECK(combined_uncertainty(0.0075, "deg") == 0.0075);
}

TEST_CASE("a measured value disagrees beyond the stated number of uncertainties, not before") {
    const Setup setup;
    const double width = evaluate(setup).reading("width.overall")->value;
    const double u = std::hypot(0.02, build_uncertainty);
    for (const double sign : {-1.0, 1.0})
        for (const double by : {disagreement - 0.01, disagreement + 0.01}) {
            Setup s = setup;
            s.choosing.measured = {{"width.overall", width + sign * by * u, 0.02, "caliper"}};
            const Evaluation e = evaluate(s);
            const auto compared = comparisons(s, e.readings);
            REQUIRE(compared.size() == 1);
            CHECK(compared[0].predicted == Approx(width).epsilon(1e-12));
            CHECK(compared[0].uncertainty == Approx(u).epsilon(1e-12));
            CHECK(compared[0].off == Approx(sign * by).epsilon(1e-9));
            CHECK(compared[0].disagrees == (by > disagreement));
            int findings = 0;
            for (const Finding& f : e.findings) findings += f.code == "measured.disagrees" ? 1 : 0;
            CHECK(findings == (by > disagreement ? 1 : 0));
        }
}

TEST_CASE("the shims of a side can be measured together") {
    Setup setup;
    setup.left.shims = {0.3, 0.2, 0.1};
    const Evaluation e = evaluate(setup);
    CHECK(predicted(setup, e.readings, "left.shims")->value == Approx(0.6).epsilon(1e-12));
    CHECK(predicted(setup, e.readings, "float.nominal")->value == setup.axial_float.blade);
    CHECK_FALSE(predicted(setup, e.readings, "no.such"));
}
