#include "shape/loops.hpp"

#include <algorithm>
#include <cmath>

#include "core/units.hpp"

namespace podwright {

namespace {

constexpr double quarter_bulge = 0.41421356237309503;  // tan(90° / 4)

constexpr double same = 1e-7;  // mm or rad: less is no difference

glm::dvec2 direction(double angle) { return {std::cos(angle), std::sin(angle)}; }

/// `angle` brought into [0, 2 pi), but for rounding.
double forward_turn(double angle) {
    const double turn = std::fmod(angle + 4 * pi, 2 * pi);
    return turn >= 2 * pi - same ? turn - 2 * pi : turn;
}

/// One line of the hull: from circle `from` to circle `to`, its normal at `angle`.
struct Tangent {
    std::size_t from, to;
    double angle;
};

/// The first tangent that is met when the normal on circle `from` turns on from `angle`; the
/// farthest of several on one line.
Tangent next_tangent(std::span<const Circle> circles, std::size_t from, double angle) {
    Tangent best{from, from, 0};
    double least = 1e9, farthest = 0;
    for (std::size_t to = 0; to < circles.size(); ++to) {
        const glm::dvec2 way = circles[to].centre - circles[from].centre;
        const double length = glm::length(way);
        const double excess = circles[from].radius - circles[to].radius;
        if (to == from || length <= std::abs(excess) + same) continue;  // one inside the other
        const double normal = std::atan2(way.y, way.x) - pi / 2 + std::asin(excess / length);
        const double turn = forward_turn(normal - angle);
        if (turn < least - same || (turn < least + same && length > farthest)) {
            least = turn;
            farthest = length;
            best = {from, to, angle + turn};
        }
    }
    return best;
}

/// The circle from the angle `from` to `to`, where a straight line follows; nothing if they agree.
void add_arc(Loop& loop, const Circle& on, double from, double to) {
    const auto at = [&](double angle) { return on.centre + direction(angle) * on.radius; };
    const double sweep = to - from;
    const int parts = sweep > pi ? 2 : 1;  // a bulge of more than half a turn is a poor number
    if (sweep > same)
        for (int i = 0; i < parts; ++i)
            loop.push_back({at(from + sweep * i / parts), std::tan(sweep / parts / 4)});
    loop.push_back({at(to), 0});
}

}  // namespace

Loop reversed(const Loop& loop) {
    Loop result;
    result.reserve(loop.size());
    for (std::size_t i = loop.size(); i-- > 0;) {
        const std::size_t previous = (i + loop.size() - 1) % loop.size();
        result.push_back({loop[i].at, -loop[previous].bulge});
    }
    return result;
}

Loop mirrored(const Loop& loop) {
    Loop result = reversed(loop);
    for (Corner& corner : result) {
        corner.at.x = -corner.at.x;
        corner.bulge = -corner.bulge;
    }
    return result;
}

Loop moved(Loop loop, const glm::dvec2& shift) {
    for (Corner& corner : loop) corner.at += shift;
    return loop;
}

Loop circle(const glm::dvec2& centre, double radius) {
    return {{{centre.x + radius, centre.y}, 1}, {{centre.x - radius, centre.y}, 1}};
}

Loop circle_hole(const glm::dvec2& centre, double radius) {
    return {{{centre.x + radius, centre.y}, -1}, {{centre.x - radius, centre.y}, -1}};
}

Loop rectangle(const glm::dvec2& low, const glm::dvec2& high, double chamfer) {
    if (chamfer <= 0) return straight({low, {high.x, low.y}, high, {low.x, high.y}});
    return straight({{low.x + chamfer, low.y},
                     {high.x - chamfer, low.y},
                     {high.x, low.y + chamfer},
                     {high.x, high.y - chamfer},
                     {high.x - chamfer, high.y},
                     {low.x + chamfer, high.y},
                     {low.x, high.y - chamfer},
                     {low.x, low.y + chamfer}});
}

Loop rounded_rectangle(const glm::dvec2& low, const glm::dvec2& high, double radius) {
    Loop loop = rectangle(low, high, radius);
    for (std::size_t i = 1; i < loop.size(); i += 2) loop[i].bulge = quarter_bulge;
    return loop;
}

Loop slot(const glm::dvec2& a, const glm::dvec2& b, double half_width) {
    const glm::dvec2 way = glm::normalize(b - a);
    const glm::dvec2 side = glm::dvec2(-way.y, way.x) * half_width;
    return {{a - side, 0}, {b - side, 1}, {b + side, 0}, {a + side, 1}};
}

Loop kidney(double inner, double outer, double from, double to) {
    const double middle = (inner + outer) / 2;
    const double end = std::asin((outer - inner) / 2 / middle);
    const double a = from + end, b = to - end;
    const double bulge = std::tan((b - a) / 4);
    return {{direction(a) * outer, bulge},
            {direction(b) * outer, 1},
            {direction(b) * inner, -bulge},
            {direction(a) * inner, 1}};
}

Loop hull(std::span<const Circle> circles) {
    // Start on the circle that reaches lowest, the last of several there, with the normal down.
    std::size_t start = 0;
    const auto lowest = [&](std::size_t i) { return circles[i].centre.y - circles[i].radius; };
    for (std::size_t i = 1; i < circles.size(); ++i) {
        const double higher = lowest(i) - lowest(start);
        const glm::dvec2 past = {circles[i].centre.x - circles[start].centre.x,
                                 circles[i].radius - circles[start].radius};
        const bool later = past.x > same || (past.x > -same && past.y > 0);
        if (higher < -same || (higher < same && later)) start = i;
    }
    Loop loop;
    loop.reserve(2 * circles.size() + 2);
    std::size_t at = start;
    double angle = -pi / 2;
    const double last = angle + 2 * pi;
    for (std::size_t guard = 0; guard < 2 * circles.size(); ++guard) {
        const Tangent tangent = next_tangent(circles, at, angle);
        if (tangent.from == tangent.to) return circle(circles[at].centre, circles[at].radius);
        if (at == start && tangent.angle >= last) {
            add_arc(loop, circles[at], angle, last);
            loop.pop_back();  // it is where the loop began
            break;
        }
        add_arc(loop, circles[at], angle, tangent.angle);
        at = tangent.to;
        angle = tangent.angle;
        if (at == start && angle >= last - same) break;
    }
    return loop;
}

Loop straight(std::initializer_list<glm::dvec2> corners) {
    Loop loop;
    loop.reserve(corners.size());
    for (const glm::dvec2& at : corners) loop.push_back({at, 0});
    return loop;
}

}  // namespace podwright
