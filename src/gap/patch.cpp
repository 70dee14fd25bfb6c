#include "gap/patch.hpp"

#include <algorithm>
#include <cmath>

#include "core/units.hpp"

namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;
using Kind = Element::Kind;

constexpr double straight_weight = 0.1;

double cross(const dvec2& a, const dvec2& b) { return a.x * b.y - a.y * b.x; }
dvec2 direction(double angle) { return {std::cos(angle), std::sin(angle)}; }

/// Greatest value of way·p over a stretch of an element of at most a quarter turn.
double reach(const Cell& c, const dvec2& way) {
    const Element& e = *c.element;
    const double ends = std::max(glm::dot(way, c.p0), glm::dot(way, c.p1));
    if (e.kind == Kind::line) return ends;
    if (e.kind == Kind::involute) return ends + c.bulge * glm::length(way);
    const dvec2 a = c.p0 - e.centre, b = c.p1 - e.centre;
    if (e.sign * cross(a, way) < 0 || e.sign * cross(way, b) < 0) return ends;
    return glm::dot(way, e.centre) + e.radius * glm::length(way);
}

/// Greatest value of way·d over the directions from d0 to d1.
double turn_reach(const Cell& c, const dvec2& way) {
    if (cross(c.d0, way) < 0 || cross(way, c.d1) < 0)
        return std::max(glm::dot(way, c.d0), glm::dot(way, c.d1));
    return glm::length(way);
}

/// Unit normal to the right of the element's way at `share`, where it passes `p`.
dvec2 right_of(const Element& e, double share, const dvec2& p) {
    if (e.kind == Kind::arc) return (p - e.centre) * (e.sign / e.radius);
    dvec2 way = e.b - e.a;
    if (e.kind == Kind::involute) {
        // It leaves the base circle at a right angle to its string.
        const double roll = e.first + (e.last - e.first) * share;
        way = direction(e.from + e.sign * roll) * (e.last > e.first ? 1.0 : -1.0);
    }
    return glm::normalize(dvec2(way.y, -way.x));
}

}  // namespace

double Cell::support(const dvec3& way) const {
    const dvec2 across(way.y, way.z);
    if (revolved) return reach(*this, {way.x, turn_reach(*this, across)});
    return reach(*this, across) + std::max(way.x * t0, way.x * t1);
}

double Cell::length_s() const { return glm::length(p1 - p0) + 2 * bulge; }

double Cell::length_t() const { return revolved ? std::max(p0.y, p1.y) * (t1 - t0) : t1 - t0; }

double Cell::size_s() const {
    const bool is_straight = element->kind == Kind::line;
    return is_straight ? straight_weight * length_s() : length_s();
}

double Cell::size_t() const { return revolved ? length_t() : straight_weight * length_t(); }

double Cell::rise_s(const dvec3& way) const {
    const dvec2 across(way.y, way.z);
    const dvec2 plane = revolved ? dvec2(way.x, glm::dot(across, dm)) : across;
    return std::abs(glm::dot(plane, p1 - p0)) + bulge;
}

double Cell::rise_t(const dvec3& way) const {
    if (!revolved) return std::abs(way.x) * (t1 - t0);
    const dvec2 across(way.y, way.z);
    const double quarter = (t1 - t0) * (t1 - t0) / 8;
    return std::max(p0.y, p1.y) *
           (std::abs(glm::dot(across, d1 - d0)) + quarter * glm::length(across));
}

double Cell::normal_spread() const {
    double spread = revolved ? (t1 - t0) / 2 : 0;
    if (element->kind != Kind::line)
        spread += std::abs(element->last - element->first) * (s1 - s0) / 2;
    return spread;
}

namespace {

/// What follows from the ends and the middle.
void finish(Cell& c) {
    const Element& e = *c.element;
    c.bulge = e.sagitta(c.s0, c.s1);
    const double chord = glm::length(c.p1 - c.p0) / 2 + c.bulge;
    const dvec2 n = right_of(e, (c.s0 + c.s1) / 2, c.pm);
    if (c.revolved) {
        const double most = std::max(c.p0.y, c.p1.y) + c.bulge;
        const bool ruled = e.kind == Kind::line;
        c.centre = {c.pm.x, c.dm * c.pm.y};
        c.radius = chord + most * glm::length(c.d1 - c.dm);
        c.normal = {n.x, c.dm * n.y};
        c.from = ruled ? dvec3(c.p0.x, c.dm * c.p0.y) : c.centre;
        c.to = ruled ? dvec3(c.p1.x, c.dm * c.p1.y) : c.centre;
    } else {
        c.centre = {(c.t0 + c.t1) / 2, c.pm};
        c.radius = std::hypot(chord, (c.t1 - c.t0) / 2);
        c.normal = {0, n};
        c.from = {c.t0, c.pm};
        c.to = {c.t1, c.pm};
    }
}

Cell make_cell(const Element& element, bool revolved, double s0, double s1, double t0, double t1) {
    Cell c;
    c.element = &element;
    c.revolved = revolved;
    c.s0 = s0, c.s1 = s1, c.t0 = t0, c.t1 = t1;
    c.p0 = s0 == 0 ? element.a : element.at(s0);
    c.pm = element.at((s0 + s1) / 2);
    c.p1 = s1 == 1 ? element.b : element.at(s1);
    if (revolved) {
        c.d0 = direction(t0);
        c.dm = direction((t0 + t1) / 2);
        c.d1 = direction(t1);
    }
    finish(c);
    return c;
}

}  // namespace

std::vector<Cell> cells_of(const Form& form) {
    const bool revolved = form.kind == Form::Kind::revolved;
    std::vector<Cell> cells;
    cells.reserve(form.region.elements.size() * (revolved ? 4 : 1) + 8);
    for (const Element& e : form.region.elements) {
        const int parts = e.kind == Kind::arc
                              ? std::max(1, static_cast<int>(std::ceil(e.last * 2 / pi - 1e-9)))
                              : 1;
        for (int i = 0; i < parts; ++i) {
            const double s0 = static_cast<double>(i) / parts, s1 = (i + 1.0) / parts;
            if (!revolved) {
                cells.push_back(make_cell(e, false, s0, s1, form.low, form.high));
                continue;
            }
            for (int k = 0; k < 4; ++k)
                cells.push_back(make_cell(e, true, s0, s1, k * pi / 2, (k + 1) * pi / 2));
        }
    }
    return cells;
}

void halve(const Cell& c, bool along_s, Cell& first, Cell& second) {
    first = c;
    second = c;
    if (along_s) {
        first.s1 = second.s0 = (c.s0 + c.s1) / 2;
        first.p1 = second.p0 = c.pm;
        for (Cell* half : {&first, &second}) half->pm = c.element->at((half->s0 + half->s1) / 2);
    } else {
        first.t1 = second.t0 = (c.t0 + c.t1) / 2;
        first.d1 = second.d0 = c.dm;
        if (c.revolved)
            for (Cell* half : {&first, &second}) half->dm = direction((half->t0 + half->t1) / 2);
    }
    finish(first);
    finish(second);
}

}  // namespace podwright
