#pragma once

#include <algorithm>
#include <cmath>

#include <glm/glm.hpp>

namespace podwright {

struct Range {
    double low, high;
    double middle() const { return (low + high) / 2; }
    double half() const { return (high - low) / 2; }
    double most() const { return std::max(std::abs(low), std::abs(high)); }
};

/// Angles from t0 to t1, at most a whole turn, with their directions.
struct Sector {
    double t0, t1;
    glm::dvec2 d0, d1;

    static glm::dvec2 direction(double angle) { return {std::cos(angle), std::sin(angle)}; }
    static Sector of(double t0, double t1) { return {t0, t1, direction(t0), direction(t1)}; }

    glm::dvec2 middle() const { return direction((t0 + t1) / 2); }
    void halve(Sector& first, Sector& second) const {
        first = second = *this;
        first.t1 = second.t0 = (t0 + t1) / 2;
        first.d1 = second.d0 = direction(first.t1);
    }
    /// Whether `way` points into it; always true if it is more than half a turn.
    bool has(const glm::dvec2& way) const {
        if (t1 - t0 > 3.2) return true;
        return d0.x * way.y - d0.y * way.x >= 0 && way.x * d1.y - way.y * d1.x >= 0;
    }
    /// Of constant + wave·direction; of more than half a turn, that of a whole one.
    Range range(double constant, const glm::dvec2& wave) const {
        const double p = glm::dot(wave, d0), q = glm::dot(wave, d1), most = glm::length(wave);
        return {constant + (has(-wave) ? -most : std::min(p, q)),
                constant + (has(wave) ? most : std::max(p, q))};
    }
};

}  // namespace podwright
