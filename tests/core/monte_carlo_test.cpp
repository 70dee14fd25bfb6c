#include "core/monte_carlo.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

using namespace podwright;

namespace {

StackUp same(std::size_t count, double half, Spread spread, double nominal = 0) {
    return {"", nominal, std::vector<Contributor>(count, {"", 1, {half, spread}})};
}

/// Share of a normal distribution beyond z on one side.
double beyond(double z) { return std::erfc(z / std::sqrt(2.0)) / 2; }

}  // namespace

TEST_CASE("the counter-based generator gives its published numbers") {
    // github.com/DEshawResearch/random123, tests/kat_vectors: philox4x32 of 10 rounds.
    using Word = std::array<std::uint32_t, 4>;
    CHECK(philox({0, 0, 0, 0}, {0, 0}) == Word{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
    CHECK(philox({0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}, {0xffffffff, 0xffffffff}) ==
          Word{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
    CHECK(philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}) ==
          Word{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

TEST_CASE("single lengths have the moments and tails of their spread") {
    // Closed forms. A fixed seed: the bounds are four and a half standard errors, passed by chance
    // in all but 7 of a million seeds a check.
    const double bound = 4.5;
    SamplePlan plan;
    plan.builds = 8'000'000;
    plan.seed = 20240611;
    const auto n = static_cast<double>(plan.builds);
    struct Row {
        Spread spread;
        double kurtosis;  // excess: normal 0, uniform -1.2, triangular -0.6
    };
    for (const Row& row :
         {Row{Spread::normal, 0}, {Spread::uniform, -1.2}, {Spread::triangular, -0.6}}) {
        const StackUp up = same(1, 3, row.spread, 10);
        const double sigma = deviation_of(up);
        const Sample s = sample(up, plan);
        CHECK(s.mean == Approx(10).margin(bound * sigma / std::sqrt(n)));
        CHECK(s.deviation ==
              Approx(sigma).margin(bound * sigma * std::sqrt((row.kurtosis + 2) / 4 / n)));
        if (row.spread == Spread::normal) continue;
        CHECK(s.least >= 7);
        CHECK(s.most <= 13);
        CHECK(s.least < 7.02);
        CHECK(s.most > 12.98);
    }
    // Tails of the normal, both sides, to beyond four standard deviations.
    for (const double z : {0.5, 1.0, 1.96, 3.0, 4.0, 4.5, 5.0}) {
        plan.low = -z;
        plan.high = z;
        plan.builds = z < 4 ? 4'000'000 : 64'000'000;
        const Sample s = sample(same(1, 3, Spread::normal), plan);
        const double expected = beyond(z) * static_cast<double>(s.builds);
        INFO("beyond " << z << ": " << s.below << " and " << s.above << ", expected " << expected);
        CHECK(std::abs(static_cast<double>(s.below) - expected) < bound * std::sqrt(expected) + 1);
        CHECK(std::abs(static_cast<double>(s.above) - expected) < bound * std::sqrt(expected) + 1);
    }
}

TEST_CASE("the normal's histogram passes a chi-square test") {
    SamplePlan plan;
    plan.builds = 16'000'000;
    plan.bins = 100;
    plan.first_bin = -4;
    plan.last_bin = 4;
    const Sample s = sample(same(1, 3, Spread::normal), plan);
    const auto n = static_cast<double>(s.builds);
    CHECK(std::accumulate(s.histogram.begin(), s.histogram.end(), std::uint64_t{0}) == s.builds);
    double chi = 0;
    for (std::size_t i = 0; i < 100; ++i) {
        const double low = -4 + 0.08 * static_cast<double>(i), high = low + 0.08;
        double p = beyond(low) - beyond(high);
        if (i == 0) p = beyond(-high);  // and all below
        if (i == 99) p = beyond(low);   // and all above
        const double expected = n * p, seen = static_cast<double>(s.histogram[i]);
        chi += (seen - expected) * (seen - expected) / expected;
    }
    // Chi-square of 99 degrees of freedom: mean 99, standard deviation 14.1; 155 is passed by 99.97
    // %.
    CHECK(chi < 155);
    CHECK(chi > 55);
}

TEST_CASE("a stack of ten against its closed form") {
    const StackUp up = same(10, 0.03, Spread::normal, 0.15);
    const double sigma = deviation_of(up);
    SamplePlan plan;
    plan.builds = 4'000'000;
    plan.low = 0.05;
    plan.high = 0.25;
    const Sample s = sample(up, plan);
    const double expected = 2 * beyond(0.1 / sigma);
    const ShareInterval seen =
        wilson(static_cast<double>(s.below + s.above), static_cast<double>(s.builds), 4.5);
    CHECK(seen.low < expected);
    CHECK(seen.high > expected);
    CHECK(s.outside_share() > 0.001);
    // Mixed spreads: variance adds.
    StackUp mixed = same(3, 0.02, Spread::uniform);
    mixed.contributors.push_back({"", -0.5, {0.1, Spread::triangular}});
    mixed.contributors.push_back({"", 2, {0.03, Spread::normal}});
    CHECK(sample(mixed, plan).deviation == Approx(deviation_of(mixed)).epsilon(2e-3));
}

TEST_CASE("draws of neighbouring lengths and builds are independent") {
    // The difference of two lengths has the variance of their sum: no correlation.
    SamplePlan plan;
    plan.builds = 4'000'000;
    StackUp sum = same(2, 3, Spread::normal), difference = sum;
    difference.contributors[1].sensitivity = -1;
    const auto n = static_cast<double>(plan.builds);
    for (const StackUp& up : {sum, difference})
        CHECK(sample(up, plan).deviation ==
              Approx(std::sqrt(2.0)).margin(4.5 * std::sqrt(2.0) / std::sqrt(2 * n)));
}

TEST_CASE("one seed, one result, on any number of threads") {
    StackUp up = same(5, 0.03, Spread::normal, 0.15);
    up.contributors.push_back({"", 1, {0.02, Spread::triangular}});
    up.contributors.push_back({"", -1, {0.01, Spread::uniform}});
    SamplePlan plan;
    plan.builds = 300'000;
    plan.low = 0.1;
    plan.high = 0.2;
    plan.bins = 20;
    plan.first_bin = 0;
    plan.last_bin = 0.3;
    const Sample one = sample(up, plan);
    for (const int threads : {2, 3, 8}) {
        plan.threads = threads;
        const Sample many = sample(up, plan);
        CHECK(many.mean == one.mean);
        CHECK(many.deviation == one.deviation);
        CHECK(many.least == one.least);
        CHECK(many.most == one.most);
        CHECK(many.below == one.below);
        CHECK(many.above == one.above);
        CHECK(many.histogram == one.histogram);
    }
    plan.seed = 2;
    CHECK(sample(up, plan).mean != one.mean);
    // Whole blocks, and at least one.
    CHECK(one.builds % builds_per_block == 0);
    plan.builds = 0;
    CHECK(sample(up, plan).builds == builds_per_block);
}
