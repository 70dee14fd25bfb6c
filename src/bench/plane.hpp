#pragma once

#include <algorithm>
#include <cmath>

#include <imgui.h>

// Points, boxes and segments in the plane of the screen: pixels, x to the right, y down.
namespace podwright {

inline ImVec2 operator+(ImVec2 a, ImVec2 b) { return {a.x + b.x, a.y + b.y}; }
inline ImVec2 operator-(ImVec2 a, ImVec2 b) { return {a.x - b.x, a.y - b.y}; }
inline ImVec2 operator*(ImVec2 a, float s) { return {a.x * s, a.y * s}; }
inline float size_of(ImVec2 a) { return std::hypot(a.x, a.y); }
/// `a` at length 1; to the right if it has none.
inline ImVec2 unit(ImVec2 a) {
    const float l = size_of(a);
    return l > 1e-6F ? a * (1 / l) : ImVec2{1, 0};
}
/// z of the cross product: positive if b lies clockwise of a, as seen on the screen.
inline float cross(ImVec2 a, ImVec2 b) { return a.x * b.y - a.y * b.x; }

/// A rectangle in pixels.
struct PixelBox {
    ImVec2 low, high;
    bool overlaps(const PixelBox& other) const {
        return low.x < other.high.x && other.low.x < high.x && low.y < other.high.y &&
               other.low.y < high.y;
    }
    bool holds(const PixelBox& other) const {
        return other.low.x >= low.x && other.low.y >= low.y && other.high.x <= high.x &&
               other.high.y <= high.y;
    }
    bool holds(ImVec2 p) const {
        return p.x >= low.x && p.x <= high.x && p.y >= low.y && p.y <= high.y;
    }
    ImVec2 centre() const { return (low + high) * 0.5F; }
    ImVec2 size() const { return high - low; }
    /// The point of the box that is nearest to `p`.
    ImVec2 nearest(ImVec2 p) const {
        return {std::clamp(p.x, low.x, high.x), std::clamp(p.y, low.y, high.y)};
    }
    PixelBox grown(float by) const { return {low - ImVec2{by, by}, high + ImVec2{by, by}}; }
};

inline PixelBox box_about(ImVec2 centre, ImVec2 size) {
    return {centre - size * 0.5F, centre + size * 0.5F};
}

struct Segment {
    ImVec2 from, to;
};

/// Whether the segments cross at a point inside both; touching ends do not count.
inline bool cross_each_other(const Segment& a, const Segment& b) {
    const ImVec2 along_a = a.to - a.from;
    const ImVec2 along_b = b.to - b.from;
    const float sides_of_a = cross(along_a, b.from - a.from) * cross(along_a, b.to - a.from);
    const float sides_of_b = cross(along_b, a.from - b.from) * cross(along_b, a.to - b.from);
    return sides_of_a < 0 && sides_of_b < 0;
}

/// Share of the segment that lies inside the box, as the parameters where it enters and leaves;
/// false if it misses.
inline bool clip_to(const PixelBox& box, const Segment& s, float& enters, float& leaves) {
    enters = 0;
    leaves = 1;
    const ImVec2 d = s.to - s.from;
    const auto slab = [&](float from, float way, float low, float high) {
        if (std::abs(way) < 1e-9F) return from > low && from < high;
        float a = (low - from) / way;
        float b = (high - from) / way;
        if (a > b) std::swap(a, b);
        enters = std::max(enters, a);
        leaves = std::min(leaves, b);
        return enters < leaves;
    };
    return slab(s.from.x, d.x, box.low.x, box.high.x) && slab(s.from.y, d.y, box.low.y, box.high.y);
}

/// Length of the segment inside the box, pixels.
inline float length_inside(const PixelBox& box, const Segment& s) {
    float a = 0;
    float b = 0;
    return clip_to(box, s, a, b) ? size_of(s.to - s.from) * (b - a) : 0;
}

/// The point of the segment that is nearest to `p`.
inline ImVec2 nearest_on(const Segment& s, ImVec2 p) {
    const ImVec2 d = s.to - s.from;
    const float square = d.x * d.x + d.y * d.y;
    if (square < 1e-9F) return s.from;
    const ImVec2 off = p - s.from;
    return s.from + d * std::clamp((off.x * d.x + off.y * d.y) / square, 0.0F, 1.0F);
}

/// Distance from the box to the segment, pixels; 0 if they meet.
inline float distance_between(const PixelBox& box, const Segment& s) {
    if (length_inside(box, s) > 0) return 0;
    float least =
        std::min(size_of(box.nearest(s.from) - s.from), size_of(box.nearest(s.to) - s.to));
    for (const ImVec2 corner :
         {box.low, ImVec2{box.high.x, box.low.y}, box.high, ImVec2{box.low.x, box.high.y}})
        least = std::min(least, size_of(nearest_on(s, corner) - corner));
    return least;
}

}  // namespace podwright
