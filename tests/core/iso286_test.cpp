#include "core/iso286.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace podwright;

namespace {

std::pair<long, long> limits(const char* text, double nominal) {
    const auto d = tolerance_class(text, nominal);
    REQUIRE(d);
    return {std::lround(d->upper * 1e4), std::lround(d->lower * 1e4)};  // 0.1 µm
}

std::pair<long, long> clearance(const char* text, double nominal) {
    const auto f = find_fit(text, nominal);
    REQUIRE(f);
    return {std::lround(f->clearance_low() * 1000), std::lround(f->clearance_high() * 1000)};
}

}  // namespace

TEST_CASE("limits of shafts after ISO 286") {
    // docs.steelcam.org/sumitomo (JIS B 0401, 1999); g and h also eicac.co.uk. es/ei in µm.
    struct Row {
        double nominal;
        std::pair<long, long> g5, g6, h5, h6, k5, k6, m5, m6;
    };
    for (const Row& r :
         {Row{5, {-4, -9}, {-4, -12}, {0, -5}, {0, -8}, {6, 1}, {9, 1}, {9, 4}, {12, 4}},
          Row{8, {-5, -11}, {-5, -14}, {0, -6}, {0, -9}, {7, 1}, {10, 1}, {12, 6}, {15, 6}},
          Row{12, {-6, -14}, {-6, -17}, {0, -8}, {0, -11}, {9, 1}, {12, 1}, {15, 7}, {18, 7}}}) {
        const auto um = [&](const char* text) {
            const auto [upper, lower] = limits(text, r.nominal);
            return std::pair{upper / 10, lower / 10};
        };
        CHECK(um("g5") == r.g5);
        CHECK(um("g6") == r.g6);
        CHECK(um("h5") == r.h5);
        CHECK(um("h6") == r.h6);
        CHECK(um("k5") == r.k5);
        CHECK(um("k6") == r.k6);
        CHECK(um("m5") == r.m5);
        CHECK(um("m6") == r.m6);
    }
}

TEST_CASE("a size on a boundary belongs to the range below") {
    // ISO 286-1: over a up to and including b. What uses the formula gives 14 for IT7 at 10 mm, and
    // +2/+11 for k6 (negative controls): the table says 15, and +1/+10.
    CHECK(limits("H7", 6) == std::pair{120L, 0L});
    CHECK(limits("H7", 6.35) == std::pair{150L, 0L});
    CHECK(limits("H7", 10) == std::pair{150L, 0L});
    CHECK(limits("H7", 10.001) == std::pair{180L, 0L});
    CHECK(limits("k6", 10) == std::pair{100L, 10L});
    // js and JS: half the grade; f -13, p +15, and G and F are g and f the other way round (6 to 10
    // mm): ISO 286-2, from memory.
    CHECK(limits("js6", 8) == std::pair{45L, -45L});
    CHECK(limits("JS7", 8) == std::pair{75L, -75L});
    CHECK(limits("G7", 8) == std::pair{200L, 50L});
    CHECK(limits("f6", 8) == std::pair{-130L, -220L});
    CHECK(limits("F7", 8) == std::pair{280L, 130L});
    CHECK(limits("p6", 8) == std::pair{240L, 150L});
}

TEST_CASE("grades of every range of sizes") {
    // mechguru.com (DIN ISO 286), 0.1 µm; a hole H has its grade above its nominal size.
    struct Row {
        double nominal;
        long h5, h6, h7, h8, h9;
    };
    for (const Row& r : {Row{5, 50, 80, 120, 180, 300}, Row{8, 60, 90, 150, 220, 360},
                         Row{12, 80, 110, 180, 270, 430},
                         // Up to 3 mm, and over 18 up to 30 mm: ISO 286-1, table 1, from memory.
                         Row{2, 40, 60, 100, 140, 250}, Row{25, 90, 130, 210, 330, 520}}) {
        INFO(r.nominal << " mm");
        CHECK(limits("H5", r.nominal) == std::pair{r.h5, 0L});
        CHECK(limits("H6", r.nominal) == std::pair{r.h6, 0L});
        CHECK(limits("H7", r.nominal) == std::pair{r.h7, 0L});
        CHECK(limits("H8", r.nominal) == std::pair{r.h8, 0L});
        CHECK(limits("H9", r.nominal) == std::pair{r.h9, 0L});
    }
    // g -2 and k 0 up to 3 mm, g -7 and k +2 over 18 up to 30 mm: ISO 286-1, from memory.
    CHECK(limits("g6", 2) == std::pair{-20L, -80L});
    CHECK(limits("k6", 2) == std::pair{60L, 0L});
    CHECK(limits("g6", 25) == std::pair{-70L, -200L});
    CHECK(limits("k6", 25) == std::pair{150L, 20L});
}

TEST_CASE("fits from their designation") {
    // Clearance least and most, µm, derived from the tables above; negative is interference.
    CHECK(clearance("H7/g6", 5) == std::pair{4L, 24L});
    CHECK(clearance("H7/g6", 6) == std::pair{4L, 24L});
    CHECK(clearance("H7/g6", 6.35) == std::pair{5L, 29L});
    CHECK(clearance("H7/g5", 8) == std::pair{5L, 26L});
    CHECK(clearance("H7/h6", 8) == std::pair{0L, 24L});
    CHECK(clearance("H6/h5", 8) == std::pair{0L, 15L});
    CHECK(clearance("H7/k6", 8) == std::pair{-10L, 14L});
    CHECK(clearance("H7/m6", 8) == std::pair{-15L, 9L});
    CHECK(clearance("H7/g6", 10) == std::pair{5L, 29L});
    CHECK(clearance("H7/g6", 12) == std::pair{6L, 35L});
    CHECK(clearance("H8/h9", 12) == std::pair{0L, 70L});
}

TEST_CASE("a tight fit is freed by another class of one part") {
    // 8 mm: H7/g6 leaves 5 to 29 µm, H7/k6 and H7/m6 interfere by 10 and 15 (derived from the
    // tables above). That g6 is the sliding fit to H7: ISO 286-1's preferred fits, from memory.
    CHECK(freed_fit("H7/k6", 8, FitPart::shaft) == "H7/g6");
    CHECK(freed_fit("H7/m6", 8, FitPart::shaft) == "H7/g6");
    // JS7 reaches to -7.5 µm: g6, at -5, is not free; f6, at -13, is.
    CHECK(freed_fit("JS7/h6", 8, FitPart::shaft) == "JS7/f6");
    CHECK(freed_fit("JS9/h6", 8, FitPart::shaft) == std::nullopt);
    // The hole made anew: k6 stands at +10 µm, G7 begins at +5, F7 at +13.
    CHECK(freed_fit("JS7/h6", 8, FitPart::hole) == "H7/h6");
    CHECK(freed_fit("H7/k6", 8, FitPart::hole) == "F7/k6");
    CHECK(freed_fit("H7/p6", 8, FitPart::hole) == std::nullopt);
    CHECK(freed_fit("H7", 8, FitPart::hole) == std::nullopt);
}

TEST_CASE("what is no fit is none") {
    for (const char* text : {"", "H7", "H7/", "/g6", "g6/H7", "H7/g", "H7/g16", "H4/g6", "h7/g6",
                             "H7/z6", "K7/h6", "H7/g6 ", "H7-g6"})
        CHECK_FALSE(find_fit(text, 8));
    CHECK_FALSE(find_fit("H7/g6", 30.1));
    CHECK_FALSE(find_fit("H7/g6", 0));
    CHECK_FALSE(find_fit("H7/g6", std::nan("")));
}
