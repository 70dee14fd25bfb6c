#include "gap/element.hpp"

#include <algorithm>
#include <cmath>

#include "core/units.hpp"

namespace podwright {

namespace {

using glm::dvec2;
using Kind = Element::Kind;

constexpr double straight = 1e-12;  // a bulge below this is a straight line

double cross(const dvec2& a, const dvec2& b) { return a.x * b.y - a.y * b.x; }
dvec2 direction(double angle) { return {std::cos(angle), std::sin(angle)}; }

dvec2 involute_point(const Element& e, double roll) {
    const dvec2 out = direction(e.from + e.sign * roll);
    return e.centre + e.radius * (out - dvec2(-out.y, out.x) * (e.sign * roll));
}

/// `angle` moved by whole turns to within half a turn of `near`.
double turned_near(double angle, double near) {
    return angle - 2 * pi * std::round((angle - near) / (2 * pi));
}

/// The roll angle at which the string touches the base circle at `angle`, if the involute has it.
struct Roll {
    bool on = false;
    double value = 0;
};
Roll roll_at(const Element& e, double angle) {
    const double middle = (e.first + e.last) / 2;
    const double roll = turned_near(e.sign * (angle - e.from), middle);
    return {std::abs(roll - middle) <= std::abs(e.last - e.first) / 2, roll};
}

void set_box(Element& e) {
    e.low = glm::min(e.a, e.b);
    e.high = glm::max(e.a, e.b);
    if (e.kind == Kind::line) return;
    if (e.kind == Kind::involute) {
        const double slack = e.sagitta(0, 1);
        e.low -= slack;
        e.high += slack;
        return;
    }
    for (const dvec2 way : {dvec2(1, 0), dvec2(-1, 0), dvec2(0, 1), dvec2(0, -1)}) {
        if (!e.faces(way)) continue;
        e.low = glm::min(e.low, e.centre + way * e.radius);
        e.high = glm::max(e.high, e.centre + way * e.radius);
    }
}

/// Offers the feet of normals from `p` on the inside of the element (not its ends).
template <class Take>
void feet_of(const Element& e, const dvec2& p, Take take) {
    if (e.kind == Kind::line) {
        const dvec2 way = e.b - e.a;
        const double along = glm::dot(p - e.a, way), whole = glm::dot(way, way);
        if (along > 0 && along < whole) take(e.a + way * (along / whole));
    } else if (e.kind == Kind::arc) {
        const dvec2 way = p - e.centre;
        const double distance = glm::length(way);
        if (distance <= 0) return;
        for (const double side : {1.0, -1.0})
            if (e.faces(way * side)) take(e.centre + way * (side * e.radius / distance));
    } else {
        // Normals of an involute are the tangents of its base circle.
        const dvec2 way = p - e.centre;
        const double distance = glm::length(way);
        if (distance <= e.radius) return;
        const double open = std::acos(e.radius / distance), angle = std::atan2(way.y, way.x);
        for (const double side : {1.0, -1.0})
            if (const Roll roll = roll_at(e, angle + side * open); roll.on)
                take(involute_point(e, roll.value));
    }
}

/// Offers the points of the inside of `e` where its normal runs along `way` (unit), either sense.
template <class Take>
void normals_along(const Element& e, const dvec2& way, Take take) {
    if (e.kind == Kind::arc) {
        for (const double side : {1.0, -1.0})
            if (e.faces(way * side)) take(e.centre + way * (side * e.radius));
    } else if (e.kind == Kind::involute) {
        const double angle = std::atan2(way.y, way.x) + pi / 2;
        for (const double turn : {0.0, pi})
            if (const Roll roll = roll_at(e, angle + turn); roll.on)
                take(involute_point(e, roll.value));
    }
}

/// Directions of the lines that are normal to both curves.
template <class Take>
void common_normals(const Element& e, const Element& f, Take take) {
    const auto tangent_circle = [](const Element& x) {
        return x.kind == Kind::involute ? x.radius : 0.0;
    };
    const dvec2 way = f.centre - e.centre;
    const double distance = glm::length(way);
    if (distance <= 0) return;
    // Both normals touch their (base) circles; on one line that lies `re` from one centre and
    // ±`rf` from the other.
    const double re = tangent_circle(e), rf = tangent_circle(f);
    const dvec2 along = way / distance, across(-along.y, along.x);
    const auto offer = [&](double difference) {
        if (std::abs(difference) > distance) return;
        const double s = difference / distance, c = std::sqrt(1 - s * s);
        take(along * c + across * s);
        if (s != 0) take(along * c - across * s);
    };
    offer(re + rf);
    if (re > 0 && rf > 0) offer(re - rf);
}

/// Pairs of points where one line is normal to both.
void offer_stationary(const Element& e, const Element& f, Closest& best) {
    if (e.kind == Kind::line || f.kind == Kind::line) {
        const Element& line = e.kind == Kind::line ? e : f;
        const Element& curve = e.kind == Kind::line ? f : e;
        if (curve.kind == Kind::line) return;
        const dvec2 way = glm::normalize(line.b - line.a);
        normals_along(curve, {-way.y, way.x}, [&](const dvec2& q) {
            feet_of(line, q,
                    [&](const dvec2& p) { &line == &e ? best.offer(p, q) : best.offer(q, p); });
        });
        return;
    }
    common_normals(e, f, [&](const dvec2& way) {
        normals_along(e, way, [&](const dvec2& p) {
            normals_along(f, way, [&](const dvec2& q) { best.offer(p, q); });
        });
    });
}

bool on_line(const Element& e, const dvec2& p) {
    const dvec2 way = e.b - e.a;
    const double along = glm::dot(p - e.a, way);
    return along >= 0 && along <= glm::dot(way, way);
}

/// Where line `e` crosses the circle of arc `f`, if on both.
template <class Take>
void cross_line_arc(const Element& e, const Element& f, Take take) {
    const dvec2 way = e.b - e.a, to = f.centre - e.a;
    const double whole = glm::dot(way, way);
    const dvec2 foot = e.a + way * (glm::dot(to, way) / whole);
    const dvec2 off = foot - f.centre;
    const double left = f.radius * f.radius - glm::dot(off, off);
    if (left < 0) return;
    const dvec2 half = way * std::sqrt(left / whole);
    for (const dvec2& p : {foot + half, foot - half})
        if (on_line(e, p) && f.faces(p - f.centre)) take(p);
}

template <class Take>
void cross_arcs(const Element& e, const Element& f, Take take) {
    const dvec2 way = f.centre - e.centre;
    const double squared = glm::dot(way, way);
    if (squared <= 0) return;
    const double along = (squared + e.radius * e.radius - f.radius * f.radius) / (2 * squared);
    const double left = e.radius * e.radius / squared - along * along;
    if (left < 0) return;
    const dvec2 foot = e.centre + way * along, half = dvec2(-way.y, way.x) * std::sqrt(left);
    for (const dvec2& p : {foot + half, foot - half})
        if (e.faces(p - e.centre) && f.faces(p - f.centre)) take(p);
}

/// Signed distance of `p` from the endless curve on which `f` lies.
double side_of(const Element& f, const dvec2& p) {
    if (f.kind == Kind::line) {
        const dvec2 way = f.b - f.a;
        return cross(way, p - f.a) / glm::length(way);
    }
    const dvec2 way = p - f.centre;
    const double distance = glm::length(way);
    if (f.kind == Kind::arc) return distance - f.radius;
    // Along the string that touches the base circle at `angle` its length is rb times the roll.
    if (distance <= f.radius) return -f.radius;
    const double open = std::acos(f.radius / distance), angle = std::atan2(way.y, way.x);
    const double roll =
        turned_near(f.sign * (angle + f.sign * open - f.from), (f.first + f.last) / 2);
    return std::sqrt(distance * distance - f.radius * f.radius) - f.radius * roll;
}

/// Where involute `e` crosses `f`: between places where the side of `f` changes.
template <class Take>
void cross_involute(const Element& e, const Element& f, Take take) {
    constexpr int pieces = 6;
    double before = side_of(f, e.a);
    for (int k = 1; k <= pieces; ++k) {
        double low = (k - 1.0) / pieces, high = static_cast<double>(k) / pieces;
        const double after = side_of(f, e.at(high));
        if ((before < 0) != (after < 0)) {
            for (int i = 0; i < 60 && high - low > 1e-16; ++i) {
                const double middle = (low + high) / 2;
                ((side_of(f, e.at(middle)) < 0) == (before < 0) ? low : high) = middle;
            }
            const dvec2 p = e.at(low);
            if (glm::length(nearest(f, p) - p) < 1e-9) take(p);
        }
        before = after;
    }
}

void offer_crossing(const Element& e, const Element& f, Closest& best) {
    const auto take = [&](const dvec2& p) { best = {0, p, p}; };
    if (e.kind == Kind::involute) return cross_involute(e, f, take);
    if (f.kind == Kind::involute) return cross_involute(f, e, take);
    if (e.kind == Kind::arc && f.kind == Kind::arc) return cross_arcs(e, f, take);
    if (e.kind == Kind::arc) return cross_line_arc(f, e, take);
    if (f.kind == Kind::arc) return cross_line_arc(e, f, take);
    const dvec2 u = e.b - e.a, v = f.b - f.a;
    const double s = cross(u, f.a - e.a), t = cross(u, f.b - e.a);
    const double p = cross(v, e.a - f.a), q = cross(v, e.b - f.a);
    if (s * t < 0 && p * q < 0) take(e.a + u * (p / (p - q)));
}

}  // namespace

dvec2 Element::at(double share) const {
    switch (kind) {
        case Kind::line: return a + (b - a) * share;
        case Kind::arc: return centre + radius * direction(from + sign * last * share);
        case Kind::involute: return involute_point(*this, first + (last - first) * share);
    }
    return a;
}

bool Element::faces(const dvec2& way) const {
    return glm::dot(way, middle) >= cos_half * glm::length(way);
}

double Element::sagitta(double from_share, double to_share) const {
    if (kind == Kind::line) return 0;
    const double step = std::abs((last - first) * (to_share - from_share));
    if (kind == Kind::arc) return radius * (step < pi ? 1 - std::cos(step / 2) : 2.0);
    // Radius of curvature rb t, length of arc rb t dt: below (length)² / (8 radius) for the
    // largest t.
    return radius * std::max(first, last) * step * step / 8;
}

double Element::length() const {
    if (kind == Kind::line) return glm::length(b - a);
    if (kind == Kind::arc) return radius * last;
    return radius * std::max(first, last) * std::abs(last - first);
}

Element line_element(const dvec2& a, const dvec2& b) {
    Element e;
    e.a = a;
    e.b = b;
    set_box(e);
    return e;
}

Element arc_element(const dvec2& a, const dvec2& b, double bulge) {
    if (std::abs(bulge) <= straight) return line_element(a, b);
    Element e;
    e.kind = Kind::arc;
    e.a = a;
    e.b = b;
    e.sign = bulge > 0 ? 1 : -1;
    e.last = 4 * std::atan(std::abs(bulge));
    // From the middle of the chord to the centre, to the left of the way: (1 - bulge²) / (2 bulge)
    // half chords.
    const dvec2 half = (b - a) * 0.5, left(-half.y, half.x);
    e.centre = a + half + left * ((1 - bulge * bulge) / (2 * bulge));
    e.radius = glm::length(a - e.centre);
    e.from = std::atan2(a.y - e.centre.y, a.x - e.centre.x);
    e.middle = glm::normalize(left) * -e.sign;
    e.cos_half = std::cos(e.last / 2);
    set_box(e);
    return e;
}

Element involute_element(const dvec2& centre, double base_radius, double foot, double sign,
                         double first, double last) {
    Element e;
    e.kind = Kind::involute;
    e.centre = centre;
    e.radius = base_radius;
    e.from = foot;
    e.sign = sign;
    e.first = first;
    e.last = last;
    e.a = e.at(0);
    e.b = e.at(1);
    set_box(e);
    return e;
}

Element moved(const Element& e, const PlaneMotion& motion) {
    Element result = e;
    const bool mirror = motion.mirrors();
    result.a = motion(e.a);
    result.b = motion(e.b);
    if (e.kind != Kind::line) {
        result.centre = motion(e.centre);
        result.middle = motion.turn * e.middle;
        const dvec2 start = motion.turn * direction(e.from);
        result.from = std::atan2(start.y, start.x);
        result.sign = mirror ? -e.sign : e.sign;
    }
    set_box(result);
    return result;
}

dvec2 nearest(const Element& e, const dvec2& p) {
    if (e.kind == Kind::line) {
        const dvec2 way = e.b - e.a;
        const double share = glm::dot(p - e.a, way) / glm::dot(way, way);
        return share <= 0 ? e.a : share >= 1 ? e.b : e.a + way * share;
    }
    if (e.kind == Kind::arc) {
        const dvec2 way = p - e.centre;
        const double distance = glm::length(way);
        if (distance > 0 && e.faces(way)) return e.centre + way * (e.radius / distance);
    }
    Closest best;
    best.offer(p, e.a);
    best.offer(p, e.b);
    if (e.kind == Kind::involute) feet_of(e, p, [&](const dvec2& q) { best.offer(p, q); });
    return best.b;
}

dvec2 farthest(const Element& e, const dvec2& p) {
    dvec2 best = glm::length(e.a - p) > glm::length(e.b - p) ? e.a : e.b;
    feet_of(e, p, [&](const dvec2& q) {
        if (glm::length(q - p) > glm::length(best - p)) best = q;
    });
    return best;
}

dvec2 extreme(const Element& e, const dvec2& way) {
    dvec2 best = glm::dot(e.a, way) > glm::dot(e.b, way) ? e.a : e.b;
    const double length = glm::length(way);
    if (e.kind == Kind::line || length <= 0) return best;
    normals_along(e, way / length, [&](const dvec2& q) {
        if (glm::dot(q, way) > glm::dot(best, way)) best = q;
    });
    return best;
}

double side_of_chord(const Element& e, const dvec2& p) {
    const dvec2 way = e.b - e.a;
    const double side = cross(way, p - e.a);
    if (side != 0) return side;
    return way.y != 0 ? -way.y : way.x;
}

bool between_chord(const Element& e, const dvec2& p) {
    if (e.kind == Kind::line) return false;
    const double side = side_of_chord(e, p);
    if (e.kind == Kind::arc) {
        // A counter-clockwise arc bulges to the right of its chord.
        const dvec2 way = p - e.centre;
        return side * e.sign < 0 && glm::dot(way, way) < e.radius * e.radius;
    }
    if (p.x < e.low.x || p.y < e.low.y || p.x > e.high.x || p.y > e.high.y) return false;
    const double bulge = cross(e.b - e.a, e.at(0.5) - e.a);
    if (side * bulge <= 0) return false;
    const double share = glm::dot(p - e.a, e.b - e.a) / glm::dot(e.b - e.a, e.b - e.a);
    if (share <= 0 || share >= 1) return false;
    const dvec2 middle = (e.a + e.b) * 0.5;
    return (side_of(e, p) < 0) == (side_of(e, middle) < 0);
}

void offer_closest(const Element& e, const Element& f, Closest& best) {
    Closest found = best;
    offer_crossing(e, f, found);
    if (found.squared > 0) {
        found.offer(e.a, nearest(f, e.a));
        found.offer(e.b, nearest(f, e.b));
        found.offer(nearest(e, f.a), f.a);
        found.offer(nearest(e, f.b), f.b);
        offer_stationary(e, f, found);
    }
    best = found;
}

}  // namespace podwright
