#include "core/shaft.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <span>
#include <stdexcept>

#include "core/band.hpp"
#include "core/units.hpp"

namespace podwright {

namespace {

constexpr double same_place = 1e-7;  // mm
constexpr int most_unknowns = 2 * ShaftModel::most_nodes;
constexpr double mm_per_m = 1000;  // N = kg·m/s², so that N/mm over kg is 1000/s²

double fourth(double v) { return v * v * v * v; }

using Square = std::array<std::array<double, 4>, 4>;

Square times(double factor, Square square) {
    for (auto& row : square)
        for (double& v : row) v *= factor;
    return square;
}

std::array<double, 4> times(const Square& square, const std::array<double, 4>& vector) {
    std::array<double, 4> product{};
    for (std::size_t row = 0; row < 4; ++row)
        for (std::size_t column = 0; column < 4; ++column)
            product[row] += square[row][column] * vector[column];
    return product;
}

/// Stiffness of a Timoshenko element for (w1, slope1, w2, slope2) (Przemieniecki, Theory of Matrix
/// Structural Analysis, 5.6).
Square element_stiffness(double bending, double shear, double length) {
    const double L = length;
    const double phi = 12 * bending / (shear * L * L);
    return times(bending / (L * L * L * (1 + phi)),
                 {{{12, 6 * L, -12, 6 * L},
                   {6 * L, (4 + phi) * L * L, -6 * L, (2 - phi) * L * L},
                   {-12, -6 * L, 12, -6 * L},
                   {6 * L, (2 - phi) * L * L, -6 * L, (4 + phi) * L * L}}});
}

/// Consistent mass of a uniform element, from the shapes of a slender beam.
Square element_mass(double per_length, double length) {
    const double L = length;
    return times(per_length * L / 420, {{{156, 22 * L, 54, -13 * L},
                                         {22 * L, 4 * L * L, 13 * L, -3 * L * L},
                                         {54, 13 * L, 156, -22 * L},
                                         {-13 * L, -3 * L * L, -22 * L, 4 * L * L}}});
}

double& entry(std::span<BandRow> matrix, int row, int column) {
    return matrix[static_cast<std::size_t>(row)][static_cast<std::size_t>(column + 3 - row)];
}

void check(const Shaft& shaft) {
    if (shaft.sections.empty()) throw std::invalid_argument("a shaft has at least one section");
    for (std::size_t i = 0; i < shaft.sections.size(); ++i) {
        const ShaftSection& s = shaft.sections[i];
        if (!(s.to > s.from) || !(s.outside > s.inside) || !(s.inside >= 0))
            throw std::invalid_argument("a section of the shaft is empty");
        if (i > 0 && std::abs(s.from - shaft.sections[i - 1].to) > same_place)
            throw std::invalid_argument("the shaft's sections must follow each other");
    }
    if (!(shaft.bearing_left - shaft.bearing_right > same_place))
        throw std::invalid_argument("the bearings must stand apart");
}

const ShaftSection& section_at(const Shaft& shaft, double y) {
    for (const ShaftSection& s : shaft.sections)
        if (y <= s.to) return s;
    return shaft.sections.back();
}

std::vector<double> places(const Shaft& shaft, const std::vector<double>& stations) {
    const double low = shaft.sections.front().from, high = shaft.sections.back().to;
    std::vector<double> all{low, shaft.bearing_right, shaft.bearing_left};
    all.reserve(3 + shaft.sections.size() + stations.size());
    for (const ShaftSection& s : shaft.sections) all.push_back(s.to);
    all.insert(all.end(), stations.begin(), stations.end());
    std::sort(all.begin(), all.end());
    if (all.front() < low - same_place || all.back() > high + same_place)
        throw std::invalid_argument("a bearing or station lies beyond the shaft's end");
    all.erase(
        std::unique(all.begin(), all.end(), [](double a, double b) { return b - a <= same_place; }),
        all.end());
    if (all.size() > ShaftModel::most_nodes)
        throw std::invalid_argument("the shaft has too many steps and stations");
    return all;
}

/// Of L^-1 M L^-T, where M has no negative eigenvalues. Several vectors at once (subspace
/// iteration; Bathe, Finite Element Procedures, 11.6) part frequencies that lie close together.
double largest_eigenvalue(std::span<const BandRow> lower, std::span<const BandRow> mass) {
    constexpr std::size_t several = 4;
    using Block = std::array<std::array<double, several>, most_unknowns>;
    using Columns = Eigen::Map<Eigen::Matrix<double, Eigen::Dynamic, several, Eigen::RowMajor>>;
    const auto rows = static_cast<Eigen::Index>(lower.size());
    Block block, moved, shaken;
    const std::span blocks(block.data(), lower.size()), moves(moved.data(), lower.size()),
        shakes(shaken.data(), lower.size());
    Columns vectors(block.front().data(), rows, several),
        next(shaken.front().data(), rows, several);
    for (Eigen::Index i = 0; i < rows; ++i)  // any start that favours no mode
        for (Eigen::Index k = 0; k < vectors.cols(); ++k)
            vectors(i, k) = std::cos(static_cast<double>((k + 1) * (2 * i + 1)));
    double largest = 0;
    for (int round = 0; round < 60; ++round) {
        for (Eigen::Index k = 0; k < vectors.cols(); ++k) {  // Gram and Schmidt
            const double before = vectors.col(k).norm();
            for (Eigen::Index j = 0; j < k; ++j)
                vectors.col(k) -= vectors.col(j).dot(vectors.col(k)) * vectors.col(j);
            const double left = vectors.col(k).norm();
            vectors.col(k) *= left > 1e-9 * before ? 1 / left : 0;  // 0: the others span it
        }
        std::copy(blocks.begin(), blocks.end(), moves.begin());
        solve_transposed<several>(lower, moves);
        multiply<several>(mass, moves, shakes);
        solve_lower<several>(lower, shakes);
        const Eigen::Matrix4d seen = vectors.transpose().lazyProduct(next);
        const double value =
            Eigen::SelfAdjointEigenSolver<Eigen::Matrix4d>(seen, Eigen::EigenvaluesOnly)
                .eigenvalues()
                .maxCoeff();
        const bool settled = std::abs(value - largest) < 1e-13 * value;
        largest = value;
        if (settled) break;
        std::copy(shakes.begin(), shakes.end(), blocks.begin());
    }
    return largest;
}

}  // namespace

double ShaftSection::area() const { return pi * (outside * outside - inside * inside) / 4; }
double ShaftSection::second_moment() const { return pi * (fourth(outside) - fourth(inside)) / 64; }
double ShaftSection::polar_moment() const { return 2 * second_moment(); }

double Shaft::mass() const {
    double sum = 0;
    for (const ShaftSection& s : sections) sum += s.area() * (s.to - s.from) * material.density;
    return sum;
}

double shear_coefficient(const ShaftSection& section, const ShaftMaterial& material) {
    const double nu =
        std::clamp(material.elastic_modulus / (2 * material.shear_modulus) - 1, 0.0, 0.5);
    const double m2 = section.inside * section.inside / (section.outside * section.outside);
    const double ring = (1 + m2) * (1 + m2);
    return 6 * (1 + nu) * ring / ((7 + 6 * nu) * ring + (20 + 12 * nu) * m2);
}

double ShaftPoint::deflection() const { return std::hypot(x, z); }
double ShaftPoint::slope() const { return std::hypot(slope_x, slope_z); }
double ShaftCut::moment() const { return std::hypot(moment_x, moment_z); }

ShaftModel::ShaftModel(Shaft shaft, const std::vector<double>& stations)
    : shaft_(std::move(shaft)) {
    check(shaft_);
    y_ = places(shaft_, stations);
    held_ = {node_at(shaft_.bearing_right), node_at(shaft_.bearing_left)};
    elements_.reserve(y_.size() - 1);
    for (std::size_t i = 0; i + 1 < y_.size(); ++i) {
        const ShaftSection& s = section_at(shaft_, (y_[i] + y_[i + 1]) / 2);
        const ShaftMaterial& m = shaft_.material;
        elements_.push_back({y_[i + 1] - y_[i], m.elastic_modulus * s.second_moment(),
                             shear_coefficient(s, m) * m.shear_modulus * s.area(),
                             m.shear_modulus * s.polar_moment(), m.density * s.area(),
                             s.outside / 2, s.second_moment(), s.polar_moment()});
    }
    const int nodes = static_cast<int>(y_.size());
    unknowns_ = 2 * nodes - 2;
    for (int e = 0; e + 1 < nodes; ++e) {
        const Element& element = elements_[static_cast<std::size_t>(e)];
        add_element(factor_, e, element_stiffness(element.bending, element.shear, element.length));
    }
    factor({factor_.data(), static_cast<std::size_t>(unknowns_)});
}

void ShaftModel::add_element(Band& matrix, int element, const Square& of) const {
    for (int a = 0; a < 4; ++a)
        for (int b = 0; b <= a; ++b) {
            const int row = free_index(element + a / 2, a % 2);
            const int column = free_index(element + b / 2, b % 2);
            if (row >= 0 && column >= 0)
                entry(matrix, row, column) +=
                    of[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)];
        }
}

int ShaftModel::node_at(double y) const {
    const auto found = std::lower_bound(y_.begin(), y_.end(), y - same_place);
    if (found == y_.end() || std::abs(*found - y) > same_place)
        throw std::invalid_argument("a load must stand on a station of the shaft");
    return static_cast<int>(found - y_.begin());
}

int ShaftModel::free_index(int node, int freedom) const {
    if (freedom == 0 && (node == held_[0] || node == held_[1])) return -1;
    const int held_before = (node > held_[0] ? 1 : 0) + (node > held_[1] ? 1 : 0);
    // At a bearing only the slope is free, and it takes the place of the deflection.
    const bool held = node == held_[0] || node == held_[1];
    return 2 * node + freedom - held_before - (held ? 1 : 0);
}

ShaftState ShaftModel::solve(const std::vector<ShaftLoad>& loads) const {
    const int nodes = static_cast<int>(y_.size());
    std::array<std::array<double, 2>, most_unknowns> moved{};  // first the loads, then what they do
    std::array<std::array<double, 2>, 2> on_bearing{};  // loads that go straight into a bearing
    std::array<double, most_nodes> torque{};
    for (const ShaftLoad& load : loads) {
        const int node = node_at(load.y);
        const double force[] = {load.force_x, load.force_z};
        const double couple[] = {load.couple_x, load.couple_z};
        const int w = free_index(node, 0), s = free_index(node, 1);
        for (std::size_t plane = 0; plane < 2; ++plane) {
            if (w >= 0)
                moved[static_cast<std::size_t>(w)][plane] += force[plane];
            else
                on_bearing[node == held_[0] ? 0 : 1][plane] += force[plane];
            moved[static_cast<std::size_t>(s)][plane] += couple[plane];
        }
        torque[static_cast<std::size_t>(node)] += load.torque;
    }
    const std::span<const BandRow> lower(factor_.data(), static_cast<std::size_t>(unknowns_));
    solve_lower<2>(lower, {moved.data(), lower.size()});
    solve_transposed<2>(lower, {moved.data(), lower.size()});

    ShaftState state;
    state.y = y_;
    state.points.resize(y_.size());
    for (int n = 0; n < nodes; ++n) {
        const int w = free_index(n, 0);
        const auto by = w < 0 ? std::array{0.0, 0.0} : moved[static_cast<std::size_t>(w)];
        const auto turn = moved[static_cast<std::size_t>(free_index(n, 1))];
        state.points[static_cast<std::size_t>(n)] = {by[0], by[1], turn[0], turn[1]};
    }
    state.cuts.reserve(2 * elements_.size());
    state.worst.safety = 1e9;
    std::array<std::array<double, 2>, most_nodes> shaken{};  // sum of the elements' end forces
    double carried = 0;                                      // torque in the element
    for (std::size_t e = 0; e < elements_.size(); ++e) {
        const Element& element = elements_[e];
        const ShaftPoint &p = state.points[e], &q = state.points[e + 1];
        const Square k = element_stiffness(element.bending, element.shear, element.length);
        const auto fx = times(k, {p.x, p.slope_x, q.x, q.slope_x});
        const auto fz = times(k, {p.z, p.slope_z, q.z, q.slope_z});
        shaken[e][0] += fx[0];
        shaken[e][1] += fz[0];
        shaken[e + 1][0] += fx[2];
        shaken[e + 1][1] += fz[2];
        carried -= torque[e];
        state.cuts.push_back({y_[e], -fx[1], -fz[1], carried});
        state.cuts.push_back({y_[e + 1], fx[3], fz[3], carried});
        for (std::size_t end = state.cuts.size() - 2; end < state.cuts.size(); ++end) {
            const ShaftCut& cut = state.cuts[end];
            const ShaftMaterial& m = shaft_.material;
            ShaftStress s;
            s.y = cut.y;
            s.bending = cut.moment() * element.radius / element.second_moment;
            s.shear = std::abs(cut.torque) * element.radius / element.polar_moment;
            s.equivalent = std::hypot(s.bending, m.strength / m.shear_strength * s.shear);
            s.safety = s.equivalent > 1e-9 * m.strength ? m.strength / s.equivalent : 1e9;
            if (s.safety < state.worst.safety) state.worst = s;
        }
    }
    for (std::size_t plane = 0; plane < 2; ++plane) {
        state.reaction_right[plane] =
            shaken[static_cast<std::size_t>(held_[0])][plane] - on_bearing[0][plane];
        state.reaction_left[plane] =
            shaken[static_cast<std::size_t>(held_[1])][plane] - on_bearing[1][plane];
    }
    return state;
}

ShaftPoint ShaftModel::at(const ShaftState& state, double y) const {
    const auto above = std::upper_bound(y_.begin(), y_.end(), y);
    const std::size_t e = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(
        above - y_.begin() - 1, 0, static_cast<std::ptrdiff_t>(elements_.size()) - 1));
    const Element& element = elements_[e];
    const ShaftPoint& p = state.points[e];
    const ShaftCut &a = state.cuts[2 * e], &b = state.cuts[2 * e + 1];
    const double s = y - y_[e];
    // Slope' = M / EI with M linear; deflection' = slope + V / kappa G A with V = -dM/dy.
    const auto plane = [&](double w, double slope, double from, double to) {
        const double rate = (to - from) / element.length;
        const double turned = slope + (from * s + rate * s * s / 2) / element.bending;
        const double moved = w + slope * s +
                             (from * s * s / 2 + rate * s * s * s / 6) / element.bending -
                             rate * s / element.shear;
        return std::array<double, 2>{moved, turned};
    };
    const auto x = plane(p.x, p.slope_x, a.moment_x, b.moment_x);
    const auto z = plane(p.z, p.slope_z, a.moment_z, b.moment_z);
    return {x[0], z[0], x[1], z[1]};
}

double ShaftModel::twist(const ShaftState& state, double from, double to) const {
    const int a = node_at(from), b = node_at(to);
    double sum = 0;
    for (int e = std::min(a, b); e < std::max(a, b); ++e) {
        const auto i = static_cast<std::size_t>(e);
        sum += state.cuts[2 * i].torque * elements_[i].length / elements_[i].torsion;
    }
    return a < b ? sum : -sum;
}

double ShaftModel::bending_frequency(const std::vector<Rider>& riders) const {
    const int nodes = static_cast<int>(y_.size());
    Band mass{};
    for (int e = 0; e + 1 < nodes; ++e) {
        const Element& element = elements_[static_cast<std::size_t>(e)];
        add_element(mass, e, element_mass(element.per_length, element.length));
    }
    for (const Rider& r : riders) {
        const int node = node_at(r.y), w = free_index(node, 0), s = free_index(node, 1);
        if (w >= 0) {
            entry(mass, w, w) += r.mass;
            entry(mass, s, w) += r.mass * r.beyond;
        }
        entry(mass, s, s) += r.mass * r.beyond * r.beyond + r.transverse_inertia;
    }
    // The inverse of the least square of a frequency.
    const auto unknowns = static_cast<std::size_t>(unknowns_);
    const double largest = largest_eigenvalue({factor_.data(), unknowns}, {mass.data(), unknowns});
    return largest > 0 ? std::sqrt(mm_per_m / largest) : 0;
}

std::array<double, 2> torsional_frequencies(const std::array<double, 3>& inertia, double k1,
                                            double k2) {
    const auto& [a, b, c] = inertia;
    // w⁴ - w² (k1/a + (k1 + k2)/b + k2/c) + k1 k2 (a + b + c) / (a b c) = 0
    const double sum = k1 / a + (k1 + k2) / b + k2 / c;
    const double product = k1 * k2 * (a + b + c) / (a * b * c);
    const double larger = (sum + std::sqrt(std::max(0.0, sum * sum - 4 * product))) / 2;
    // The smaller root from the product: no difference of like numbers.
    return {std::sqrt(mm_per_m * product / larger), std::sqrt(mm_per_m * larger)};
}

}  // namespace podwright
