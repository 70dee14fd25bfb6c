#include "gap/swept_outline.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "shape/grown_outline.hpp"

namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;

constexpr double finest_column = 0.0008;  // mm
constexpr double most_columns = 50000;
constexpr double slack = 0.0011;      // mm, of the outline's corners
constexpr double all_the_way = 1e30;  // mm

/// From one distance from the axis to another.
struct Stretch {
    double low, high;
};
/// Stretches of one column, in order, apart from each other.
using Column = std::vector<Stretch>;

void cover(Column& column, Stretch s) {
    auto first = std::lower_bound(column.begin(), column.end(), s.low,
                                  [](const Stretch& x, double low) { return x.high < low; });
    auto last = first;
    for (; last != column.end() && last->low <= s.high; ++last) {
        s.low = std::min(s.low, last->low);
        s.high = std::max(s.high, last->high);
    }
    if (first == last) {
        column.insert(first, s);
        return;
    }
    *first = s;
    column.erase(first + 1, last);
}

/// A convex polygon of few corners.
struct Cut {
    std::array<dvec3, 8> corners{};
    std::size_t count = 0;
    void add(const dvec3& p) { corners.at(count++) = p; }
};

/// What lies on the side of x = `at` to which `way` (+1 or -1) points.
Cut beyond(const Cut& from, double at, double way) {
    Cut result;
    for (std::size_t i = 0; i < from.count; ++i) {
        const dvec3& p = from.corners[i];
        const dvec3& q = from.corners[(i + 1) % from.count];
        const double p_in = (p.x - at) * way, q_in = (q.x - at) * way;
        if (p_in >= 0) result.add(p);
        if ((p_in > 0 && q_in < 0) || (p_in < 0 && q_in > 0))
            result.add(p + (q - p) * (p_in / (p_in - q_in)));
    }
    return result;
}

/// Nearest and farthest distance of a polygon from the x axis.
Stretch distances(const Cut& cut) {
    double nearest = 1e300, farthest = 0;
    bool left = true, right = true;  // of all edges lies the axis
    for (std::size_t i = 0; i < cut.count; ++i) {
        const dvec2 p(cut.corners[i].y, cut.corners[i].z);
        const dvec3& next = cut.corners[(i + 1) % cut.count];
        const dvec2 way = dvec2(next.y, next.z) - p;
        const double whole = glm::dot(way, way);
        const double share = whole > 0 ? std::clamp(-glm::dot(p, way) / whole, 0.0, 1.0) : 0;
        nearest = std::min(nearest, glm::length(p + way * share));
        farthest = std::max(farthest, glm::length(p));
        const double side = p.x * way.y - p.y * way.x;
        left = left && side > 0;
        right = right && side < 0;
    }
    return {left || right ? 0 : nearest, farthest};
}

/// The half-plane in columns of one width.
class Columns {
public:
    Columns(double low, double high)
        : low_(low), width_(std::max(finest_column, (high - low) / most_columns)) {
        const double count = std::ceil((high - low) / width_);
        columns_.resize(static_cast<std::size_t>(std::max(1.0, count)));
    }

    void cover(const Facets::Triangle& t) {
        const auto [least, most] = std::minmax({t[0].x, t[1].x, t[2].x});
        const Cut whole{{t[0], t[1], t[2]}, 3};
        for (std::size_t k = index(least); k <= index(most); ++k) {
            const Cut cut = beyond(beyond(whole, at(k), 1), at(k + 1), -1);
            if (cut.count > 0) podwright::cover(columns_[k], distances(cut));
        }
    }

    /// Covers what cannot be reached from outside.
    void fill();

    /// What is covered, in rectangles; columns with the same stretches become one.
    std::vector<std::vector<dvec2>> rectangles() const;

private:
    double at(std::size_t k) const { return low_ + width_ * static_cast<double>(k); }
    std::size_t index(double x) const {
        const double k = std::floor((x - low_) / width_);
        return std::min(static_cast<std::size_t>(std::max(0.0, k)), columns_.size() - 1);
    }

    double low_, width_;
    std::vector<Column> columns_;
};

/// What a column leaves open, from the axis on.
Column open_of(const Column& column) {
    Column open;
    double from = 0;
    for (const Stretch& s : column) {
        if (s.low > from) open.push_back({from, s.low});
        from = s.high;
    }
    open.push_back({from, all_the_way});
    return open;
}

void Columns::fill() {
    const std::size_t count = columns_.size();
    std::vector<Column> open(count);
    std::vector<std::vector<char>> reached(count);
    std::vector<std::pair<std::size_t, std::size_t>> to_visit;
    const auto reach = [&](std::size_t k, std::size_t i) {
        if (reached[k][i]) return;
        reached[k][i] = 1;
        to_visit.emplace_back(k, i);
    };
    for (std::size_t k = 0; k < count; ++k) {
        open[k] = open_of(columns_[k]);
        reached[k].assign(open[k].size(), 0);
    }
    for (std::size_t k = 0; k < count; ++k) {
        reach(k, open[k].size() - 1);
        if (k > 0 && k + 1 < count) continue;
        for (std::size_t i = 0; i < open[k].size(); ++i) reach(k, i);
    }
    const auto reach_beside = [&](const Stretch& s, std::size_t k) {
        for (std::size_t i = 0; i < open[k].size(); ++i)
            if (open[k][i].low < s.high && s.low < open[k][i].high) reach(k, i);
    };
    while (!to_visit.empty()) {
        const auto [k, i] = to_visit.back();
        to_visit.pop_back();
        if (k > 0) reach_beside(open[k][i], k - 1);
        if (k + 1 < count) reach_beside(open[k][i], k + 1);
    }
    for (std::size_t k = 0; k < count; ++k)
        for (std::size_t i = 0; i < open[k].size(); ++i)
            if (!reached[k][i]) podwright::cover(columns_[k], open[k][i]);
}

std::vector<std::vector<dvec2>> Columns::rectangles() const {
    std::vector<std::vector<dvec2>> all;
    const auto same = [](const Column& a, const Column& b) {
        return std::equal(
            a.begin(), a.end(), b.begin(), b.end(),
            [](const Stretch& s, const Stretch& t) { return s.low == t.low && s.high == t.high; });
    };
    for (std::size_t begin = 0; begin < columns_.size();) {
        std::size_t end = begin + 1;
        while (end < columns_.size() && same(columns_[begin], columns_[end])) ++end;
        for (const Stretch& s : columns_[begin])
            if (s.high > s.low)
                all.push_back(
                    {{at(begin), s.low}, {at(end), s.low}, {at(end), s.high}, {at(begin), s.high}});
        begin = end;
    }
    return all;
}

/// Sections of a body of revolution that lies across the axis, parallel to both axes. At some way
/// from the middle a section is the profile, sunk from r to sqrt(r^2 - way^2), and its mirror
/// image; one farther out lies within it.
class Section {
public:
    /// `along`: of the profile's origin from the foot of the axis; `beside`: of the body's axis
    /// from the other.
    Section(std::span<const Element> profile, double along, double beside)
        : beside_(std::abs(beside)) {
        for (const Element& e : profile) {
            // Where the radius changes the profile is taken in short pieces, each as a step.
            const double change = std::max(std::abs(e.b.y - e.a.y), e.sagitta(0, 1));
            const int pieces = 1 + static_cast<int>(e.b.x == e.a.x ? 0 : change / (slack / 2));
            for (int i = 0; i < pieces; ++i) {
                const dvec2 p = e.at(static_cast<double>(i) / pieces);
                const dvec2 q = e.at(static_cast<double>(i + 1) / pieces);
                const auto [low, high] = std::minmax({p.x + along, q.x + along});
                pieces_.push_back({std::max(std::abs(low), std::abs(high)),
                                   std::max({0.0, low, -high}), std::max(p.y, q.y)});
            }
        }
    }

    double radius() const {
        double most = 0;
        for (const Piece& piece : pieces_) most = std::max(most, piece.radius);
        return most;
    }

    /// Nearest and farthest point of the section from the axis of turning.
    Stretch at(double way) const {
        double nearest = 1e300, farthest = 0;  // squared
        for (const Piece& piece : pieces_) {
            const double squared = piece.radius * piece.radius - way * way;
            if (squared < 0) continue;
            const double half = std::sqrt(squared);
            const double beyond = std::max(0.0, beside_ - half), reach = beside_ + half;
            nearest = std::min(nearest, piece.near * piece.near + beyond * beyond);
            farthest = std::max(farthest, piece.far * piece.far + reach * reach);
        }
        return {std::sqrt(nearest), std::sqrt(farthest)};
    }

private:
    struct Piece {
        double far, near;  ///< of its places along the profile, from the foot of the axis
        double radius;
    };
    double beside_;
    std::vector<Piece> pieces_;
};

std::vector<Loop> loops_of(const std::vector<std::vector<dvec2>>& rings) {
    std::vector<Loop> loops;
    for (const auto& ring : rings) {
        Loop loop;
        for (const dvec2& p : ring) loop.push_back({{p.x, std::max(0.0, p.y)}, 0});
        loops.push_back(std::move(loop));
    }
    return loops;
}

}  // namespace

std::vector<Loop> swept_outline(std::span<const Facets::Triangle> surface) {
    double low = 1e300, high = -1e300;
    for (const Facets::Triangle& t : surface)
        for (const dvec3& p : t) {
            low = std::min(low, p.x);
            high = std::max(high, p.x);
        }
    Columns columns(low, high);
    for (const Facets::Triangle& t : surface) columns.cover(t);
    columns.fill();
    return loops_of(grown_outline(columns.rectangles(), slack));
}

std::vector<Loop> swept_crosswise(std::span<const Element> profile, double along, double beside) {
    const Section section(profile, along, beside);
    const double radius = section.radius();
    const auto count = static_cast<int>(std::ceil(radius / finest_column));
    const double width = radius / count;
    std::vector<dvec2> near, far;  // from the middle on, in steps
    for (int k = 0; k < count; ++k) {
        const Stretch s = section.at(width * k);
        for (const int end : {k, k + 1}) {
            near.emplace_back(width * end, s.low);
            far.emplace_back(width * end, s.high);
        }
    }
    // Counter-clockwise: along the near side, back along the far one; both halves are alike.
    std::vector<dvec2> ring;
    const auto put = [&](const dvec2& p, double side) { ring.emplace_back(side * p.x, p.y); };
    for (auto p = near.rbegin(); p != near.rend(); ++p) put(*p, -1);
    for (const dvec2& p : near) put(p, 1);
    for (auto p = far.rbegin(); p != far.rend(); ++p) put(*p, 1);
    for (const dvec2& p : far) put(p, -1);
    return loops_of(grown_outline({ring}, slack));
}

}  // namespace podwright
