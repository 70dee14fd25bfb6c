#include "bench/cover_map.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

/// Convex hull, in order (Andrew's monotone chain).
std::vector<ImVec2> hull_of(std::vector<ImVec2> points) {
    std::sort(points.begin(), points.end(),
              [](ImVec2 a, ImVec2 b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
    std::vector<ImVec2> hull;
    const auto take = [&](ImVec2 p, std::size_t base) {
        while (hull.size() >= base + 2 &&
               cross(hull.back() - hull[hull.size() - 2], p - hull.back()) <= 0)
            hull.pop_back();
        hull.push_back(p);
    };
    for (const ImVec2 p : points) take(p, 0);
    const std::size_t upper = hull.size() - 1;
    for (auto p = points.rbegin() + 1; p != points.rend(); ++p) take(*p, upper);
    if (hull.size() > 1) hull.pop_back();
    return hull;
}

}  // namespace

CoverMap::CoverMap(const PixelBox& frame, float cell)
    : frame_(frame),
      cell_(cell),
      columns_(std::max(1, static_cast<int>(std::ceil(frame.size().x / cell)))),
      rows_(std::max(1, static_cast<int>(std::ceil(frame.size().y / cell)))),
      sums_((static_cast<std::size_t>(columns_) + 1) * (static_cast<std::size_t>(rows_) + 1), 0) {}

void CoverMap::add_hull(std::vector<ImVec2> points) {
    if (points.size() < 3) return;
    for (const ImVec2 p : points)
        if (!std::isfinite(p.x + p.y)) return;
    const std::vector<ImVec2> hull = hull_of(std::move(points));
    for (int row = 0; row < rows_; ++row) {
        const float y = frame_.low.y + (static_cast<float>(row) + 0.5F) * cell_;
        float low = 1e9F;
        float high = -1e9F;
        for (std::size_t i = 0; i < hull.size(); ++i) {
            const ImVec2 a = hull[i];
            const ImVec2 b = hull[(i + 1) % hull.size()];
            if ((a.y > y) == (b.y > y)) continue;
            const float x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
            low = std::min(low, x);
            high = std::max(high, x);
        }
        if (low > high) continue;
        const auto column = [&](float x) {
            return static_cast<int>(
                std::clamp((x - frame_.low.x) / cell_, 0.0F, static_cast<float>(columns_)));
        };
        const auto start =
            sums_.begin() +
            (static_cast<std::ptrdiff_t>(row) + 1) * (static_cast<std::ptrdiff_t>(columns_) + 1) +
            1;
        std::fill(start + column(low), start + column(high), 1);
    }
}

void CoverMap::finish() {
    const auto width = static_cast<std::size_t>(columns_) + 1;
    for (std::size_t row = 1; row <= static_cast<std::size_t>(rows_); ++row) {
        int along = 0;
        for (std::size_t column = 1; column < width; ++column) {
            along += sums_[row * width + column];
            sums_[row * width + column] = along + sums_[(row - 1) * width + column];
        }
    }
}

float CoverMap::share(const PixelBox& box) const {
    const auto index = [&](float at, float start, int most, bool up) {
        const float cells = (at - start) / cell_;
        return std::clamp(static_cast<int>(up ? std::ceil(cells) : std::floor(cells)), 0, most);
    };
    const int left = index(box.low.x, frame_.low.x, columns_, false);
    const int right = index(box.high.x, frame_.low.x, columns_, true);
    const int top = index(box.low.y, frame_.low.y, rows_, false);
    const int bottom = index(box.high.y, frame_.low.y, rows_, true);
    const int cells = (right - left) * (bottom - top);
    if (cells <= 0) return 0;
    const int covered =
        sum_at(right, bottom) - sum_at(left, bottom) - sum_at(right, top) + sum_at(left, top);
    return static_cast<float>(covered) / static_cast<float>(cells);
}

}  // namespace podwright
