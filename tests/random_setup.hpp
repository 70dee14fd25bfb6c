#pragma once

#include <cmath>
#include <random>

#include "core/conflicts.hpp"
#include "core/parameters.hpp"

namespace podwright {

/// Random setups, the same on every run of one seed. std::mt19937_64 is specified to the bit; the
/// library's distributions are not, so numbers are drawn by hand.
class RandomSetups {
public:
    explicit RandomSetups(std::uint64_t seed) : engine_(seed) {}

    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_() >> 11) / 9007199254740992.0;
    }
    int whole(int low, int high) {
        return low + static_cast<int>(engine_() % static_cast<std::uint64_t>(high - low + 1));
    }

    /// Some values moved anywhere in their range; never in conflict.
    Setup next() {
        for (;;) {
            Setup setup;
            for (const Parameter& p : parameters()) vary(p, setup);
            if (!find_conflict(setup)) return setup;
        }
    }

private:
    void vary(const Parameter& p, Setup& setup) {
        if (p.kind == ValueKind::list) {
            std::vector<double> shims(static_cast<std::size_t>(whole(0, 6)));
            for (double& t : shims) t = 0.05 * whole(1, 20);
            p.set_list(setup, std::move(shims));
        } else if (p.kind == ValueKind::choice) {
            p.set(setup, whole(0, static_cast<int>(p.options.size()) - 1));
        } else if (p.kind == ValueKind::number && whole(0, 3) == 0) {
            // Near the default: the far ends of many ranges at once seldom make a car.
            const double now = counting_value(p, setup);
            const double reach = 0.15 * (p.high - p.low);
            p.set(setup, between(std::max(p.low, now - reach), std::min(p.high, now + reach)));
        }
    }

    std::mt19937_64 engine_;
};

}  // namespace podwright
