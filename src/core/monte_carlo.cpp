#include "core/monte_carlo.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>
#include <thread>

// The loops below are plain; GCC turns them into vector code (see CMakeLists.txt for the flags), on
// x86 once for each instruction set. Without contraction all give the same bits: a test holds them
// together, which defines the macro for each.
#if defined(PODWRIGHT_VECTORISED)
#elif defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && \
    !defined(__SANITIZE_ADDRESS__)
#define PODWRIGHT_VECTORISED __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define PODWRIGHT_VECTORISED
#endif

namespace podwright {

namespace {

constexpr std::size_t lanes = 64;
constexpr std::size_t batch = 2048;  // builds at a time, which the cache holds
static_assert(builds_per_block % batch == 0 && batch % (2 * lanes) == 0);

float as_float(std::uint32_t bits) {
    float value = 0;
    std::memcpy(&value, &bits, sizeof value);
    return value;
}

std::uint32_t as_bits(float value) {
    std::uint32_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    return bits;
}

/// xoshiro128++ (Blackman and Vigna, ACM Trans. Math. Softw. 47, 2021), one in each lane.
struct Streams {
    std::uint32_t a[lanes], b[lanes], c[lanes], d[lanes];
};

Streams start(std::uint64_t seed, std::uint64_t block) {
    Streams s{};
    const std::array<std::uint32_t, 2> key = {static_cast<std::uint32_t>(seed),
                                              static_cast<std::uint32_t>(seed >> 32U)};
    for (std::uint32_t lane = 0; lane < lanes; ++lane) {
        const auto word = philox(
            {lane, static_cast<std::uint32_t>(block), static_cast<std::uint32_t>(block >> 32U), 0},
            key);
        s.a[lane] = word[0];
        s.b[lane] = word[1];
        s.c[lane] = word[2];
        s.d[lane] = word[3] | 1U;  // never all zero
    }
    return s;
}

PODWRIGHT_VECTORISED
void draw(Streams& s, std::uint32_t* __restrict out) {
    for (std::size_t k = 0; k < batch; k += lanes)
        for (std::size_t l = 0; l < lanes; ++l) {
            std::uint32_t a = s.a[l], b = s.b[l], c = s.c[l], d = s.d[l];
            const std::uint32_t r = a + d;
            out[k + l] = ((r << 7U) | (r >> 25U)) + a;
            const std::uint32_t t = b << 9U;
            c ^= a;
            d ^= b;
            b ^= c;
            a ^= d;
            c ^= t;
            d = (d << 11U) | (d >> 21U);
            s.a[l] = a;
            s.b[l] = b;
            s.c[l] = c;
            s.d[l] = d;
        }
}

/// Adds `scale` times standard normal numbers (Box and Muller, Ann. Math. Stat. 29, 1958). The
/// first half of the words gives the radius, the second the angle.
PODWRIGHT_VECTORISED
void add_normal(const std::uint32_t* __restrict word, float scale, float* __restrict sum) {
    constexpr std::size_t half = batch / 2;
    const std::uint32_t* angle = word + half;
    float* other = sum + half;
    for (std::size_t i = 0; i < half; ++i) {
        // u 2^31 in [0.5, 2^31]: 31 bits and half a step, radii up to 6.6. The power of two is
        // taken off the exponent.
        const float u = static_cast<float>(static_cast<std::int32_t>(word[i] >> 1U)) + 0.5F;
        // ln u = e ln 2 + ln m with m about 1; ln m = 2 artanh((m - 1)/(m + 1)), to 2e-8.
        constexpr std::uint32_t root_half = 0x3f3504f3U, power = 31U << 23U;
        const std::uint32_t bits = as_bits(u) - (root_half + power);
        const float exponent = static_cast<float>(static_cast<std::int32_t>(bits) >> 23);
        const float m = as_float((bits & 0x7fffffU) + root_half);
        const float s = (m - 1.0F) / (m + 1.0F);
        const float z = s * s;
        const float minus_2_log = s * (-4.0F + z * (-1.3333333F + z * (-0.8F + z * -0.57142860F))) +
                                  exponent * -1.3862944F;
        const float radius = scale * std::sqrt(minus_2_log);  // of -0 at u = 1: no harm
        // Two bits choose the quarter, the others an angle in it: Taylor to 3e-7 within 45 degrees.
        const std::uint32_t v = angle[i];
        const float x =
            static_cast<float>(static_cast<std::int32_t>(v << 2U)) * (0.785398163F / 2147483648.0F);
        const float y = x * x;
        const float sine =
            x * (1.0F + y * (-0.16666667F + y * (8.3333333e-3F + y * -1.9841270e-4F)));
        const float cosine =
            1.0F + y * (-0.5F + y * (0.041666667F + y * (-1.3888889e-3F + y * 2.4801587e-5F)));
        constexpr std::uint32_t sign = 0x80000000U, quarter = 0x40000000U;
        const bool swapped = (v & quarter) != 0;
        const float p = swapped ? sine : cosine, q = swapped ? cosine : sine;
        sum[i] += radius * as_float(as_bits(p) ^ (v & sign));
        other[i] += radius * as_float(as_bits(q) ^ ((v + quarter) & sign));
    }
}

/// Adds numbers spread evenly over ± `half`.
PODWRIGHT_VECTORISED
void add_uniform(const std::uint32_t* __restrict word, float half, float* __restrict sum) {
    for (std::size_t i = 0; i < batch; ++i)
        sum[i] +=
            half * (static_cast<float>(static_cast<std::int32_t>(word[i])) * 4.656612873e-10F);
}

struct Tally {
    double sum = 0, squares = 0;
    double least = std::numeric_limits<double>::infinity();
    double most = -std::numeric_limits<double>::infinity();
    std::uint64_t below = 0, above = 0;
};

/// Sums in eight columns, whose order is fixed.
PODWRIGHT_VECTORISED
void add_batch(const float* __restrict value, float low, float high, Tally& tally) {
    constexpr std::size_t columns = 8;
    double sum[columns] = {}, squares[columns] = {};
    float least[columns], most[columns];
    std::uint32_t below[columns] = {}, above[columns] = {};
    for (std::size_t l = 0; l < columns; ++l) least[l] = most[l] = value[l];
    for (std::size_t i = 0; i < batch; i += columns)
        for (std::size_t l = 0; l < columns; ++l) {
            const float f = value[i + l];
            const double v = f;
            sum[l] += v;
            squares[l] += v * v;
            least[l] = f < least[l] ? f : least[l];
            most[l] = f > most[l] ? f : most[l];
            below[l] += f < low ? 1U : 0U;
            above[l] += f > high ? 1U : 0U;
        }
    for (std::size_t l = 0; l < columns; ++l) {
        tally.sum += sum[l];
        tally.squares += squares[l];
        tally.least = std::min<double>(tally.least, least[l]);
        tally.most = std::max<double>(tally.most, most[l]);
        tally.below += below[l];
        tally.above += above[l];
    }
}

void count_bins(const float* value, double nominal, const SamplePlan& plan,
                std::vector<std::uint64_t>& histogram) {
    const double scale = plan.bins / (plan.last_bin - plan.first_bin);
    const double last = plan.bins - 1;
    for (std::size_t i = 0; i < batch; ++i) {
        const double at = std::floor((nominal + value[i] - plan.first_bin) * scale);
        ++histogram[static_cast<std::size_t>(std::clamp(at, 0.0, last))];
    }
}

Tally block_tally(const StackUp& up, const SamplePlan& plan, std::uint64_t block,
                  std::vector<std::uint64_t>& histogram) {
    alignas(64) std::uint32_t word[batch];
    alignas(64) float sum[batch];
    Streams streams = start(plan.seed, block);
    Tally tally;
    const auto low = static_cast<float>(plan.low - up.nominal);
    const auto high = static_cast<float>(plan.high - up.nominal);
    for (std::uint64_t done = 0; done < builds_per_block; done += batch) {
        std::fill(std::begin(sum), std::end(sum), 0.0F);
        for (const Contributor& c : up.contributors) {
            const auto half = static_cast<float>(c.sensitivity * c.tolerance.half);
            draw(streams, word);
            switch (c.tolerance.spread) {
                case Spread::normal: add_normal(word, half / 3.0F, sum); break;
                case Spread::uniform: add_uniform(word, half, sum); break;
                case Spread::triangular:
                    add_uniform(word, half / 2.0F, sum);
                    draw(streams, word);
                    add_uniform(word, half / 2.0F, sum);
                    break;
            }
        }
        add_batch(sum, low, high, tally);
        if (plan.bins > 0) count_bins(sum, up.nominal, plan, histogram);
    }
    return tally;
}

}  // namespace

std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> x,
                                    std::array<std::uint32_t, 2> key) {
    for (int round = 0; round < 10; ++round) {
        const std::uint64_t p = std::uint64_t{0xD2511F53U} * x[0];
        const std::uint64_t q = std::uint64_t{0xCD9E8D57U} * x[2];
        x = {static_cast<std::uint32_t>(q >> 32U) ^ x[1] ^ key[0], static_cast<std::uint32_t>(q),
             static_cast<std::uint32_t>(p >> 32U) ^ x[3] ^ key[1], static_cast<std::uint32_t>(p)};
        key[0] += 0x9E3779B9U;
        key[1] += 0xBB67AE85U;
    }
    return x;
}

double Sample::outside_share() const {
    return builds == 0 ? 0 : static_cast<double>(below + above) / static_cast<double>(builds);
}

Sample sample(const StackUp& up, const SamplePlan& plan) {
    const std::uint64_t blocks =
        std::max<std::uint64_t>(1, (plan.builds + builds_per_block - 1) / builds_per_block);
    const auto workers = static_cast<std::uint64_t>(std::clamp(plan.threads, 1, 64));
    std::vector<Tally> tallies(blocks);
    const auto bins = static_cast<std::size_t>(std::max(0, plan.bins));
    std::vector<std::vector<std::uint64_t>> counts(workers, std::vector<std::uint64_t>(bins));
    const auto work = [&](std::uint64_t worker) {
        for (std::uint64_t b = worker; b < blocks; b += workers)
            tallies[b] = block_tally(up, plan, b, counts[worker]);
    };
    std::vector<std::thread> threads;
    for (std::uint64_t w = 1; w < workers; ++w) threads.emplace_back(work, w);
    work(0);
    for (std::thread& thread : threads) thread.join();

    Tally all;
    for (const Tally& t : tallies) {
        all.sum += t.sum;
        all.squares += t.squares;
        all.least = std::min(all.least, t.least);
        all.most = std::max(all.most, t.most);
        all.below += t.below;
        all.above += t.above;
    }
    Sample out;
    out.builds = blocks * builds_per_block;
    const auto n = static_cast<double>(out.builds);
    out.mean = up.nominal + all.sum / n;
    out.deviation = std::sqrt(std::max(0.0, (all.squares - all.sum * all.sum / n) / (n - 1)));
    out.least = up.nominal + all.least;
    out.most = up.nominal + all.most;
    out.below = all.below;
    out.above = all.above;
    out.histogram.assign(bins, 0);
    for (const auto& part : counts)
        for (std::size_t i = 0; i < bins; ++i) out.histogram[i] += part[i];
    return out;
}

}  // namespace podwright
